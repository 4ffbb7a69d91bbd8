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

describe("the estimated result of a cleaning", () => {
  it.each([0.02, 0.3, 0.6, 0.95])(
    "the estimated share of a film after a soak that leaves %f is within 3 standard uncertainties, for any film",
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
        expect(told).toHaveLength(1);
        expect(told[0]).toMatchObject({ afterCast: "006", intensity: "soak" });
        // A small step that cleaning does not move is told of once it is more probably a film than a calibration.
        if (ppm * retained > -240) expect(Number(told[0]!.cast)).toBeGreaterThanOrEqual(7);
        else expect(told[0]!.cast).toBe("007");
        const { retained: said, standardUncertainty } = told[0]!;
        expect(Math.abs(said - retained)).toBeLessThan(3 * standardUncertainty);
        // A film of several hundred ppm is seen to a seventh of itself and better.
        if (ppm <= -250) expect(standardUncertainty).toBeLessThan(0.15);
      }
    },
  );

  it("the result of the soak of the demonstration cruise agrees with its truth, from the next cast on", async () => {
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

  it("the cleaning of a cell without a film has no result", () => {
    const document = assessed([soakAfter(5, 1)]);
    expect(document.casts.filter(({ cleaned }) => cleaned !== undefined)).toEqual([]);
  });

  it("a verdict does not change with casts that come after it", () => {
    const { cruise } = simulateCruise({ ...film, events: [step(-300), soakAfter(6, 0.5)] });
    const whole = assessCruise(cruise).casts[6]!;
    const casts = cruise.casts.slice(0, 7);
    const known = new Set(casts.map(({ id }) => id));
    const then = assessCruise({
      ...cruise,
      casts,
      bottles: cruise.bottles.filter(({ cast }) => known.has(cast)),
    }).casts[6]!;
    expect(then.cleaned).toEqual(whole.cleaned);
  });
});

describe("one bad cast after a cleaning does not decide its result", () => {
  const events = (retained: number) => [
    { ...step(-300), cast: 3 } as const,
    soakAfter(5, retained),
  ];
  const lastTold = (document: ReturnType<typeof assessed>) =>
    document.casts.flatMap(({ cleaned = [] }) => cleaned).at(-1);

  it("a failed soak that spoilt bottles hide on the next cast is reported on the cast after", () => {
    // The laboratory reads that cast as fresh as the fouled cell does.
    const document = assessed(
      [...events(0.97), { kind: "reference-offset", of: [6], salinity: -0.012 }],
      4,
    );
    // On that cast it is not reported, or reported to have worked.
    for (const { retained } of document.casts[5]!.cleaned ?? []) expect(retained).toBeLessThan(0.3);
    expect(lastTold(document)!.retained).toBeGreaterThan(0.8);
    const { advice } = document.casts[6]!;
    expect(advice.because).toMatch(
      /^Soaked after cast 005(, still a film of|\. If the primary cell is fouled \(5\d %\), its film is) -\d+ ± \d+ ppm/,
    );
    expect(advice.intensity).toBe("disinfect");
    // The film is no younger for it.
    expect(document.casts[7]!.cells.primary!.change.sinceCast).toBe("003");
  });

  it("a soak that worked is reported so although spoilt bottles on the next cast look fouled, and no film begins", () => {
    const document = assessed(
      [...events(0.03), { kind: "reference-offset", of: [6], salinity: 0.012 }],
      4,
    );
    expect(lastTold(document)!.retained).toBeLessThan(0.3);
    for (const { cells, advice } of document.casts.slice(6)) {
      expect(cells.primary!.change.sinceCast).not.toBe("006");
      expect(advice.intensity).toBe("rinse");
    }
  });

  it("a cast with a failed pump or without data leaves the result to the next cast", () => {
    const flow = { kind: "flow-loss", cells: ["primary"], cast: 6, flow: 0.3 } as const;
    const document = assessed([...events(0.03), flow], 3);
    expect(lastTold(document)!.retained).toBeLessThan(0.25);
    const { cruise } = simulateCruise({ ...film, seed: 3, events: events(0.03) });
    const silent = assessCruise({
      ...cruise,
      casts: cruise.casts.map((cast, i) =>
        i === 5
          ? { id: cast.id, ...(cast.start === undefined ? {} : { start: cast.start }) }
          : cast,
      ),
      bottles: cruise.bottles.filter(({ cast }) => cast !== "006"),
    });
    expect(silent.casts[5]!.cleaned).toBeUndefined();
    expect(silent.casts[6]!.cleaned![0]).toMatchObject({ afterCast: "005", intensity: "soak" });
    expect(lastTold(silent)!.retained).toBeLessThan(0.25);
  });

  it("only the rinse that removes a film is credited with it", () => {
    const rinses = (retained: (afterCast: number) => number) =>
      [1, 2, 3, 4, 5, 6, 7, 8].map(
        (afterCast): Cleaning => ({
          kind: "cleaning",
          afterCast,
          intensity: "rinse",
          retained: retained(afterCast),
        }),
      );
    const stays = { ...step(-220), cast: 3 } as const;
    for (const seed of [3, 4]) {
      const inVain = assessed([stays, ...rinses(() => 1)], seed);
      expect(inVain.casts.flatMap(({ cleaned = [] }) => cleaned)).toEqual([]);
      const worked = assessed([stays, ...rinses((cast) => (cast === 5 ? 0.05 : 1))], seed);
      const told = worked.casts.flatMap(({ cleaned = [] }) => cleaned);
      for (const { afterCast, retained } of told) {
        expect(afterCast).toBe("005");
        expect(retained).toBeLessThan(0.3);
      }
    }
  });
});

describe("the effect of the record on the next advice", () => {
  it("a soak is possible without a failure; after two soaks that left 0.6 the advice is harder", () => {
    const before = assessed([step(-400)]).casts.at(-1)!.advice;
    expect(before.alternatives.find(({ intensity }) => intensity === "soak")!.fits).toBe(true);
    const after = assessed([step(-400), soakAfter(5, 0.6), soakAfter(7, 0.6)]).casts.at(-1)!.advice;
    expect(["disinfect", "exchange"]).toContain(after.intensity);
    const soak = after.alternatives.find(({ intensity }) => intensity === "soak")!;
    expect(soak.fits).toBe(false);
    expect(soak.whyNot).toMatch(/failed on this film/);
  });

  it("a failed soak changes the advice within one cast, and no later cast advises a soak", () => {
    const casts = assessed([{ ...step(-330), cast: 3 }, soakAfter(5, 0.98)], 4).casts;
    for (const { advice } of casts.slice(5)) {
      expect(advice.because).toMatch(/^Soaked after cast 005/);
      expect(advice.intensity).not.toBe("soak");
      expect(advice.intensity).not.toBe("wash");
      const [soak, disinfect] = advice.alternatives.slice(2, 4);
      expect(soak!.fits).toBe(false);
      // Of the film that a soak did not move; what is no film is within the target anyhow.
      expect(disinfect!.probabilityWithinTarget).toBeLessThan(0.8);
    }
    expect(casts[5]!.advice.because).toMatch(/The spare reaches over 99 %/);
  });

  it("a film stays clear after a rinse that follows the last cast, and is unclear after a soak until the next cast", () => {
    const adviceAfter = (intensity: Cleaning["intensity"]) =>
      assessed([step(-300), { kind: "cleaning", afterCast: 9, intensity, retained: 1 }]).casts.at(
        -1,
      )!.advice;
    expect(adviceAfter("rinse").deepClean).toBe(true);
    expect(adviceAfter("soak").intensity).toBe("rinse");
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
