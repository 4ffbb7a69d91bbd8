import { describe, expect, it } from "vitest";
import { defaultRecovery } from "../../src/model/recovery.js";
import { simulateCruise } from "../../src/simulate/index.js";
import { layoutOf } from "../../src/track/layout.js";
import {
  type FilterState,
  finishCast,
  initialFilter,
  track,
  updateWithCast,
} from "../../src/track/track.js";
import { cruiseEvidence } from "../../src/verdict/gather/cruiseEvidence.js";
import { cellsOf } from "../../src/verdict/gather/knownCruise.js";

const { cruise } = simulateCruise({ seed: 11, casts: 3, deepest_dbar: 1500 });
const cells = cellsOf(cruise);
const layout = layoutOf(cells);
const inputs = [...cruiseEvidence(cruise)].map(({ tracked }) => tracked);
const whole = track(cells, inputs, defaultRecovery);

const numbersOf = ({ hypotheses, noise }: Pick<FilterState, "hypotheses" | "noise">) => ({
  noise,
  held: hypotheses.map(({ logWeight, state }) => [logWeight, ...state.mean, ...state.covariance]),
});

describe("a filter that is stored between casts", () => {
  it("a stored filter is plain data and continues with the same numbers", () => {
    // A copy can be made of plain data only: functions are refused.
    const read = structuredClone(inputs);
    let left: FilterState = initialFilter(layout, read[0]!.cast);
    for (const [i, input] of read.entries()) {
      const followed = structuredClone(updateWithCast(layout, left, input, read[i - 1]));
      expect(numbersOf(followed)).toEqual(numbersOf(whole[i]!));
      left = structuredClone(finishCast(layout, followed, input, defaultRecovery));
    }
  });
});
