import type { DemandReading } from "../../core/study/schema/profile.ts";
import type { Question } from "./account.ts";
import { type FaultGroup, shorten } from "./demand-problems.ts";
import { type Decimal, type DecimalEvidence, decimalEvidence, isMissing, readNumber } from "./read-number.ts";

/** Numbers of the rows as the file writes them. */
export interface WrittenValues {
  /** NaN where the cell is missing or not understood. */
  readonly value: Float64Array;
  /** Positions of rows whose cell is empty or says that the value is missing. */
  readonly missing: readonly number[];
  readonly decimal: Decimal;
  readonly decimalHow: string;
  readonly faults: readonly Omit<FaultGroup, "file" | "column">[];
  readonly questions: readonly Question[];
}

/** Reads the value cells of all rows; the decimal sign is told from all of them together. */
export function understandValues(
  cells: readonly string[],
  line: Int32Array,
  delimiter: string,
  reading: DemandReading,
): WrittenValues {
  const evidence = decimalEvidence(cells);
  const { decimal, how, question } = findDecimal(evidence, delimiter, reading.decimal);
  const at = (i: number) => ({ row: line[i]!, found: cells[i]! });
  const mixed = evidence.points.length > 0 && evidence.commas.length > 0 && reading.decimal === undefined;
  const fewer = evidence.points.length < evidence.commas.length ? evidence.points : evidence.commas;
  const told = new Set(mixed ? fewer : []);

  const value = new Float64Array(cells.length).fill(Number.NaN);
  const missing: number[] = [];
  const notNumbers: number[] = [];
  cells.forEach((cell, i) => {
    if (isMissing(cell)) missing.push(i);
    else {
      value[i] = readNumber(cell, decimal);
      if (Number.isNaN(value[i]) && !told.has(i)) notNumbers.push(i);
    }
  });
  const name = decimal === "." ? "decimal point" : "decimal comma";
  return {
    value,
    missing,
    decimal,
    decimalHow: how,
    questions: question === null ? [] : [question],
    faults: [
      {
        code: "DEMAND_DECIMAL_MIXED",
        faults: [...told].map(at),
        one: (found) =>
          `"${shorten(found)}" is not written with the ${name} of most rows; write all numbers alike.`,
        many: `are not written with the ${name} of most rows`,
      },
      {
        code: "DEMAND_NUMBER_NOT_UNDERSTOOD",
        faults: notNumbers.map(at),
        one: (found) =>
          `"${shorten(found)}" is not a number with a ${name}; give a number, or leave the cell empty where the value is missing.`,
        many: `hold no number with a ${name}`,
      },
    ],
  };
}

function findDecimal(evidence: DecimalEvidence, delimiter: string, said: Decimal | undefined) {
  const { points, commas, either, eitherIsDecimal, eitherSign } = evidence;
  if (said !== undefined) return { decimal: said, how: "said by user", question: null };
  if (points.length + commas.length > 0) {
    const decimal: Decimal = points.length >= commas.length ? "." : ",";
    const count = Math.max(points.length, commas.length);
    return { decimal, how: `${count} cells can only be read so`, question: null };
  }
  if (either.length === 0 || eitherSign === null) {
    const decimal: Decimal = delimiter === ";" ? "," : ".";
    return { decimal, how: "no cell has a decimal sign", question: null };
  }
  const other: Decimal = eitherSign === "." ? "," : ".";
  const decimal = eitherIsDecimal ? eitherSign : other;
  const question: Question = {
    code: "DEMAND_DECIMAL",
    sentence: `${either.length} cells are written like 1${eitherSign}234: is the sign a decimal sign or does it separate thousands?`,
    field: "decimal",
    choices: [
      { value: eitherSign, sentence: `1${eitherSign}234 is a little more than one` },
      { value: other, sentence: `1${eitherSign}234 is one thousand two hundred and thirty-four` },
    ],
    taken: decimal,
  };
  return { decimal, how: "guessed from cells that may be read in two ways", question };
}
