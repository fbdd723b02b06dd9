import type { StudyCalendar } from "../../core/calendar.ts";
import { fuelMeterFault, heatPerFuel_kWh } from "../../core/demand/fuel-metered.ts";
import { absurdRates } from "../../core/demand/quality/absurd-rates.ts";
import { numberWords } from "../../core/demand/quality/hour-words.ts";
import type { QualityFinding } from "../../core/demand/quality/quality-report.ts";
import { rowList } from "../../core/demand/quality/row-list.ts";
import type { Problem } from "../../core/problem.ts";
import type { DemandReading } from "../../core/study/schema/profile.ts";
import type { Calendar } from "../../core/study/schema/study.ts";
import {
  type DemandAccount,
  type DemandQuantity,
  emptyUnderstood,
  type Question,
  type Understood,
} from "./account.ts";
import { askUnit } from "./ask-unit.ts";
import { chooseUnit, quantityOfFuel } from "./choose-unit.ts";
import { countTable, voidOverGaps } from "./count-table.ts";
import { askCounter } from "./counter-values.ts";
import { type DemandProblemCode, rowProblems, shorten } from "./demand-problems.ts";
import { hourlyUnit, unitFactor } from "./find-unit.ts";
import { hourlyFigures } from "./hourly-figures.ts";
import { hoursOfRows } from "./hours-of-rows.ts";
import { negativeValues } from "./negative-values.ts";
import { openTable, type Table } from "./open-table.ts";
import type { PlacedRows } from "./place-rows.ts";
import { askClockOffset, planOfReading } from "./plan-of-reading.ts";
import { timesOfTable } from "./times-of-table.ts";
import { understandValues } from "./understand-values.ts";

export interface DemandOptions {
  /** Name of the file for messages. */
  readonly file: string;
  readonly reading: DemandReading;
  readonly calendar: StudyCalendar;
  /** Calendars of the study, one of which the reading may name. */
  readonly calendars?: readonly Calendar[] | undefined;
  readonly quantity: DemandQuantity;
  /** Most that the consumer can take; hours of power that disagree are asked about. */
  readonly nameplate_kW?: number | undefined;
  /** What its bills come to in a year, kWh; asked about likewise. */
  readonly billed_kWh?: number | undefined;
}

/**
 * Reads a CSV or xlsx of a year into 8760 hours on the study's standard time, with an account of what was
 * understood, what is left open, what was filled and what looks odd. Never throws for any bytes; all
 * faults of the file are told at once. See docs/methods/demand-import.md.
 */
export function readDemand(bytes: Uint8Array, options: DemandOptions): DemandAccount {
  const { file, reading, quantity, calendar } = options;
  const problems: Problem[] = [];
  const questions: Question[] = [];
  const findings: QualityFinding[] = [];
  const add = (code: DemandProblemCode, message: string, column?: string) =>
    problems.push({ code, message, place: column === undefined ? { file } : { file, column } });
  const refuse = (known: Partial<Understood>): DemandAccount => ({
    understood: { ...emptyUnderstood, ...known },
    problems,
    questions,
    quality: { findings, filled: [] },
    extension: null,
    known: null,
    hourly: null,
    resolvedReading: reading,
  });

  const opened = openTable(bytes, file, reading, quantity);
  problems.push(...opened.problems);
  questions.push(...opened.questions);
  if (opened.table === null) return refuse(opened.understood);
  let table: Table = opened.table;
  questions.push(...table.layout.questions);

  // Values and times are both read before anything is refused, so that all faults show at once.
  let values =
    table.layout.value === null
      ? null
      : understandValues(
          table.rows.map((row) => row[table.layout.value!]!),
          table.line,
          table.delimiter,
          reading,
        );
  const column = table.layout.value === null ? undefined : table.layout.names[table.layout.value];
  for (const group of values?.faults ?? []) problems.push(...rowProblems({ ...group, file, column }));
  questions.push(...(values?.questions ?? []));

  const counterQuestion =
    values === null || quantity === "price" ? null : askCounter(values.value, reading.values);
  if (counterQuestion !== null) questions.push(counterQuestion);
  const counter = (reading.values === "counter" && quantity !== "price") || counterQuestion !== null;
  if (values !== null && counter) {
    const counted = countTable(table, values.value, column!, file);
    problems.push(...counted.problems);
    findings.push(...counted.findings);
    table = counted.table;
    values = { ...values, value: counted.value };
  }

  const times = timesOfTable(
    table,
    counter ? { ...options, reading: { ...reading, stamp: "start" } } : options,
  );
  problems.push(...times.problems);
  questions.push(...times.questions);
  findings.push(...times.findings);

  const fuel = quantity === "power" ? reading.fuel : undefined;
  const metered = fuel === undefined ? quantity : quantityOfFuel(column ?? "", reading.unit);
  const fuelFault = fuel === undefined ? null : fuelMeterFault(fuel);
  if (fuelFault !== null) add("DEMAND_FUEL_EFFICIENCY", fuelFault);
  const unit = chooseUnit(column ?? "", metered, times.step_min ?? 60, reading.unit, counter);
  if (unit.question !== null && values !== null) questions.push(unit.question);
  if (counter && (unit.unit === "kW" || unit.unit === "MW"))
    add("DEMAND_UNIT_UNSUPPORTED", `A counter does not count ${unit.unit}; say kWh, MWh, MJ or GJ.`, column);
  const hint =
    quantity === "power" && fuel === undefined && unit.unit !== null
      ? " Where the file meters a boiler's fuel, give its heating value and efficiency."
      : "";
  if (unit.fault !== null) add("DEMAND_UNIT_UNSUPPORTED", `${unit.fault}${hint}`, column);

  if (values !== null) {
    const cells = table.rows.map((row) => row[table.layout.value!]!);
    const negative = negativeValues(values.value, cells, table.line, quantity, { file, column });
    problems.push(...negative.problems);
    findings.push(...negative.findings);
  }

  const known: Partial<Understood> = {
    ...opened.understood,
    ...times.understood,
    ...(values === null ? {} : { decimal: values.decimal, decimalHow: values.decimalHow }),
    unit: unit.unit,
    values: counter ? "counter" : "interval",
    unitHow: unit.how,
  };
  if (values === null || times.placed === null || times.step_min === null || unit.fault !== null)
    return refuse(known);

  const { step_min } = times;
  const placed = moved(times.placed, reading.clockOffset_h ?? 0);
  const yearOfFile = times.understood.yearOfFile ?? null;
  const plan =
    quantity === "price" ? null : planOfReading(reading, options.calendars ?? [], calendar, yearOfFile);
  const perUnit = fuel === undefined ? 1 : heatPerFuel_kWh(fuel);
  const factor = perUnit * (unit.unit === null ? 1 : unitFactor(unit.unit, step_min));
  const rate = values.value.map((value) => value * factor);
  const absurd = absurdRates(rate, quantity, hourlyUnit(quantity, unit.unit) ?? "");
  if (absurd !== null)
    problems.push(
      ...rowProblems({
        code: "DEMAND_ABSURD",
        file,
        column,
        faults: absurd.at.map((i) => ({ row: table.line[i]!, found: table.rows[i]![table.layout.value!]! })),
        one: (cell) => `${shorten(cell)} is absurd: ${absurd.why}. Correct the cell or the unit.`,
        many: `are absurd: ${absurd.why}; correct the cells or the unit`,
      }),
    );
  if (counter) findings.push(...voidOverGaps(rate, placed.start_ms, step_min, table.line));
  const has = Array.from(rate.keys()).filter((i) => !Number.isNaN(placed.start_ms[i]));
  const hours = hoursOfRows(
    {
      start_ms: Float64Array.from(has, (i) => placed.start_ms[i]),
      rate: Float64Array.from(has, (i) => rate[i]),
      line: Int32Array.from(has, (i) => table.line[i]!),
      step_min,
    },
    { file, calendar, yearOfFile, plan, judgeGaps: problems.length === 0 },
  );
  problems.push(...hours.problems);
  const fileTotal = rate.reduce(
    (total, value) => total + (Number.isNaN(value) ? 0 : (value * step_min) / 60),
    0,
  );
  const leftOut = Array.from(rate.keys()).filter((i) => Number.isNaN(placed.start_ms[i]) && rate[i] > 0);
  if (leftOut.length > 0 && placed.clock === "civil" && problems.length === 0) {
    const lost = leftOut.reduce((total, i) => total + (rate[i] * step_min) / 60, 0);
    findings.push({
      kind: "dst-missing",
      sentence: `The rows at times that civil time skips hold ${numberWords(lost)} (value × hours), which the hours do not contain: ${rowList(leftOut.map((i) => table.line[i]!))}.`,
      rows: { from: table.line[leftOut[0]!]!, to: table.line[leftOut[leftOut.length - 1]!]! },
      from: null,
      to: null,
      count: leftOut.length,
    });
  }

  const offset =
    plan === null || hours.known === null || reading.clockOffset_h !== undefined
      ? null
      : askClockOffset(hours.known, plan);
  if (offset !== null) questions.push(offset);

  const figures = hourlyFigures(hours.hourly, quantity, unit.unit);
  const slip =
    fuel === undefined && unit.unit !== null && reading.unit === undefined
      ? askUnit(figures, unit.unit, step_min, options)
      : null;
  if (slip !== null) {
    const open = questions.findIndex(({ field }) => field === "unit");
    if (open >= 0) questions.splice(open, 1);
    questions.push(slip);
  }

  const resolvedReading: DemandReading = {
    ...times.resolved,
    valueColumn: column!,
    ...(fuel === undefined ? {} : { fuel }),
    ...(reading.values === undefined && !counter ? {} : { values: counter ? "counter" : "interval" }),
    ...(unit.unit === null ? {} : { unit: unit.unit }),
    decimal: values.decimal,
    ...(reading.calendar === undefined ? {} : { calendar: reading.calendar }),
    ...(reading.extend === undefined ? {} : { extend: reading.extend }),
    ...(reading.clockOffset_h === undefined ? {} : { clockOffset_h: reading.clockOffset_h }),
    ...(opened.understood.sheet == null
      ? { delimiter: table.delimiter }
      : { sheet: opened.understood.sheet }),
  };
  return {
    understood: {
      ...emptyUnderstood,
      ...known,
      fileTotal,
      ...figures,
    },
    problems,
    questions,
    quality: { findings: [...findings, ...hours.quality.findings], filled: hours.quality.filled },
    extension: problems.length === 0 ? hours.extension : null,
    known: hours.known,
    hourly: problems.length === 0 ? hours.hourly : null,
    resolvedReading,
  };
}

/** Rows with their times moved by the error of the logger's clock. */
function moved(placed: PlacedRows, offset_h: number): PlacedRows {
  if (offset_h === 0) return placed;
  return { ...placed, start_ms: placed.start_ms.map((start) => start + offset_h * 3_600_000) };
}
