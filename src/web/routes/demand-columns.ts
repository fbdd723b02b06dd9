import { loadProfile } from "../../core/demand/loads/load-profile.ts";
import type { DemandReading, Load, Study } from "../../core/study/schema/study.ts";
import type { DemandAccount, Question } from "../../formats/demand/account.ts";
import { looksLikeNumber } from "../../formats/demand/read-number.ts";
import type { FormEntries } from "../forms/apply-fields.ts";
import { lastValue } from "../plugins/form-body.ts";

/** A further column of numbers in the file, and the loads that it could feed. */
export interface OtherColumn {
  readonly field: string;
  readonly name: string;
  readonly sample: string;
  /** Load id, `new`, or empty where it is left out. */
  readonly chosen: string;
}

export const newLoad = "new";

/** Columns of numbers beside the one that was read, with what the form says of each. */
export function otherColumns({ understood }: DemandAccount, form: FormEntries): OtherColumn[] {
  const times = understood.timeColumn?.split(" + ") ?? [];
  return understood.columns.flatMap(({ name, sample }, index) => {
    const used = name === understood.valueColumn || name === understood.timeColumn || times.includes(name);
    if (used || !looksLikeNumber(sample)) return [];
    const field = `column-${index}`;
    return [{ field, name, sample, chosen: lastValue(form, field) }];
  });
}

export interface FedLoads {
  /** The loads with every chosen column as the profile of its load. */
  readonly loads: Study["loads"];
  /** Why columns cannot be taken; nothing is to be stored while there is one. */
  readonly faults: readonly string[];
}

/**
 * Feeds further columns of one file to further loads. Time, clock and decimal sign are those settled for
 * the first column; unit, gaps, doubles and nameplate are judged for each column by itself, and a column
 * that leaves something open is refused rather than guessed. A new load is process heat on `network`.
 */
export function feedColumns(
  loads: Study["loads"],
  columns: readonly OtherColumn[],
  settled: DemandReading,
  context: {
    readonly fileName: string;
    readonly first: string;
    readonly network: string;
    readonly read: (load: Load, reading: DemandReading) => DemandAccount;
  },
): FedLoads {
  const faults: string[] = [];
  const fed = [...loads];
  const taken = new Map([[context.first, "the column above"]]);
  const { unit: _unit, valueColumn: _column, fuel: _fuel, ...time } = settled;
  for (const { name, chosen } of columns) {
    if (chosen === "") continue;
    const at = chosen === newLoad ? fed.length : fed.findIndex(({ id }) => id === chosen);
    const load = chosen === newLoad ? freshLoad(name, fed, context.network) : fed[at];
    const profile = load === undefined ? null : loadProfile(load);
    if (load === undefined || profile === null) {
      faults.push(`Column "${name}": the study has no load "${chosen}" that takes a profile.`);
      continue;
    }
    const other = taken.get(load.id);
    if (other !== undefined) {
      faults.push(`Column "${name}" and ${other} are both for ${load.name}; choose one of them.`);
      continue;
    }
    taken.set(load.id, `column "${name}"`);
    const account = context.read(load, { ...time, valueColumn: name });
    faults.push(
      ...account.problems.map(
        ({ message, place }) =>
          `Column "${name}"${place.row === undefined ? "" : `, row ${place.row}`}: ${message}`,
      ),
      ...account.questions.map((question) => openSentence(name, question)),
    );
    const reading = account.resolvedReading;
    fed[at] = { ...load, [profile.property]: { from: "file", file: context.fileName, reading } } as Load;
  }
  return { loads: fed, faults };
}

function openSentence(name: string, { sentence }: Question): string {
  return `Column "${name}" leaves something open: ${sentence} Say it in the column's title, or upload the file for that load alone and answer there.`;
}

function freshLoad(name: string, loads: readonly Load[], network: string): Load {
  const plain = name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "")
    .slice(0, 30);
  const base = /^[a-z]/.test(plain) ? plain : `load-${plain}`.replace(/-+$/, "");
  const ids = new Set(loads.map(({ id }) => id));
  let id = base;
  for (let n = 2; ids.has(id); n += 1) id = `${base}-${n}`;
  return {
    kind: "process-heat",
    id,
    name: name.slice(0, 80),
    network,
    heat_kW: { from: "constant", level: 0 },
  };
}
