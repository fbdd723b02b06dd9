import { describe, expect, it } from "vitest";
import { resolveStudy } from "../../../../src/app/resolve-study.ts";
import { sizeStudy } from "../../../../src/app/size-study.ts";
import { collectorYear } from "../../../../src/core/collector/collector-year.ts";
import { collectorLevel } from "../../../../src/core/collector/network-levels.ts";
import { clearSkyLight } from "../../../../src/core/sun/clear-sky.ts";
import { sunYear } from "../../../../src/core/sun/sun-year.ts";
import { loadSolvers } from "../../../../src/solver/solvers.ts";
import { smallBundle } from "../../../support/small-bundle.ts";

const solvers = await loadSolvers();
const resolved = resolveStudy(smallBundle());
if (!resolved.ok) throw new Error(resolved.problems.map(({ message }) => message).join("\n"));
const { study } = resolved.value;
const { result } = sizeStudy(resolved.value, { method: "typical-days", solvers });

describe("where each collector's light goes", () => {
  it("is told for every collector on every network that it may serve and is hot enough for", () => {
    const wanted = study.collectors.flatMap(({ id, networks }) =>
      networks
        .filter((k) => result.match.some((row) => row.collector === id && row.network === k && row.possible))
        .map((network) => `${id} on ${network}`),
    );
    expect(result.collectors.map(({ id, network }) => `${id} on ${network}`).sort()).toEqual(wanted.sort());
  });

  it("adds up: beam and diffuse less all losses are useful, and that is spilled or used", () => {
    for (const year of result.collectors) {
      const lost = Object.values(year.losses).reduce((all, loss) => all + loss, 0);
      const light = year.beam_kWh_per_m2 + year.diffuse_kWh_per_m2;
      expect(Math.abs(light - lost - year.useful_kWh_per_m2)).toBeLessThan(1e-9 * light);
      if (year.used_kWh_per_m2 === null) expect(year.spilled_kWh_per_m2).toBe(0);
      else
        expect(
          Math.abs(year.used_kWh_per_m2 + year.spilled_kWh_per_m2 - year.useful_kWh_per_m2),
        ).toBeLessThan(1e-9 * light);
    }
  });

  it("is told beside the same field's year without clouds, which has more light and more heat", () => {
    for (const { beam_kWh_per_m2, useful_kWh_per_m2, cloudless } of result.collectors) {
      expect(cloudless!.beam_kWh_per_m2).toBeGreaterThan(beam_kWh_per_m2);
      expect(cloudless!.useful_kWh_per_m2).toBeGreaterThan(useful_kWh_per_m2);
      expect(cloudless!.useful_kWh_per_m2).toBeLessThan(1.1 * cloudless!.beam_kWh_per_m2);
    }
    // One collector on its first network, computed by itself.
    const { weather } = resolved.value;
    const sun = sunYear(study.site);
    const climate = {
      latitude_deg: study.site.latitude_deg,
      sun,
      weather: { ...weather, ...clearSkyLight(sun, weather.pressure_Pa, 2) },
    };
    const figures = result.collectors[0]!;
    const collector = study.collectors.find(({ id }) => id === figures.id)!;
    const network = study.networks.find(({ id }) => id === figures.network)!;
    const alone = collectorYear(collector, climate, [collectorLevel(network)]);
    expect(alone.levels[0]!.useful_kWh_per_m2).toBe(figures.cloudless!.useful_kWh_per_m2);
  });

  it("uses and spills what the balances of the networks say", () => {
    let built = 0;
    for (const network of result.networks) {
      const fields = result.sizes.collectors.filter(
        (field) => field.network === network.id && field.aperture_m2 + field.existing_m2 > 0,
      );
      built += fields.length;
      const total = (key: "used_kWh_per_m2" | "spilled_kWh_per_m2") =>
        fields.reduce((all, { id, aperture_m2 }) => {
          const year = result.collectors.find((one) => one.id === id && one.network === network.id)!;
          return all + aperture_m2 * (year[key] ?? Number.NaN);
        }, 0);
      const scale = network.demand_kWh;
      expect(Math.abs(total("spilled_kWh_per_m2") - network.spill_kWh)).toBeLessThan(1e-9 * scale);
      expect(Math.abs(total("used_kWh_per_m2") - network.solar_kWh)).toBeLessThan(1e-9 * scale);
    }
    expect(built).toBeGreaterThan(0);
  });
});
