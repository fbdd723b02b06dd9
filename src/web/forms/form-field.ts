import type { Problem } from "../../core/problem.ts";

export interface Choice {
  readonly value: string;
  readonly label: string;
}

interface Place {
  readonly path: string;
  /** The path as an id of the page: letters, digits and hyphens. */
  readonly anchor: string;
  readonly title: string;
  readonly help: string;
  readonly problems: readonly Problem[];
}

/** Where a value comes from, for the mark beside its input; null: the user gave it. */
export interface OriginMark {
  readonly status: "assumption" | "published" | "confirmed";
  readonly source: string;
}

export interface InputField extends Place {
  readonly kind: "input";
  readonly input: "number" | "text" | "long-text" | "numbers" | "yes-no" | "choice" | "many";
  readonly unit: string;
  /** What may be written, e.g. "0 to 1". */
  readonly range: string;
  readonly optional: boolean;
  /** As typed, or as stored. */
  readonly value: string;
  /** The values chosen of several. */
  readonly values: readonly string[];
  readonly choices: readonly Choice[];
  readonly origin: OriginMark | null;
}

/** Fields that belong together. */
export interface GroupField extends Place {
  readonly kind: "group";
  readonly optional: boolean;
  /** Shown only when asked for, where nothing in it was given. */
  readonly folded: boolean;
  readonly fields: readonly FormField[];
}

/** A table: one row an entry, and an empty one to add with. */
export interface RowsField extends Place {
  readonly kind: "rows";
  readonly columns: readonly { readonly title: string; readonly unit: string }[];
  readonly rows: readonly {
    readonly path: string;
    readonly isNew: boolean;
    readonly cells: readonly InputField[];
  }[];
}

export type FormField = InputField | GroupField | RowsField;

export function anchorOf(path: string): string {
  return `at-${path.replace(/[^A-Za-z0-9]+/g, "-")}`;
}
