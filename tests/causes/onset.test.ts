import { describe, expect, it } from "vitest";
import { reportedOnset } from "../../src/causes/sentences.js";

const earlier = [
  { cast: "003", sound: true },
  { cast: "004", sound: false },
  { cast: "005", sound: true },
  { cast: "006", sound: false },
];
const step = { kind: "step", when: "before", probability: 0.9 } as const;

describe("the onset of a change", () => {
  it("is reported if no verdict has called the cell sound since", () => {
    expect(reportedOnset({ ...step, sinceCast: "006" }, earlier)).toBe(
      "present since before cast 006",
    );
    expect(reportedOnset({ ...step, sinceCast: "007" }, earlier)).toBe(
      "present since before cast 007",
    );
  });

  it("is not reported if a verdict called the cell sound on that cast or later", () => {
    for (const sinceCast of ["003", "004", "005"])
      expect(reportedOnset({ ...step, sinceCast }, earlier)).toBeUndefined();
    expect(
      reportedOnset({ ...step, sinceCast: "003", when: "from the start" }, earlier),
    ).toBeUndefined();
    expect(reportedOnset({ ...step, sinceCast: "005", when: "within" }, earlier)).toBeUndefined();
  });

  it("after the work that followed a sound cast is no contradiction", () => {
    const after = { ...step, sinceCast: "005", when: "after" } as const;
    expect(reportedOnset(after, earlier)).toBe("present since the work done after cast 005");
  });

  it("is reported from a probability of 50 %", () => {
    expect(
      reportedOnset({ ...step, sinceCast: "006", probability: 0.49 }, earlier),
    ).toBeUndefined();
    expect(reportedOnset({ ...step, sinceCast: "006", probability: 0.5 }, earlier)).toBeDefined();
    expect(reportedOnset({ kind: "none", probability: 1 }, earlier)).toBeUndefined();
  });
});
