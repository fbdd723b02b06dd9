import { SingleBar } from "cli-progress";
import type { Progress } from "../app/types.ts";

/** A bar on stderr where that is a terminal, else a line for each new step. */
export function showProgress(): { readonly report: (progress: Progress) => void; readonly end: () => void } {
  if (!process.stderr.isTTY) {
    let last = "";
    return {
      report: ({ doing }) => {
        // Step counts change all the time; a log wants only the stages.
        const stage = doing.replace(/\d+/g, "");
        if (stage === last) return;
        last = stage;
        process.stderr.write(`${doing}\n`);
      },
      end: () => {},
    };
  }
  const bar = new SingleBar({
    format: "{bar} {percentage}% {doing}",
    stream: process.stderr,
    hideCursor: true,
  });
  bar.start(1, 0, { doing: "" });
  return {
    report: ({ doing, share }) => {
      if (share === null) bar.update({ doing });
      else bar.update(share, { doing });
      // The solver holds the thread, so the bar's own timer never fires.
      bar.render();
    },
    end: () => bar.stop(),
  };
}
