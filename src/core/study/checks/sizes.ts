import type { Problem } from "../../problem.ts";
import type { Size, Study } from "../schema/study.ts";
import { fault } from "./study-problems.ts";

const sized = ["collectors", "stores", "stepDowns", "chillers", "backups"] as const;

/** Sizes have the bounds that their choice needs. */
export function checkSizes(study: Study): Problem[] {
  return sized.flatMap((list) => study[list].flatMap(({ size }, i) => ofSize(size, `${list}/${i}/size`)));
}

function ofSize(size: Size, path: string): Problem[] {
  if (size.choice === "fixed" && size.fixed === undefined)
    return [
      fault("STUDY_SIZE", `${path}/fixed`, 'The size is "fixed" and does not say at what; give "fixed".'),
    ];
  if (size.choice !== "bounded") return [];
  if (size.most === undefined)
    return [
      fault("STUDY_SIZE", `${path}/most`, 'The size is "bounded" and has no upper bound; give "most".'),
    ];
  if ((size.least ?? 0) <= size.most) return [];
  return [
    fault(
      "STUDY_SIZE",
      `${path}/least`,
      `The size is at least ${size.least} and at most ${size.most}; "least" cannot lie above "most".`,
    ),
  ];
}

const usedBy = { free: [], bounded: ["least", "most"], fixed: ["fixed"] } as const;

/** Bounds that are given and not used, and new plant that costs nothing. */
export function sizeRemarks(study: Study): Problem[] {
  return sized.flatMap((list) =>
    study[list].flatMap(({ id, size, parts }, i) => {
      const used: readonly string[] = usedBy[size.choice];
      const idle = (["least", "most", "fixed"] as const).filter(
        (bound) => size[bound] !== undefined && !used.includes(bound),
      );
      const remarks = idle.map((bound) =>
        fault(
          "REMARK_SIZE_UNUSED",
          `${list}/${i}/size/${bound}`,
          `The size of "${id}" is "${size.choice}", so its "${bound}" of ${size[bound]} is not used.`,
        ),
      );
      const mayBuild =
        size.choice === "free" ||
        (size.choice === "fixed" && (size.fixed ?? 0) > 0) ||
        (size.choice === "bounded" && (size.most ?? 0) > 0);
      if (mayBuild && parts.every((part) => part.price_per_unit === 0))
        remarks.push(
          fault(
            "REMARK_FREE_NEW_PLANT",
            `${list}/${i}/parts`,
            `New plant of "${id}" has no price, so its size in the answer means little.`,
          ),
        );
      return remarks;
    }),
  );
}
