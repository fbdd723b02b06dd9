/** What a regression of bills says. */
export interface BillFit {
  /** Amount of a whole year that does not go by the weather, in the bills' amount unit. */
  readonly steady_per_year: number;
  /** Amount per K·d. */
  readonly slope_per_Kd: number;
  /** Standard error of the slope; NaN with two bills. */
  readonly slopeError_per_Kd: number;
  /** Share of the variance of the daily means that the fit explains. */
  readonly r2: number;
  /** Root mean square error of the daily means over their mean, with N − 2 degrees of freedom. */
  readonly cvRmse: number;
  /** What the fit gives for each bill. */
  readonly fitted: Float64Array;
}

/** One bill for the regression. */
export interface FittedBill {
  readonly amount: number;
  readonly days: number;
  /** Part of the year's steady use that falls on its days. */
  readonly steadyShare: number;
  readonly degreeDays_Kd: number;
}

/**
 * Bills by least squares: amount = steady × its share of a year + slope × degree days, each bill weighted
 * by 1/days, as the variance of a sum of days grows with their number. R² and CV(RMSE) are of the daily
 * means, weighted by days. Two unknowns; with equal days and an even steady use it is the common straight
 * line. Null where the bills cannot tell the two apart (fewer than three, or degree days in proportion to
 * the steady share). Normal equations: any textbook of regression, e.g. Draper and Smith, ch. 1.
 */
export function fitBills(bills: readonly FittedBill[]): BillFit | null {
  let [uu, ud, dd, uq, dq] = [0, 0, 0, 0, 0];
  for (const { amount: q, days, steadyShare: u, degreeDays_Kd: d } of bills) {
    uu += (u * u) / days;
    ud += (u * d) / days;
    dd += (d * d) / days;
    uq += (u * q) / days;
    dq += (d * q) / days;
  }
  const determinant = uu * dd - ud * ud;
  if (bills.length < 3 || !(determinant > 1e-9 * uu * dd)) return null;
  const steady = (dd * uq - ud * dq) / determinant;
  const slope = (uu * dq - ud * uq) / determinant;
  const fitted = Float64Array.from(bills, (bill) => steady * bill.steadyShare + slope * bill.degreeDays_Kd);

  const days = bills.reduce((total, bill) => total + bill.days, 0);
  const mean = bills.reduce((total, { amount }) => total + amount, 0) / days;
  let [residual, variance] = [0, 0];
  bills.forEach((bill, i) => {
    residual += (bill.amount - fitted[i]!) ** 2 / bill.days;
    variance += (bill.amount - mean * bill.days) ** 2 / bill.days;
  });
  const freedom = bills.length - 2;
  return {
    steady_per_year: steady,
    slope_per_Kd: slope,
    slopeError_per_Kd: Math.sqrt(((residual / freedom) * uu) / determinant),
    r2: variance > 0 ? 1 - residual / variance : 1,
    cvRmse: Math.sqrt((residual / days) * (bills.length / freedom)) / mean,
    fitted,
  };
}
