import { describeEngineOn, seeds } from "../support/random-plant-tests.ts";

// Two files, so that two workers share the seeds.
await describeEngineOn(seeds.slice(0, seeds.length >> 1));
