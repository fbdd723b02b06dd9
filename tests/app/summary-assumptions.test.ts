import { describe, expect, it } from "vitest";
import { assumptionGroups } from "../../src/app/summary/assumptions.ts";
import { describeValues } from "../../src/app/summary/describe-value.ts";
import { exampleDefinition } from "../../src/store/example-files.ts";
import { smallStudy } from "../support/small-study.ts";

describe("assumptions in words", () => {
  const { study } = exampleDefinition();

  it("finds the value of every origin in the worked example", () => {
    const lost = (study.origins ?? []).filter(({ path }) => describeValues(study, path).length === 0);
    expect(lost.map(({ path }) => path)).toEqual([]);
  });

  it("lists every value of every origin once", () => {
    const values = (study.origins ?? []).flatMap(({ path }) => describeValues(study, path));
    const shown = assumptionGroups(study)
      .flatMap(({ rows }) => rows)
      .flatMap((row) => row.values.split("; "));
    // A list of numbers holds the separator too, so there may be more pieces than values.
    expect(shown.length).toBeGreaterThanOrEqual(values.length);
    for (const { value } of values) expect(shown.join("; ")).toContain(value);
  });

  it("names the thing, the value and a unit that fits the thing", () => {
    expect(describeValues(study, "collectors/film-dish/parts/1/price_per_unit")).toEqual([
      { owner: "Collector: Inflated film dish", title: "Film: Price", value: "2.5 XTS per m²" },
    ]);
    expect(describeValues(study, "collectors/film-dish/parts/Film/life_years")[0]!.value).toBe("2 years");
    expect(describeValues(study, "stores/oil-store/parts")[0]!.value).toBe("26 XTS per kWh");
    expect(describeValues(study, "collectors/film-dish/mount/type")).toEqual([
      { owner: "Collector: Inflated film dish", title: "Mount", value: "Two axes" },
    ]);
    expect(describeValues(study, "money/realDiscountRate")[0]).toMatchObject({
      owner: "Money",
      value: "0.07 1/a",
    });
  });

  it("says where an origin has lost its value, and never throws for any path", () => {
    const odd = ["collectors/gone/cleanliness", "", "/", "__proto__/x", "money/currency/x", "collectors/-1"];
    for (const path of odd) {
      const origins = [{ path, status: "assumption" as const, source: "s" }];
      const groups = assumptionGroups({ ...smallStudy(), origins });
      expect(groups.length).toBeGreaterThan(0);
    }
    const [group] = assumptionGroups({
      ...smallStudy(),
      origins: [{ path: "collectors/gone/cleanliness", status: "assumption", source: "s" }],
    });
    expect(group!.rows[0]!.values).toContain("not in the study");
  });
});
