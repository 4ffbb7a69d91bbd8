import { describe, expect, it } from "vitest";
import { responseChanges } from "../../src/response/responseChanges.js";
import type { SensorResponse } from "../../src/response/sensorResponse.js";
import { usualResponse } from "../../src/response/usualResponse.js";
import { signsOfResponse } from "../../src/verdict/gather/signsOfResponse.js";
import { deviates } from "../track/observations.js";

const known = { standardDeviation: 0.03, isLowerLimit: false };
const learnt = { standardDeviation: 0.003, isLowerLimit: true };
const seen = (values: readonly number[], standardUncertainty = 0.004) =>
  values.map((value) => ({ value, standardUncertainty }));

describe("the usual response of a cell", () => {
  it("the usual response after one cast is that cast, with its uncertainty", () => {
    expect(usualResponse(seen([0.07]), known)).toEqual({
      value: 0.07,
      standardUncertainty: Math.hypot(0.004, 0.03),
      castToCast: 0.03,
      casts: 1,
    });
  });

  it("the usual response of n equal casts is their mean, with an uncertainty smaller by the square root of n", () => {
    const usual = usualResponse(seen(Array<number>(16).fill(0.07)), known)!;
    expect(usual.value).toBeCloseTo(0.07, 12);
    expect(usual.standardUncertainty).toBeCloseTo(Math.hypot(0.004, 0.03) / 4, 12);
  });

  it("the usual response is within its uncertainty two times in three, and rarely beyond three", () => {
    const normal = deviates(3);
    const scores = Array.from({ length: 400 }, () => {
      const values = Array.from({ length: 12 }, () => 0.07 + 0.02 * normal());
      const { value, standardUncertainty } = usualResponse(seen(values, 0.004), learnt)!;
      return Math.abs(value - 0.07) / standardUncertainty;
    });
    const within = (limit: number) => scores.filter((z) => z < limit).length / scores.length;
    // The scatter of twelve casts is itself known to a quarter: a little less than the 68 % of the normal distribution.
    expect(within(1)).toBeGreaterThan(0.55);
    expect(within(1)).toBeLessThan(0.76);
    expect(within(3)).toBeGreaterThan(0.96);
  });

  it("two casts of nine with a failing pump do not change the usual response", () => {
    const sound = seen([0.068, 0.071, 0.07, 0.069, 0.072, 0.07, 0.071]);
    const usual = usualResponse([...sound, ...seen([0.4, 0.6])], learnt)!;
    expect(usual.value).toBeCloseTo(usualResponse(sound, learnt)!.value, 3);
  });

  it("the scatter between casts is estimated, with a lower limit", () => {
    const wandering = seen([0.02, 0.05, 0.08, 0.11, 0.14, 0.03, 0.13], 0.001);
    expect(usualResponse(wandering, learnt)!.castToCast).toBeGreaterThan(0.03);
    expect(usualResponse(seen([0.07, 0.07, 0.07]), learnt)!.castToCast).toBe(0.003);
    expect(usualResponse(wandering, known)!.castToCast).toBe(0.03);
  });

  it("with a prior the usual response is the precision-weighted mean of both", () => {
    const before = { value: 0, standardUncertainty: 0.08 };
    const alone = usualResponse(seen([0.07]), known)!;
    const both = usualResponse(seen([0.07]), known, before)!;
    const [a, b] = [1 / alone.standardUncertainty ** 2, 1 / 0.08 ** 2];
    expect(both.value).toBeCloseTo((0.07 * a) / (a + b), 12);
    expect(both.standardUncertainty).toBeCloseTo(1 / Math.sqrt(a + b), 12);
    expect(usualResponse([], known, before)).toMatchObject({ ...before, casts: 0 });
    expect(usualResponse([], known)).toBeUndefined();
  });

  it("the usual response of two distant casts lies between them, with their scatter as uncertainty", () => {
    const usual = usualResponse(seen([0, 2]), known)!;
    expect(usual.value).toBe(1);
    expect(usual.standardUncertainty).toBeGreaterThanOrEqual(1);
  });
});

describe("the signs that causes are compared by, and the changes that are reported in words", () => {
  const response = (seconds: number): SensorResponse => ({
    notes: [],
    alignment: { seconds, standardUncertainty: 0.004 } as NonNullable<SensorResponse["alignment"]>,
  });
  const measured = (value: number) => ({ delay: { value, standardUncertainty: 0.004 } });
  const before = [0.07, 0.072, 0.068, 0.071, 0.069];

  it("signs and reported changes compare a cast with the same usual value", () => {
    const [change] = responseChanges(before.map(response), response(0.2));
    const { delay } = signsOfResponse(before.map(measured), measured(0.2));
    // Beforehand a delay of 0 was known to 0.08 s: five casts outweigh it thirty times.
    expect(delay!.value).toBeCloseTo(change!.difference, 2);
  });

  it("signs exist from the first cast on, sentences from the fourth", () => {
    expect(signsOfResponse([], measured(0.2)).delay!.value).toBeCloseTo(0.2, 12);
    expect(signsOfResponse([], measured(0.2)).delay!.standardUncertainty).toBeGreaterThan(0.08);
    expect(responseChanges(before.slice(0, 2).map(response), response(0.2))).toEqual([]);
    expect(responseChanges(before.slice(0, 3).map(response), response(0.2))[0]!.differs).toBe(true);
  });

  it("noise has no usual value before the first cast", () => {
    const noise = { noise: { value: -6, standardUncertainty: 0.1 } };
    expect(signsOfResponse([], noise).noise).toBeUndefined();
    expect(signsOfResponse([noise], noise).noise!.value).toBeCloseTo(0, 12);
  });
});
