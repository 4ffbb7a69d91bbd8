import { beforeAll, describe, expect, it } from "vitest";
import type { CellName } from "../../src/cast/cast.js";
import { causes } from "../../src/causes/index.js";
import { randomScenario, simulateCruise, type Truth } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import type { CellVerdict, VerdictDocument } from "../../src/verdict/verdict.js";
import { checkDocument } from "./checkDocument.js";

// The first ten casts of twenty-five random cruises: sound, fouled, and the look-alikes of fouling. The larger number
// is in npm run proof.
const castsOfEach = 10;
const seeds = Array.from({ length: 25 }, (_, i) => 501 + i);

interface Outcome {
  readonly said: CellVerdict;
  readonly truth: Truth[number]["cells"][CellName] & {};
}

let documents: readonly VerdictDocument[];
let outcomes: readonly Outcome[];

beforeAll(() => {
  const runs = seeds.map((seed) => {
    const { cruise, truth } = simulateCruise(randomScenario(seed));
    const casts = cruise.casts.slice(0, castsOfEach);
    return { document: assessCruise({ ...cruise, casts }), truth };
  });
  documents = runs.map(({ document }) => document);
  outcomes = runs.flatMap(({ document, truth }) =>
    document.casts.flatMap(({ cells }, i) =>
      Object.entries(truth[i]!.cells).map(([cell, own]) => ({
        said: cells[cell as CellName]!,
        truth: own,
      })),
    ),
  );
});

const share = (some: readonly Outcome[], holds: (outcome: Outcome) => boolean) =>
  some.filter(holds).length / some.length;

describe("verdicts on 25 random cruises whose truth is known", () => {
  it("95 % intervals hold the true gain in 90 to 99 of a hundred casts", () => {
    // The errors of one cell follow each other from cast to cast: of some 400 intervals no more than about 80 are
    // of their own (44 cells, about two stretches each), so that 95 % may come out 2.4 % off, one sigma.
    const covered = share(outcomes, ({ said, truth }) => {
      const [low, high] = said.gainError.up.interval95;
      return low <= truth.gain.up && truth.gain.up <= high;
    });
    expect(outcomes.length).toBeGreaterThan(350);
    expect(covered).toBeGreaterThan(0.9);
    expect(covered).toBeLessThan(0.99);
  });

  it("half of the gains are known to better than the 10 ppm of half a thousandth in salinity", () => {
    const errors = outcomes
      .map(({ said, truth }) => Math.abs(said.gainError.up.ppm - truth.gain.up))
      .sort((a, b) => a - b);
    expect(errors[Math.floor(errors.length / 2)]).toBeLessThan(10);
  });

  it("films of 0.004 in salinity and more are called fouling, and sound cells are not", () => {
    const fouled = outcomes.filter(
      ({ truth }) => truth.cause === "fouling" && Math.max(truth.film.up, truth.film.down) < -100,
    );
    const sound = outcomes.filter(({ truth }) => truth.cause === "sound");
    const calledFouling = ({ said }: Outcome) => said.causes[0]!.cause === "fouling";
    expect(fouled.length).toBeGreaterThan(20);
    expect(share(fouled, calledFouling)).toBeGreaterThan(0.8);
    expect(share(sound, calledFouling)).toBeLessThan(0.05);
  });

  it("a deep clean is almost never advised for causes that cleaning does not remove", () => {
    const removable = causes.filter((c) => c.removedByCleaning).map((c) => c.name);
    const notRemovable = outcomes.filter(({ truth }) => !removable.includes(truth.cause));
    expect(share(notRemovable, ({ said }) => said.advice.deepClean)).toBeLessThan(0.03);
  });

  it("every document is whole: schema, JSON, intervals about their means, causes in order that sum to one", () => {
    for (const document of documents) checkDocument(document);
  });
});
