import type { Plan } from "../dispatch/read-plan.ts";
import type { PlantModel } from "./plant-model.ts";

/** Beyond this ratio of areas, metres of pipe per m² and their diameter are no longer those that were given. */
const farOff = 2;
/** Below it a collector is not built. */
const leastAperture_m2 = 0.5;

/** Where an answer's fields are far from the size for which their pipes were given, a sentence each. */
export function pipeRemarks({ study, problem, fields }: PlantModel, { sizes }: Plan): string[] {
  return study.collectors.flatMap(({ id, name, pipes }) => {
    if (pipes === undefined) return [];
    const aperture_m2 = fields.reduce(
      (all, field, f) =>
        field.collector.id === id ? all + sizes.fields_m2[f] + problem.fields[f].existing_m2 : all,
      0,
    );
    if (aperture_m2 < leastAperture_m2) return [];
    const ratio = aperture_m2 / pipes.forAperture_m2;
    if (ratio <= farOff && ratio >= 1 / farOff) return [];
    const whole = (value: number) => Math.round(value).toLocaleString("en");
    return [
      `The pipes of ${name} are given for ${whole(pipes.forAperture_m2)} m² and the answer has ` +
        `${whole(aperture_m2)} m²: give length, diameter and insulation for that size and solve again.`,
    ];
  });
}
