import { Type } from "typebox";
import { Id, idOf, quantity, text } from "../building-blocks.ts";

export const heading = { id: Id, name: text("Name", 80) };
export const onNetwork = { ...heading, network: idOf("Heat network") };
/** Only compared with the hours, never used as heat. */
export const nameplate = {
  nameplate_kW: Type.Optional(
    quantity("Nameplate", "kW", {
      above: 0,
      description:
        "Most heat (cold where it is cooled) that the consumer can take. Hours that disagree with it by a factor as of a mistaken unit are asked about; it changes no figure.",
    }),
  ),
  billed_MWh_per_year: Type.Optional(
    quantity("Heat of a year by the bills", "MWh", {
      above: 0,
      description:
        "Of heat, or cold where it is cooled. A year of hours that disagrees with it by a factor as of a mistaken unit is asked about; it changes no figure.",
    }),
  ),
};
