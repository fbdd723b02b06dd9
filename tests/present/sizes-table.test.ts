import { describe, expect, it } from "vitest";
import type { Result } from "../../src/core/study/result.ts";
import { sizesTable } from "../../src/present/result-tables.ts";
import { smallStudy } from "../support/small-study.ts";

describe("the table of sizes", () => {
  it("tells the land that each field takes, new and existing apart", () => {
    const study = smallStudy();
    const { id, networks, name } = study.collectors[0]!;
    study.collectors[0]!.groundCover = 0.25;
    const collectors = [{ id, network: networks[0]!, aperture_m2: 800, existing_m2: 300 }];
    const sizes = { collectors, stores: [], chillers: [], stepDowns: [], backups: [] };
    const [row] = sizesTable(study, { sizes } as unknown as Result).rows;
    const plain = row!.map((cell) => cell.replaceAll("\u202f", " "));
    expect(plain[0]).toContain(name);
    expect(plain.slice(1)).toEqual(["500 m² on 2,000 m² of land", "300 m² on 1,200 m² of land"]);
  });
});
