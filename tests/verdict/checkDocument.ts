// What is true of every verdict document, whatever the cruise.
import { expect } from "vitest";
import type { Estimate, VerdictDocument } from "../../src/verdict/verdict.js";
import { verdictSchema } from "../../src/verdict/verdictSchema.js";

export function checkDocument(document: VerdictDocument): void {
  verdictSchema.parse(document);
  expect(structuredClone(document)).toStrictEqual(document);
  const text = JSON.stringify(document);
  expect(JSON.parse(text)).toStrictEqual(document);
  // JSON has no NaN and no infinity: they would come out as null, and an absent part is an absent key.
  expect(text).not.toMatch(/[:[,]null[,\]}]/);
  expect(document.latest).toBe(document.casts.at(-1)!.cast);
  for (const { cells, evidence, advice } of document.casts) {
    for (const cell of Object.values(cells)) {
      const { gainError, cleanGain, causes, forecast } = cell;
      [gainError.down, gainError.up, gainError.now, cleanGain, forecast.gainError].forEach(
        checkEstimate,
      );
      const probabilities = causes.map(({ probability }) => probability);
      expect(probabilities.reduce((a, b) => a + b)).toBeCloseTo(1, 9);
      expect(probabilities.toSorted((a, b) => b - a)).toEqual(probabilities);
      expect(new Set(causes.map(({ cause }) => cause)).size).toBe(causes.length);
      for (const { because } of causes) expect(because).not.toMatch(/NaN|undefined|Infinity/);
    }
    const decided = cells[advice.decidedBy]!.advice;
    expect(advice.intensity).toBe(decided.intensity);
    expect(advice.alternatives).toEqual(decided.alternatives);
    expect(advice.cells).toEqual(
      Object.values(cells).flatMap((cell) =>
        cell.advice.intensity === advice.intensity ? cell.advice.cells : [],
      ),
    );
    for (const { n, weight } of evidence) {
      expect(n).toBeGreaterThan(0);
      expect(weight).toBeLessThanOrEqual(1);
    }
  }
}

function checkEstimate({ ppm, standardUncertainty, interval95: [low, high] }: Estimate): void {
  expect(low).toBeLessThanOrEqual(ppm);
  expect(high).toBeGreaterThanOrEqual(ppm);
  expect(standardUncertainty).toBeGreaterThan(0);
  // Of a mixture of normals a 95 % interval is at most this wide (Chebyshev).
  expect(high - low).toBeLessThan(9 * standardUncertainty);
}
