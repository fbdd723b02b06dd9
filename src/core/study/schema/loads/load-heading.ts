import { Id, idOf, text } from "../building-blocks.ts";

export const heading = { id: Id, name: text("Name", 80) };
export const onNetwork = { ...heading, network: idOf("Heat network") };
