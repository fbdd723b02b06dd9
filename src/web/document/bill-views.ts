import type { ResolvedStudy } from "../../app/types.ts";
import { bills, type Chart, type ChartFrame } from "../../charts/index.ts";
import { amountUnit } from "../../core/demand/bills/bill-amount.ts";
import { loadProfile } from "../../core/demand/loads/load-profile.ts";
import type { BillsProfile, Study } from "../../core/study/schema/study.ts";
import { billSentences, billsTable } from "../../present/bills-table.ts";
import type { TableView } from "../../present/table-view.ts";
import type { ChartView } from "./document-charts.ts";

type Show = (prefix: string, draw: (frame: ChartFrame) => Chart, title?: string) => ChartView;

export interface BillView {
  readonly table: TableView;
  readonly sentences: readonly string[];
}

/** The table of bills of each load that is given by them, by its id. */
export function billViews(resolved: ResolvedStudy | null): Readonly<Record<string, BillView>> {
  if (resolved === null) return {};
  const { study, billYears } = resolved;
  return Object.fromEntries(
    Object.entries(billYears).flatMap(([id, year]) => {
      const billed = billsOf(study, id);
      if (billed === null) return [];
      const { profile, quantity } = billed;
      const sentences = billSentences(study, profile, quantity, year);
      return [[id, { table: billsTable(study, profile, quantity, year), sentences }]];
    }),
  );
}

/** The chart of a load's bills; none for other loads. */
export function billCharts(study: Study, id: string, { billYears }: ResolvedStudy, show: Show): ChartView[] {
  const year = billYears[id];
  const billed = billsOf(study, id);
  if (year === undefined || billed === null) return [];
  const data = { stretches: year.stretches, unit: amountUnit[billed.quantity] };
  return [show(`bills-${id}`, (frame) => bills(data, frame))];
}

function billsOf(study: Study, id: string) {
  const load = study.loads.find((one) => one.id === id);
  const profile = load === undefined ? null : loadProfile(load);
  if (profile?.rate.from !== "bills") return null;
  return { profile: profile.rate satisfies BillsProfile, quantity: profile.quantity };
}
