import { describe, expect, it } from "vitest";
import { checkLoad } from "../../../../src/core/demand/loads/check-load.ts";
import { steamLoadProblems } from "../../../../src/core/demand/loads/check-steam.ts";
import { loadSupply_C } from "../../../../src/core/demand/loads/load-supply.ts";
import { resolveLoad } from "../../../../src/core/demand/loads/resolve-load.ts";
import { steamRemarks } from "../../../../src/core/study/checks/steam-remarks.ts";
import type { LoadOf } from "../../../../src/core/study/schema/study.ts";
import { expectPrinted } from "../../../support/close.ts";
import { loadInputs, network } from "../../../support/load-inputs.ts";
import { smallStudy } from "../../../support/small-study.ts";

const steam: LoadOf<"steam"> = {
  kind: "steam",
  id: "steam",
  name: "Steam",
  network: "heat",
  flow_kg_h: { from: "constant", level: 1 },
  pressure_bar: 10,
  pressureIs: "absolute",
  condensateReturn_C: 80,
  condensateReturnShare: 0.8,
  makeUp_C: 15,
};
const checked = (load: LoadOf<"steam">, supply_C = 190) =>
  checkLoad(load, { profile: null, network: network(supply_C), elevation_m: 0 }, "loads/0");
const codes = (load: LoadOf<"steam">, supply_C = 190) => checked(load, supply_C).map(({ code }) => code);

describe("steam with blow-down, flash, superheat or water in it", () => {
  it("is accepted where it can be", () => {
    expect(codes({ ...steam, dryness: 0.95 })).toEqual([]);
    expect(codes({ ...steam, superheat_K: 20 }, 200)).toEqual([]);
    expect(codes({ ...steam, condensateFlash: { pressure_bar: 3, steamIs: "recovered" } })).toEqual([]);
    expect(
      codes({
        ...steam,
        blowDown: { shareOfFeed: 0.05, flashPressure_bar: 1.2, drain_C: 40 },
        ventShareOfFeed: 0.005,
      }),
    ).toEqual([]);
  });

  it("is refused with every fault of the catalogue in a sentence", () => {
    const found = [
      codes({ ...steam, dryness: 0.9, superheat_K: 5 }, 200),
      codes({ ...steam, superheat_K: 650 }, 800),
      codes({ ...steam, condensateFlash: { pressure_bar: 11, steamIs: "vented" } }),
      codes({ ...steam, blowDown: { shareOfFeed: 0.05, flashPressure_bar: 12 } }),
      codes({ ...steam, blowDown: { shareOfFeed: 0.05, drain_C: 190 } }),
      codes({ ...steam, blowDown: { shareOfFeed: 0.05, drain_C: 5 } }),
      codes({ ...steam, condensateReturnShare: 0, makeUp_C: 5, ventShareOfFeed: 0.1, pressure_bar: 10 }),
    ];
    expect(found).toEqual([
      ["LOAD_STEAM_QUALITY"],
      ["LOAD_STEAM_QUALITY"],
      ["LOAD_FLASH_PRESSURE"],
      ["LOAD_FLASH_PRESSURE"],
      ["LOAD_BLOW_DOWN"],
      ["LOAD_BLOW_DOWN"],
      ["LOAD_FEED_BOILS"],
    ]);
    expect(new Set(found.flat())).toEqual(new Set(Object.keys(steamLoadProblems)));
  });

  it("has condensate no hotter than behind the traps", () => {
    const flashing: LoadOf<"steam"> = {
      ...steam,
      condensateReturn_C: 140,
      condensateFlash: { pressure_bar: 3, steamIs: "vented" },
    };
    // 133.52 °C at 3 bar: steam tables on IF97.
    expect(checked(flashing)[0]?.message).toContain("at most 133.5 °C hot");
    expect(codes({ ...flashing, condensateReturn_C: 133.5 })).toEqual([]);
  });

  it("needs a network as hot as its superheat", () => {
    expectPrinted(loadSupply_C({ ...steam, superheat_K: 20 }, network(200))!, "199.89");
    expect(codes({ ...steam, superheat_K: 20 }, 190)).toEqual(["LOAD_NETWORK_TOO_COLD"]);
  });

  it("says what was counted", () => {
    const load: LoadOf<"steam"> = {
      ...steam,
      condensateFlash: { pressure_bar: 3, steamIs: "vented" },
      blowDown: { shareOfFeed: 0.05, flashPressure_bar: 3 },
    };
    const { basis } = resolveLoad(load, loadInputs(1000, 190));
    expect(basis).toContain("9.3 % of the condensate flashes and is vented");
    expect(basis).toContain("5.0 % of the feed is blown down, of which 9.3 % flashes back");
  });

  // Water boils at 100.0 °C at 1 atm (IF97) and lower on a mountain.
  it("remarks on feed water that would boil in an open tank", () => {
    const remarks = (condensateReturn_C: number, elevation_m: number) =>
      steamRemarks({
        ...smallStudy(),
        site: { ...smallStudy().site, elevation_m },
        loads: [{ ...steam, condensateReturnShare: 1, condensateReturn_C }],
      }).map(({ code }) => code);
    expect(remarks(99, 0)).toEqual([]);
    expect(remarks(102, 0)).toEqual(["REMARK_FEED_BOILS_OPEN"]);
    expect(remarks(99, 2000)).toEqual(["REMARK_FEED_BOILS_OPEN"]);
  });
});
