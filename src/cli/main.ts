#!/usr/bin/env node
import { Command, CommanderError } from "commander";
import { version } from "../app/version.ts";
import { checkCommand } from "./commands/check.ts";
import { curveCommand } from "./commands/curve.ts";
import { exampleCommand } from "./commands/example.ts";
import { robustCommand } from "./commands/robust.ts";
import { serveCommand } from "./commands/serve.ts";
import { sizeCommand } from "./commands/size.ts";
import { sureCommand } from "./commands/sure.ts";
import { weatherYearCommand } from "./commands/weather-year.ts";
import { exitCodes, InputFault } from "./exit-codes.ts";

// A reader that closes early (`| head`) is no fault of ours.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(exitCodes.done);
});

const program = new Command("noonkeep")
  .description(
    "Sizes solar collectors and storage against a factory's heat demands, hour by hour through a real year.",
  )
  .version(version)
  .exitOverride()
  .showHelpAfterError();
for (const command of [
  exampleCommand(),
  checkCommand(),
  sizeCommand(),
  curveCommand(),
  robustCommand(),
  sureCommand(),
  weatherYearCommand(),
  serveCommand(),
]) {
  program.addCommand(command.exitOverride());
}

try {
  await program.parseAsync();
} catch (error) {
  process.exitCode = codeOf(error);
}

function codeOf(error: unknown): number {
  // Commander has already said what was wrong with the call; help and version end with 0.
  if (error instanceof CommanderError) return error.exitCode === 0 ? exitCodes.done : exitCodes.inputFault;
  if (error instanceof InputFault) {
    process.stderr.write(`${error.lines.join("\n")}\n`);
    return exitCodes.inputFault;
  }
  // The message alone: a solver package's source would fill the screen.
  const { name, message } = error instanceof Error ? error : { name: "Error", message: String(error) };
  process.stderr.write(
    `noonkeep failed, which is a fault of the program: ${name}: ${message.slice(0, 500)}\n`,
  );
  if (process.env.NOONKEEP_TRACE !== undefined && error instanceof Error)
    process.stderr.write(`${error.stack}\n`);
  return exitCodes.programFault;
}
