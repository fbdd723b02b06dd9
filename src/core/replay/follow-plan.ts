import { boilerPower_kW, chargeLeft, dischargeLeft, nothing_kW } from "./heat-sources.ts";
import type { HourState } from "./hour-state.ts";
import type { ReplayPlant } from "./replay-plant.ts";
import type { SetPoints } from "./set-points.ts";

/**
 * Sets the plan's step-downs, charges, discharges and backup as far as the hour allows: first from
 * cool to hot what each network would take from hotter ones, then from hot to cool what there is.
 * What is then still asked for or spare is left to the simple controller's order.
 */
export function planFollower(plant: ReplayPlant) {
  const { problem, rules } = plant;
  const { networks, stepDowns, stores, backups } = problem;
  /** Heat leaving each step-down's hot side that the cool side would take. */
  const wanted_kW = new Float64Array(stepDowns.length);
  const arriving_kW = new Float64Array(networks.length);
  const coolFirst = rules.hotFirst.toReversed();

  const chargeOf = (state: HourState, plan: SetPoints, s: number) => {
    if (plan.discharge_kW[s] > 0) return 0;
    const heat_kW = Math.min(plan.charge_kW[s], chargeLeft(plant, state, s));
    return heat_kW > nothing_kW && heat_kW >= rules.storeLeastPower_kW[s] ? heat_kW : 0;
  };
  const outOf = (k: number) => {
    let out_kW = 0;
    for (let i = 0; i < stepDowns.length; i += 1) if (stepDowns[i].from === k) out_kW += wanted_kW[i];
    return out_kW;
  };

  function wish(state: HourState, plan: SetPoints, k: number): void {
    let open_kW = state.need_kW[k] + outOf(k) - state.spare_kW[k];
    for (const s of plant.storesOfNetwork[k]) open_kW += chargeOf(state, plan, s);
    for (let i = 0; i < stepDowns.length; i += 1) {
      if (stepDowns[i].to !== k) continue;
      const planned_kW = Math.min(plan.stepDown_kW[i], state.exchanger_kW[i]);
      const heat_kW = Math.max(0, Math.min(planned_kW, open_kW / stepDowns[i].efficiency));
      wanted_kW[i] = heat_kW;
      open_kW -= heat_kW * stepDowns[i].efficiency;
    }
  }

  function serve(state: HourState, plan: SetPoints, k: number, t: number): void {
    let arriving = arriving_kW[k];
    /** Takes up to `want_kW` from what arrives, the sun, the plan's discharge and its backup. */
    const draw = (want_kW: number, fromStores: boolean, fromBackup: boolean): number => {
      let open_kW = want_kW;
      const stepped_kW = Math.min(open_kW, arriving);
      arriving -= stepped_kW;
      open_kW -= stepped_kW;
      const solar_kW = Math.min(open_kW, state.spare_kW[k]);
      state.spare_kW[k] -= solar_kW;
      open_kW -= solar_kW;
      if (fromStores) for (const s of plant.storesOfNetwork[k]) open_kW -= discharge(s, open_kW);
      if (fromBackup) {
        for (let b = 0; b < backups.length && open_kW > nothing_kW; b += 1) {
          if (backups[b].network !== k) continue;
          const left_kW = Math.min(plan.backup_kW[b], boilerPower_kW(plant, state, b, t)) - state.fired_kW[b];
          const heat_kW = Math.max(0, Math.min(left_kW, open_kW));
          state.fired_kW[b] += heat_kW;
          open_kW -= heat_kW;
        }
      }
      return want_kW - open_kW;
    };
    const discharge = (s: number, open_kW: number): number => {
      const { dischargeEfficiency } = stores[s];
      // What the store holds beyond the plan comes before backup that the plan has.
      const beyond_kW = (plant.keep[s] * state.content_kWh[s] - plan.content_kWh[s]) / problem.step_h;
      const planned_kW = plan.charge_kW[s] > 0 ? 0 : Math.max(plan.discharge_kW[s], beyond_kW);
      const left_kW = Math.min(planned_kW - state.discharge_kW[s], dischargeLeft(plant, state, s));
      const taken_kW = Math.min(left_kW, open_kW / dischargeEfficiency);
      if (taken_kW <= nothing_kW) return 0;
      if (state.discharge_kW[s] + taken_kW < rules.storeLeastPower_kW[s]) return 0;
      state.discharge_kW[s] += taken_kW;
      return taken_kW * dischargeEfficiency;
    };

    if (state.need_kW[k] > nothing_kW) state.need_kW[k] -= draw(state.need_kW[k], true, true);
    for (let i = 0; i < stepDowns.length; i += 1) {
      if (stepDowns[i].from !== k || wanted_kW[i] <= nothing_kW) continue;
      const heat_kW = draw(wanted_kW[i], true, true);
      state.stepDown_kW[i] += heat_kW;
      arriving_kW[stepDowns[i].to] += heat_kW * stepDowns[i].efficiency;
    }
    for (const s of plant.storesOfNetwork[k]) {
      const want_kW = chargeOf(state, plan, s);
      if (want_kW <= 0) continue;
      // Too little sun for the store to switch; heat that was stepped down for it goes in all the same.
      const came_kW = arriving + state.spare_kW[k];
      if (arriving <= 0 && !mayBurnToCharge[k] && came_kW < rules.storeLeastPower_kW[s]) continue;
      state.charge_kW[s] += draw(want_kW, false, mayBurnToCharge[k]);
    }
    // A rounding of what was wished for; as spare heat it would be the sun's.
    if (arriving > 0) state.need_kW[k] -= arriving;
  }
  const mayBurnToCharge = networks.map((_, k) => backups.some((b) => b.network === k && b.mayCharge));

  return (state: HourState, plan: SetPoints, t: number): void => {
    wanted_kW.fill(0);
    arriving_kW.fill(0);
    for (const k of coolFirst) wish(state, plan, k);
    for (const k of rules.hotFirst) serve(state, plan, k, t);
  };
}
