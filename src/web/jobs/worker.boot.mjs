// Lets a worker thread read TypeScript when the program runs from its sources; dist/ needs no such help.
import { register } from "tsx/esm/api";

register();
export const { work } = await import("./worker.ts");
