import { describe, expect, it } from "vitest";
import { signsOfResponse } from "../../src/verdict/gather/signsOfResponse.js";

const lag = (value: number) => ({ lag: { value, standardUncertainty: 0.1 } });

describe("the thermal lag of a cast relative to that of the casts before", () => {
  it("has changed as much if a somewhat stronger lag has grown threefold as if a usual one has", () => {
    const grown = (usual: number) =>
      signsOfResponse([lag(usual), lag(usual), lag(usual)], lag(3 * usual)).lag!.value;
    for (const usual of [1.3, 2]) expect(Math.abs(grown(usual) - grown(1))).toBeLessThan(0.5);
    // A lag of four times is a fault already, and a greater one when it grows.
    expect(grown(4)).toBeGreaterThan(grown(1));
  });

  it("is that of a fault on every cast if it is five times the usual on every cast", () => {
    const { value, standardUncertainty } = signsOfResponse([lag(5), lag(5), lag(5)], lag(5)).lag!;
    expect(value - 1).toBeGreaterThan(5 * standardUncertainty);
    expect(value).toBeGreaterThan(2);
  });

  it("is a change in multiples of a usual cell if it had been corrected", () => {
    const { value } = signsOfResponse([lag(0), lag(0), lag(0)], lag(2)).lag!;
    expect(Math.abs(value - 3)).toBeLessThan(0.2);
  });
});
