import { DateTime } from "luxon";

/** How a year of metered values is written as a file. */
export interface Dressing {
  readonly zone: string;
  readonly year: number;
  readonly clock: "standard" | "civil";
  readonly utcOffset_h: number;
  readonly step_min: number;
  readonly delimiter: "," | ";" | "\t";
  readonly decimal: "." | ",";
  readonly encoding: "utf-8" | "utf-8-bom" | "utf-16le" | "latin-1";
  readonly date: "iso" | "iso-t" | "day-first" | "month-first" | "split" | "twelve-hour";
  readonly unit: "kW" | "kWh" | "MW" | "MWh";
  readonly stamp: "start" | "end";
  readonly descending?: boolean;
}

export const plain: Dressing = {
  zone: "America/Denver",
  year: 2023,
  clock: "standard",
  utcOffset_h: -7,
  step_min: 60,
  delimiter: ",",
  decimal: ".",
  encoding: "utf-8",
  date: "iso",
  unit: "kW",
  stamp: "start",
};

/** Interval starts (ms since 1970) of one year of the clock in which the file is written. */
export function intervalStarts(dressing: Dressing): number[] {
  const { zone, year, clock, utcOffset_h, step_min } = dressing;
  const start = (y: number) =>
    clock === "civil"
      ? DateTime.fromObject({ year: y }, { zone }).toMillis()
      : Date.UTC(y, 0, 1) - utcOffset_h * 3_600_000;
  const first = start(year);
  const count = Math.round((start(year + 1) - first) / (step_min * 60_000));
  return Array.from({ length: count }, (_, k) => first + k * step_min * 60_000);
}

/** The labels are Luxon's, so the reader's own conversion of civil time is checked against it. */
export function dress(dressing: Dressing, power_kW: (k: number) => number): Uint8Array {
  const { zone, clock, utcOffset_h, step_min, delimiter, unit, stamp } = dressing;
  const factor = { kW: 1, MW: 1e-3, kWh: step_min / 60, MWh: step_min / 60_000 }[unit];
  const quoted = (text: string) => (text.includes(delimiter) ? `"${text}"` : text);
  const cells = intervalStarts(dressing).map((start, k) => {
    const instant = start + (stamp === "end" ? step_min * 60_000 : 0);
    const offset_min = clock === "civil" ? DateTime.fromMillis(instant, { zone }).offset : utcOffset_h * 60;
    const value = String(power_kW(k) * factor).replace(".", dressing.decimal);
    return [...dateCells(new Date(instant + offset_min * 60_000), dressing.date), quoted(value)].join(
      delimiter,
    );
  });
  if (dressing.descending === true) cells.reverse();
  const header = [...(dressing.date === "split" ? ["Day", "Clock"] : ["Zähler"]), `Wärme [${unit}]`].join(
    delimiter,
  );
  return encode(`${[header, ...cells].join("\r\n")}\r\n`, dressing.encoding);
}

function dateCells(wall: Date, form: Dressing["date"]): string[] {
  const iso = wall.toISOString();
  const [y, m, d, time] = [iso.slice(0, 4), iso.slice(5, 7), iso.slice(8, 10), iso.slice(11, 16)];
  switch (form) {
    case "iso":
      return [`${y}-${m}-${d} ${time}:00`];
    case "iso-t":
      return [`${y}-${m}-${d}T${time}`];
    case "day-first":
      return [`${d}.${m}.${y} ${time}`];
    case "month-first":
      return [`${Number(m)}/${Number(d)}/${y} ${time}`];
    case "split":
      return [`${d}.${m}.${y}`, time];
    case "twelve-hour": {
      const hour = wall.getUTCHours();
      return [
        `${m}/${d}/${y} ${hour % 12 === 0 ? 12 : hour % 12}:${time.slice(3)} ${hour < 12 ? "AM" : "PM"}`,
      ];
    }
  }
}

export function encode(text: string, encoding: Dressing["encoding"]): Uint8Array {
  if (encoding === "utf-16le") return new Uint8Array(Buffer.from(`\ufeff${text}`, "utf16le"));
  if (encoding === "latin-1") return new Uint8Array(Buffer.from(text, "latin1"));
  return new Uint8Array(Buffer.from(encoding === "utf-8-bom" ? `\ufeff${text}` : text, "utf8"));
}

/** Mean power by hour of a year of 365 days in standard time, counted from its first hour and wrapped. */
export function expectedHours(dressing: Dressing, power_kW: (k: number) => number): Float64Array {
  const total = new Float64Array(8760);
  intervalStarts(dressing).forEach((start, k) => {
    const since_h = (start + dressing.utcOffset_h * 3_600_000 - Date.UTC(dressing.year, 0, 1)) / 3_600_000;
    const hour = ((Math.floor(since_h) % 8760) + 8760) % 8760;
    total[hour] += (power_kW(k) * dressing.step_min) / 60;
  });
  return total;
}
