import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** LibreOffice, a spreadsheet program of its own, writes the workbooks that the tests read. */
export const hasOffice = (() => {
  try {
    execFileSync("soffice", ["--version"], { stdio: "ignore", timeout: 60_000 });
    return true;
  } catch {
    return false;
  }
})();

/** A CSV or flat OpenDocument sheet as LibreOffice saves it in xlsx. */
export function asXlsx(source: string | Uint8Array, ending: "csv" | "fods"): Uint8Array {
  const folder = mkdtempSync(join(tmpdir(), "noonkeep-office-"));
  try {
    const file = join(folder, `source.${ending}`);
    writeFileSync(file, source);
    const own = `-env:UserInstallation=file://${folder}/profile`;
    execFileSync("soffice", [own, "--headless", "--convert-to", "xlsx", "--outdir", folder, file], {
      stdio: "ignore",
      timeout: 120_000,
    });
    return new Uint8Array(readFileSync(join(folder, "source.xlsx")));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

export interface OdsSheet {
  readonly name: string;
  /** Rows of cells as OpenDocument XML, made with `cell`. */
  readonly rows: readonly string[];
}

const escaped = (text: string) => text.replace(/&/g, "&amp;").replace(/</g, "&lt;");

/** Cells of OpenDocument 1.3 part 3, section 9. */
export const cell = {
  text: (text: string, across = 1) =>
    `<table:table-cell office:value-type="string" table:number-columns-spanned="${across}"><text:p>${escaped(text)}</text:p></table:table-cell>${"<table:covered-table-cell/>".repeat(across - 1)}`,
  number: (value: number) => `<table:table-cell office:value-type="float" office:value="${value}"/>`,
  date: (iso: string) =>
    `<table:table-cell table:style-name="moment" office:value-type="date" office:date-value="${iso}"/>`,
  formula: (formula: string) => `<table:table-cell table:formula="of:=${escaped(formula)}"/>`,
  empty: () => "<table:table-cell/>",
};

/** A flat OpenDocument workbook whose days count from 1899-12-30 or 1904-01-01. */
export function flatOds(sheets: readonly OdsSheet[], nullDate: "1899-12-30" | "1904-01-01"): string {
  const names = ["office", "table", "text", "style"].map(
    (name) => `xmlns:${name}="urn:oasis:names:tc:opendocument:xmlns:${name}:1.0"`,
  );
  names.push(
    'xmlns:number="urn:oasis:names:tc:opendocument:xmlns:datastyle:1.0"',
    'xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2"',
  );
  const styles =
    '<number:date-style style:name="N1"><number:year number:style="long"/><number:text>-</number:text><number:month number:style="long"/><number:text>-</number:text><number:day number:style="long"/><number:text> </number:text><number:hours number:style="long"/><number:text>:</number:text><number:minutes number:style="long"/></number:date-style>' +
    '<style:style style:name="moment" style:family="table-cell" style:data-style-name="N1"/>';
  const tables = sheets.map(
    ({ name, rows }) =>
      `<table:table table:name="${name}">${rows.map((row) => `<table:table-row>${row}</table:table-row>`).join("")}</table:table>`,
  );
  return `<?xml version="1.0" encoding="UTF-8"?><office:document ${names.join(" ")} office:version="1.3" office:mimetype="application/vnd.oasis.opendocument.spreadsheet"><office:automatic-styles>${styles}</office:automatic-styles><office:body><office:spreadsheet><table:calculation-settings><table:null-date table:date-value="${nullDate}"/></table:calculation-settings>${tables.join("")}</office:spreadsheet></office:body></office:document>`;
}
