import { buildForm, type FormContext } from "../forms/build-form.ts";
import { anchorOf, type FormField, type InputField } from "../forms/form-field.ts";
import type { ItemList } from "../forms/study-paths.ts";
import { wordFor } from "../forms/words.ts";
import { proseFor, proseKey, type Segment } from "./prose.ts";

/** One thing of the study with its inputs: a sentence, and the rest below it. */
export interface ItemView {
  readonly anchor: string;
  readonly title: string;
  /** What kind of thing it is, where its list has several. */
  readonly kind: string;
  readonly prose: readonly Segment[];
  readonly rest: readonly FormField[];
  /** Inputs that stand in the sentence, for the table of ranges and sources. */
  readonly inProse: readonly InputField[];
  readonly path: string;
  /** How many of its values are assumed and not confirmed. */
  readonly assumed: number;
  readonly open: boolean;
  readonly list: ItemList | null;
  readonly id: string;
  /** Upload pages that set this thing's profile. */
  readonly uploadPage: string | null;
}

/** The view of one part of the study that is no list item: site, money, limits … */
export function partView(context: FormContext, key: string, path: string, title: string): ItemView {
  return view(context, { key, path, title, kind: "", list: null, id: "", uploadPage: null });
}

/** The views of every item in a list. */
export function itemViews(context: FormContext, list: ItemList, studyId: string): ItemView[] {
  return context.study[list].map((item, index) => {
    const named = item as { readonly id: string; readonly name?: string; readonly kind?: string };
    const takesUpload = list === "loads" && !["desalination", "batch-drying"].includes(named.kind ?? "");
    return view(context, {
      key: proseKey(context.study, list, index),
      path: `${list}/${index}`,
      title: named.name ?? stepDownName(context, named.id),
      kind: list === "loads" ? wordFor(named.kind) : "",
      list,
      id: named.id,
      uploadPage: takesUpload ? `/studies/${studyId}/demand/${named.id}` : null,
    });
  });
}

function stepDownName({ study }: FormContext, id: string): string {
  const down = study.stepDowns.find((item) => item.id === id);
  const nameOf = (network: string | undefined) =>
    study.networks.find((item) => item.id === network)?.name ?? network ?? "";
  return down === undefined ? id : `From ${nameOf(down.from)} to ${nameOf(down.to)}`;
}

interface Thing {
  readonly key: string;
  readonly path: string;
  readonly title: string;
  readonly kind: string;
  readonly list: ItemList | null;
  readonly id: string;
  readonly uploadPage: string | null;
}

function view(context: FormContext, thing: Thing): ItemView {
  const prose = proseFor(context, thing.key, thing.path);
  const inProse = prose.flatMap((segment) => ("input" in segment ? [segment.input] : []));
  const taken = new Set(inProse.map(({ path }) => path));
  // The study's head is no group of its own: beside its sentence stands the note.
  const all = buildForm(context, thing.path === "" ? "note" : thing.path);
  const rest = without(all, taken);
  const inputs = [...inProse, ...inputsOf(rest)];
  return {
    anchor: anchorOf(thing.path === "" ? "head" : thing.path),
    title: thing.title,
    kind: thing.kind,
    prose,
    rest,
    inProse,
    path: thing.path,
    assumed: inputs.filter(({ origin }) => origin?.status === "assumption").length,
    open: rest.some(hasProblem),
    list: thing.list,
    id: thing.id,
    uploadPage: thing.uploadPage,
  };
}

/** The fields without those that stand in the sentence, and without groups that become empty. */
function without(fields: readonly FormField[], taken: ReadonlySet<string>): FormField[] {
  return fields.flatMap((field): FormField[] => {
    if (taken.has(field.path)) return [];
    if (field.kind !== "group") return [field];
    const left = without(field.fields, taken);
    return left.length === 0 ? [] : [{ ...field, fields: left }];
  });
}

function inputsOf(fields: readonly FormField[]): InputField[] {
  return fields.flatMap((field) => {
    if (field.kind === "input") return [field];
    if (field.kind === "group") return inputsOf(field.fields);
    return field.rows.filter(({ isNew }) => !isNew).flatMap(({ cells }) => cells);
  });
}

function hasProblem(field: FormField): boolean {
  if (field.problems.length > 0) return true;
  if (field.kind === "group") return field.fields.some(hasProblem);
  return field.kind === "rows" && field.rows.some(({ cells }) => cells.some(hasProblem));
}
