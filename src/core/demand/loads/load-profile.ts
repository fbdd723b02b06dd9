import type { Load, Profile } from "../../study/schema/study.ts";

/** The hourly rate that a load is given by. */
export interface LoadProfile {
  /** The load's property that holds it, e.g. `heat_kW`. */
  readonly property: string;
  readonly rate: Profile;
  readonly quantity: "power" | "mass-flow" | "volume-flow";
}

/** The profile of a load; null for kinds that have none. */
export function loadProfile(load: Load): LoadProfile | null {
  switch (load.kind) {
    case "process-heat":
      return { property: "heat_kW", rate: load.heat_kW, quantity: "power" };
    case "cooling":
      return { property: "cold_kW", rate: load.cold_kW, quantity: "power" };
    case "steam":
      return { property: "flow_kg_h", rate: load.flow_kg_h, quantity: "mass-flow" };
    case "thermal-oil":
      return {
        property: "flow",
        rate: load.flow,
        quantity: load.flowIs === "kg/h" ? "mass-flow" : "volume-flow",
      };
    case "hot-water":
      return { property: "draw_m3_h", rate: load.draw_m3_h, quantity: "volume-flow" };
    case "drying":
      return { property: "wetProduct_kg_h", rate: load.wetProduct_kg_h, quantity: "mass-flow" };
    case "desalination":
    case "batch-drying":
      return null;
  }
}
