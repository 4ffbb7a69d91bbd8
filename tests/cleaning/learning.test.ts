// What a cleaning left, told from the casts before and after, against simulated cruises whose truth is known.
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { defaultRecovery } from "../../src/model/recovery.js";
import { readCruise } from "../../src/node/index.js";
import { type Cleaning, type Scenario, simulateCruise } from "../../src/simulate/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import { verdictSchema } from "../../src/verdict/verdictSchema.js";

const film: Scenario = {
  seed: 3,
  casts: 9,
  deepest_dbar: 2000,
  cells: ["primary"],
  hoursBetweenCasts: 8,
};
const step = (ppm: number) =>
  ({ kind: "film-step", cells: ["primary"], cast: 4, at: "before-cast", ppm }) as const;
const soakAfter = (afterCast: number, retained: number): Cleaning => ({
  kind: "cleaning",
  afterCast,
  intensity: "soak",
  retained,
});
const assessed = (events: Scenario["events"], seed = 3) =>
  assessCruise(simulateCruise({ ...film, seed, events: events ?? [] }).cruise);

describe("what a cleaning turned out to leave", () => {
  it.each([0.02, 0.3, 0.6, 0.95])(
    "a soak that leaves %f of a film is told so within 3 standard uncertainties, whatever the film",
    (retained) => {
      for (const [i, ppm] of [-90, -250, -900].entries()) {
        const document = assessed([step(ppm), soakAfter(6, retained)], 40 + i);
        const told = document.casts.flatMap(({ cast, cleaned = [] }) =>
          cleaned.map((one) => ({ cast, ...one })),
        );
        const fouling = document.casts[6]!.cells.primary!.causes.find((c) => c.cause === "fouling");
        if (told.length === 0) {
          // A small step that cleaning does not move looks like a calibration: nothing is said of a film then.
          expect(fouling?.probability ?? 0).toBeLessThan(0.5);
          expect(ppm * retained).toBeGreaterThan(-240);
          continue;
        }
        expect(told[0]).toMatchObject({ cast: "007", afterCast: "006", intensity: "soak" });
        const { retained: said, standardUncertainty } = told[0]!;
        expect(Math.abs(said - retained)).toBeLessThan(3 * standardUncertainty);
        // A film of several hundred ppm is seen to a tenth of itself and better.
        if (ppm <= -250) expect(standardUncertainty).toBeLessThan(0.12);
      }
    },
  );

  it("the soak of the demonstration cruise left what its truth says, at the next cast and not before", async () => {
    const truth = new Map(
      readFileSync("fixtures/demo-cruise/truth.csv", "utf8")
        .split("\n")
        .map((line) => line.split(","))
        .map(([cast, cell, leg, , film_ppm]) => [`${cast} ${cell} ${leg}`, Number(film_ppm)]),
    );
    const left = truth.get("009 primary down")! / truth.get("008 primary up")!;
    const document = assessCruise(await readCruise("fixtures/demo-cruise"));
    expect(document.casts.flatMap(({ cast, cleaned }) => (cleaned ? [cast] : []))).toEqual(["009"]);
    const [told, ...others] = document.casts.find(({ cast }) => cast === "009")!.cleaned!;
    expect(others).toEqual([]);
    expect(told).toMatchObject({ afterCast: "008", cell: "primary", intensity: "soak" });
    expect(Math.abs(told!.retained - left)).toBeLessThan(3 * told!.standardUncertainty);
    verdictSchema.parse(document);
  });

  it("nothing is said of the cleaning of a cell that had no film", () => {
    const document = assessed([soakAfter(5, 1)]);
    expect(document.casts.filter(({ cleaned }) => cleaned !== undefined)).toEqual([]);
  });

  it("a verdict does not change with casts that come after it", () => {
    const { cruise } = simulateCruise({ ...film, events: [step(-300), soakAfter(6, 0.5)] });
    const whole = assessCruise(cruise).casts[6]!;
    const casts = cruise.casts.slice(0, 7);
    const ids = casts.map(({ id }) => id);
    const bottles = cruise.bottles.filter(({ cast }) => ids.includes(cast));
    const then = assessCruise({ ...cruise, casts, bottles }).casts[6]!;
    expect(then.cleaned).toEqual(whole.cleaned);
  });
});

describe("what the record teaches the next advice", () => {
  it("without a failure a soak is open to a film; after two soaks that left 0.6 the advice is harder than a soak", () => {
    const before = assessed([step(-400)]).casts.at(-1)!.advice;
    expect(before.alternatives.find(({ intensity }) => intensity === "soak")!.fits).toBe(true);
    const after = assessed([step(-400), soakAfter(5, 0.6), soakAfter(7, 0.6)]).casts.at(-1)!.advice;
    expect(["disinfect", "exchange"]).toContain(after.intensity);
    const soak = after.alternatives.find(({ intensity }) => intensity === "soak")!;
    expect(soak.fits).toBe(false);
    expect(soak.whyNot).toMatch(/record of this cell/);
  });

  it("a soak that worked makes the next one surer", () => {
    const again = { ...step(-300), cast: 8 } as const;
    const fresh = assessed([again]).casts.at(-1)!.advice.alternatives;
    const learnt = assessed([step(-300), soakAfter(5, 0.02), again]).casts.at(-1)!.advice
      .alternatives;
    const soak = (rungs: typeof fresh) =>
      rungs.find(({ intensity }) => intensity === "soak")!.probabilityWithinTarget;
    expect(soak(learnt)).toBeGreaterThan(soak(fresh));
    expect(soak(fresh)).toBeLessThanOrEqual(defaultRecovery.soak.probabilityWorks + 0.05);
  });
});
