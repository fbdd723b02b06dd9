import { describeEngineOn, seeds } from "../support/random-plant-tests.ts";

await describeEngineOn(seeds.slice(seeds.length >> 1));
