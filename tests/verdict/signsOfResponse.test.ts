import { describe, expect, it } from "vitest";
import { signsOfResponse } from "../../src/verdict/gather/signsOfResponse.js";

const lag = (value: number) => ({ lag: { value, standardUncertainty: 0.1 } });

describe("the thermal lag of a cast relative to that of the casts before", () => {
  it("has changed as much if a strong lag has grown threefold as if a usual one has", () => {
    const grown = (usual: number) =>
      signsOfResponse([lag(usual), lag(usual), lag(usual)], lag(3 * usual)).lag!.value;
    for (const usual of [2, 4]) expect(Math.abs(grown(usual) - grown(1))).toBeLessThan(0.5);
  });

  it("is a change in multiples of a usual cell if it had been corrected", () => {
    const { value } = signsOfResponse([lag(0), lag(0), lag(0)], lag(2)).lag!;
    expect(Math.abs(value - 3)).toBeLessThan(0.2);
  });
});
