/** What a colour stands for, the same on every chart and page. */
export type Meaning = "direct" | "store" | "backup" | "spill" | "electricity" | "cold" | "ink";

export interface Theme extends Readonly<Record<Meaning, string>> {
  /** The paper. */
  readonly ground: string;
  /** Axis words and other quiet text. */
  readonly inkSoft: string;
  /** Hairlines; never carries meaning alone. */
  readonly rule: string;
}

export const meanings: readonly Meaning[] = [
  "direct",
  "store",
  "backup",
  "spill",
  "electricity",
  "cold",
  "ink",
];

/** Lightness (CIE L*) falls direct > spill > cold > store > electricity > backup > ink, so grey print keeps them apart. */
export const light: Theme = {
  ground: "#fdfcf8",
  ink: "#181c21",
  inkSoft: "#5a5f66",
  rule: "#dcd8cd",
  direct: "#c0881b",
  store: "#a24420",
  backup: "#2e3d4d",
  spill: "#6e8451",
  electricity: "#643e89",
  cold: "#2175a6",
};

export const dark: Theme = {
  ground: "#15181c",
  ink: "#edebe5",
  inkSoft: "#a9adb2",
  rule: "#363b42",
  direct: "#fac756",
  store: "#db7248",
  backup: "#5f6d80",
  spill: "#a7be88",
  electricity: "#966abd",
  cold: "#60acdf",
};

/** Name of the style sheet's variable for each theme colour. */
export const variableNames: Readonly<Record<keyof Theme, string>> = {
  ground: "--ground",
  ink: "--ink",
  inkSoft: "--ink-soft",
  rule: "--rule",
  direct: "--direct",
  store: "--store",
  backup: "--backup",
  spill: "--spill",
  electricity: "--electricity",
  cold: "--cold",
};
