import { civilLabel, type StudyCalendar } from "../core/calendar.ts";
import type { HourlyResult } from "../core/dispatch/hourly-result.ts";
import { hoursPerYear } from "../core/series.ts";

interface Column {
  readonly name: string;
  readonly values: Float64Array;
}

const networkColumns = [
  "demand_kW",
  "solar_kW",
  "backup_kW",
  "charge_kW",
  "discharge_kW",
  "stepIn_kW",
  "stepOut_kW",
  "spill_kW",
  "unmet_kW",
  "content_kWh",
  "marginal_per_kWh",
] as const;

/** Columns of hours.csv after the hour and its local time. */
function columnsOf(hours: HourlyResult): Column[] {
  return [
    ...hours.networks.flatMap((network) =>
      networkColumns.map((key) => ({ name: `${network.id}_${key}`, values: network[key] })),
    ),
    { name: "electricity_kW", values: hours.electricity_kW },
    { name: "electricity_price_per_kWh", values: hours.electricityPrice_per_kWh },
    ...hours.cold.flatMap((cold) => [
      { name: `${cold.id}_cold_demand_kW`, values: cold.demand_kW },
      { name: `${cold.id}_absorption_kW`, values: cold.absorption_kW },
      { name: `${cold.id}_electric_kW`, values: cold.electric_kW },
      { name: `${cold.id}_cold_charge_kW`, values: cold.charge_kW },
      { name: `${cold.id}_cold_discharge_kW`, values: cold.discharge_kW },
      { name: `${cold.id}_cold_content_kWh`, values: cold.content_kWh },
      { name: `${cold.id}_cold_unmet_kW`, values: cold.unmet_kW },
    ]),
    ...hours.water.flatMap((water) => [
      { name: `${water.id}_made_m3_h`, values: water.made_m3_h },
      { name: `${water.id}_order_m3_h`, values: water.order_m3_h },
      { name: `${water.id}_unmet_m3_h`, values: water.unmet_m3_h },
      { name: `${water.id}_tank_m3`, values: water.tank_m3 },
    ]),
    ...hours.batches.map((batch) => ({ name: `${batch.id}_batch_kW`, values: batch.heat_kW })),
  ];
}

/**
 * Everything hourly as CSV, comma and decimal point: `hour` 0 to 8759, local time with its offset,
 * then a column for each series. Numbers are the shortest that read back bit for bit, so each row's
 * balance closes as in the answer; a marginal cost that the solver does not give is left empty.
 */
export function hoursCsv(hours: HourlyResult, calendar: StudyCalendar): string {
  const columns = columnsOf(hours);
  const lines = [`hour,local_time,${columns.map(({ name }) => name).join(",")}`];
  for (let hour = 0; hour < hoursPerYear; hour += 1) {
    let line = `${hour},${civilLabel(calendar, hour)}`;
    for (const { values } of columns) line += Number.isNaN(values[hour]) ? "," : `,${values[hour]}`;
    lines.push(line);
  }
  lines.push("");
  return lines.join("\n");
}
