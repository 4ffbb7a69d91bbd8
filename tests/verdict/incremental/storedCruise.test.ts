import { describe, expect, it } from "vitest";
import { type Checkpoint, thinCheckpoints } from "../../../src/verdict/incremental/storedCruise.js";

/** As casts come one by one; what a checkpoint holds does not matter here. */
function keptAfter(casts: number): readonly number[] {
  let held: readonly Checkpoint[] = [];
  for (let after = 0; after < casts; after++)
    held = thinCheckpoints([...held, { after } as Checkpoint]);
  return held.map(({ after }) => after);
}

describe("checkpoints as a cruise goes on", () => {
  it("are of the newest two casts, and of one in 16 before them", () => {
    expect(keptAfter(1)).toEqual([0]);
    expect(keptAfter(12)).toEqual([10, 11]);
    expect(keptAfter(40)).toEqual([15, 31, 38, 39]);
  });

  it("grow with the logarithm of the casts, and the gap before a cast is at most 16, or its age and a third", () => {
    for (const casts of [64, 100, 257, 1000]) {
      const kept = keptAfter(casts);
      expect(kept.length).toBeLessThanOrEqual(2 + 4 * Math.ceil(Math.log(casts) / Math.log(4)));
      for (let cast = 0; cast < casts; cast++) {
        const before = kept.findLast((after) => after < cast) ?? -1;
        const age = casts - 1 - cast;
        expect(cast - 1 - before).toBeLessThanOrEqual(Math.max(16, age + age / 3));
      }
    }
  });
});
