import type { Problem } from "../../problem.ts";
import type { Part, Size, Study } from "../schema/study.ts";
import { fault } from "./study-problems.ts";

const sized = ["collectors", "stores", "stepDowns", "chillers", "backups"] as const;

/** Sizes have the bounds that their choice needs. */
export function checkSizes(study: Study): Problem[] {
  return sizedThings(study).flatMap(({ size, path }) => ofSize(size, `${path}/size`));
}

interface SizedThing {
  readonly name: string;
  readonly path: string;
  readonly size: Size;
  readonly parts: readonly Part[];
}

/** Everything of a study that has a size, charging powers after the plant. */
function sizedThings(study: Study): SizedThing[] {
  return [
    ...sized.flatMap((list) =>
      study[list].map(({ id, size, parts }, i) => ({ name: `"${id}"`, path: `${list}/${i}`, size, parts })),
    ),
    ...study.stores.flatMap(({ id, charging }, i) =>
      charging === undefined
        ? []
        : [{ ...charging, name: `the charging of "${id}"`, path: `stores/${i}/charging` }],
    ),
  ];
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
  return sizedThings(study).flatMap(({ name, path, size, parts }) => {
    const used: readonly string[] = usedBy[size.choice];
    const idle = (["least", "most", "fixed"] as const).filter(
      (bound) => size[bound] !== undefined && !used.includes(bound),
    );
    const remarks = idle.map((bound) =>
      fault(
        "REMARK_SIZE_UNUSED",
        `${path}/size/${bound}`,
        `The size of ${name} is "${size.choice}", so its "${bound}" of ${size[bound]} is not used.`,
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
          `${path}/parts`,
          `New plant of ${name} has no price, so its size in the answer means little.`,
        ),
      );
    return remarks;
  });
}
