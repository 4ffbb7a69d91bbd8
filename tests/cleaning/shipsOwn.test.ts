// A ship's own ladder and trained people, through the whole of an assessment.
import { expect, it } from "vitest";
import { defaultLadder } from "../../src/cleaning/ladder/intensities.js";
import { simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";

const { cruise } = simulateCruise({
  seed: 5,
  casts: 2,
  deepest_dbar: 1500,
  cells: ["primary"],
  events: [{ kind: "film-step", cells: ["primary"], cast: 2, at: "before-cast", ppm: -500 }],
});

it("a ship's own minutes and words are those of the advice", () => {
  const ladder = defaultLadder.map((rung) => ({
    ...rung,
    minutes: { ...rung.minutes, value: rung.minutes.value + 7, source: "the ship's procedure" },
    materials: ["the green box"],
  }));
  const usual = assessCruise(cruise).casts.at(-1)!.advice;
  const own = assessCruise(cruise, { ladder }).casts.at(-1)!.advice;
  expect(own.intensity).toBe(usual.intensity);
  expect(own.minutes).toBe(usual.minutes + 7);
  expect(own.materials).toEqual(["the green box"]);
  // What can hurt people does not depend on the ship.
  expect(own.cautions).toEqual(usual.cautions);
});

const firstCast = { ...cruise, casts: cruise.casts.slice(0, 1), bottles: [] };

it("acid is possible only with trained people aboard, and never for a cell that must not see it", () => {
  const descale = (settings: { readonly trainedHands?: boolean }, noAcid = false) =>
    assessCruise({ ...firstCast, instrument: { ...cruise.instrument, noAcid } }, settings)
      .casts.at(-1)!
      .advice.alternatives.find(({ intensity }) => intensity === "descale")!;
  expect(descale({}).fits).toBe(false);
  expect(descale({ trainedHands: true }).fits).toBe(true);
  expect(descale({ trainedHands: true }, true)).toMatchObject({
    fits: false,
    whyNot: "this cell must not see acid",
  });
});
