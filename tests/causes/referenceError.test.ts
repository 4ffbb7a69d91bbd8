// Storage and standard seawater change between laboratory runs, not within one: the samples of a run were stored and measured
// together (common practice, no source).
import { expect, test } from "vitest";
import { referenceError } from "../../src/causes/referenceError.js";
import { newCast } from "./newCast.js";

const changesAllSamples = (unchangedErrors: ReadonlySet<string>) =>
  referenceError
    .propose(newCast({ lines: new Map([["bottles", 12]]), unchangedErrors }))
    .some(({ coefficients }) =>
      coefficients.some(({ acts }) =>
        acts.some((act) => "shared" in act && act.shared === "batch"),
      ),
    );

test("all samples from a cast on may be off with a new laboratory run, not within one", () => {
  expect(changesAllSamples(new Set())).toBe(true);
  expect(changesAllSamples(new Set(["run"]))).toBe(false);
});
