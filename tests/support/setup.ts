import fc from "fast-check";

// One seed for every run of CI, so that a red run is a change of ours; NOONKEEP_SEED explores others.
fc.configureGlobal({ seed: Number(process.env.NOONKEEP_SEED ?? 20261125) });
