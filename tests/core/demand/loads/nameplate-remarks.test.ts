import { describe, expect, it } from "vitest";
import { resolveStudy } from "../../../../src/app/resolve-study.ts";
import type { Load, Study } from "../../../../src/core/study/schema/study.ts";
import { smallBundle } from "../../../support/small-bundle.ts";

const bundle = smallBundle();

function remarks(load: object): string[] {
  const network = bundle.study.networks[0]!.id;
  const study = {
    ...bundle.study,
    loads: [...bundle.study.loads, { id: "checked", name: "Checked", network, ...load } as unknown as Load],
  } as Study;
  const resolved = resolveStudy({ ...bundle, study });
  if (!resolved.ok) throw new Error(resolved.problems.map(({ message }) => message).join(" "));
  return resolved.findings.filter(({ code }) => code === "LOAD_NAMEPLATE").map(({ message }) => message);
}

describe("a load and its nameplate", () => {
  const heat = (level: number, nameplate_kW?: number) => ({
    kind: "process-heat",
    heat_kW: { from: "constant", level },
    ...(nameplate_kW === undefined ? {} : { nameplate_kW }),
  });

  it.each([3.6, 24, 1000])("a factor of %d is remarked and named", (factor) => {
    expect(remarks(heat(400 * factor, 400))[0]).toContain(`${factor} times too large`);
    const small = remarks(heat(400 / factor, 400));
    // A plant that reaches 1/3.6 of its plate is not rare enough to be asked about.
    if (factor === 3.6) expect(small).toEqual([]);
    else expect(small[0]).toContain(`${factor} times too small`);
  });

  it("nothing is said where they agree or no nameplate is given", () => {
    expect(remarks(heat(400, 420))).toEqual([]);
    expect(remarks(heat(4e5))).toEqual([]);
  });

  // Steam tables (IAPWS-IF97): some 2.5 to 2.8 MJ/kg, so 1000 kg/h are some 700 to 780 kW.
  it("steam in kg/h is compared as heat", () => {
    const steam = (level: number) => ({
      kind: "steam",
      flow_kg_h: { from: "constant", level },
      pressure_bar: 0.5,
      pressureIs: "absolute",
      condensateReturnShare: 0,
      condensateReturn_C: 80,
      makeUp_C: 15,
      nameplate_kW: 800,
    });
    expect(remarks(steam(1))[0]).toContain("1000 times too small");
  });
});
