import type { Plan } from "../../dispatch/read-plan.ts";
import type { PlantModel } from "../plant-model.ts";

/** Electric power of running collectors, kW by hour. */
export function parasitic_kW({ problem }: PlantModel, plan: Plan): Float64Array {
  const sum = new Float64Array(problem.blocks);
  problem.fields.forEach((field, f) => {
    const aperture_m2 = plan.sizes.fields_m2[f] + field.existing_m2;
    for (let t = 0; t < sum.length; t += 1) sum[t] += aperture_m2 * field.parasitic_kW_per_m2[t];
  });
  return sum;
}
