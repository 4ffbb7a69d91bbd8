import { describe, expect, it } from "vitest";
import { certainZero, condition, copyOf, redraw } from "../../src/model/gaussian.js";
import { cellIndex } from "../../src/model/layout.js";
import { cellView } from "../../src/track/cellView.js";
import { compress } from "../../src/track/compress.js";
import { informationFor } from "../../src/track/information.js";
import { layoutOf } from "../../src/track/layout.js";
import { logMarginal } from "../../src/track/marginal.js";
import { track } from "../../src/track/track.js";
import { type CastDesign, deviates, held, inputOf, recovery } from "./observations.js";

const both = ["primary", "secondary"] as const;
const follow = (
  designs: readonly CastDesign[],
  seed = 7,
  cells: readonly ("primary" | "secondary")[] = ["primary"],
) => {
  const normal = deviates(seed);
  return track(
    cells,
    designs.map((design, i) => inputOf(i, design, normal)),
    recovery,
  );
};
const steady = (gain: number): CastDesign => ({ gains: { primary: { down: gain, up: gain } } });
const repeat = (count: number, design: CastDesign) => Array.from({ length: count }, () => design);
const soak = [{ action: "soak", afterCast: "" }] as const;

describe("the tracker", () => {
  it("a gain that is off from the first cast and steady is a calibration shift, not a film", () => {
    const last = held(["primary"], follow(repeat(6, steady(-100))).at(-1)!, "primary");
    expect(last.causes["calibration-shift"]).toBeGreaterThan(0.8);
    expect(Math.abs(last.mean + 100)).toBeLessThan(3 * last.sd);
  });

  it("a gain that falls within a cast and stays down is fouling since that cast", () => {
    const tracked = follow([
      ...repeat(4, steady(5)),
      { gains: { primary: { down: 5, up: -195 } } },
      ...repeat(2, steady(-195)),
    ]);
    const last = held(["primary"], tracked.at(-1)!, "primary");
    expect(last.causes.fouling).toBeGreaterThan(0.95);
    expect(Math.abs(last.mean + 195)).toBeLessThan(3 * last.sd);
    const best = tracked.at(-1)!.hypotheses[0]!;
    expect(best.events.cells.primary?.film?.since).toMatchObject({ cast: "005", when: "within" });
  });

  it("a film that two soaks do not move turns into a calibration shift", () => {
    const uncleaned = follow([...repeat(2, steady(0)), ...repeat(4, steady(-150))]);
    const cleaned = follow([
      ...repeat(2, steady(0)),
      steady(-150),
      ...repeat(3, { ...steady(-150), maintenanceAfter: soak }),
    ]);
    const before = held(["primary"], uncleaned.at(-1)!, "primary").causes;
    const after = held(["primary"], cleaned.at(-1)!, "primary").causes;
    const odds = ({ fouling = 0, ...rest }: typeof before) =>
      (rest["calibration-shift"] ?? 0) / fouling;
    // Two failed cleanings (the third has no cast after it) of probability 0.3 each: the odds rise tenfold or so.
    expect(odds(after) / odds(before)).toBeGreaterThan(4);
  });

  it("a soak that fails on both cells counts about once against films", () => {
    const fouled = (maintenanceAfter: CastDesign["maintenanceAfter"] = []): CastDesign => ({
      gains: { primary: { down: -150, up: -150 }, secondary: { down: -150, up: -150 } },
      maintenanceAfter,
    });
    const sound: CastDesign = {
      gains: { primary: { down: 0, up: 0 }, secondary: { down: 0, up: 0 } },
    };
    const odds = (casts: readonly CastDesign[]) => {
      const last = follow([sound, ...casts], 7, both).at(-1)!;
      const weight = (named: "film" | "onsetByCause") =>
        last.hypotheses
          .filter(({ events }) =>
            both.every((cell) => Object.keys(events.cells[cell] ?? {}).join() === named),
          )
          .reduce((sum, { logWeight }) => sum + Math.exp(logWeight), 0);
      return weight("onsetByCause") / weight("film");
    };
    // One soak in eight moves nothing: odds eight times as great, and sixty times if the cells' luck were their own.
    const before = odds(repeat(3, fouled()));
    const after = odds([fouled(), fouled(soak), fouled()]);
    expect(after / before).toBeGreaterThan(3);
    expect(after / before).toBeLessThan(25);
  });

  it("a film that stays through the usual rinse after each cast is still a film", () => {
    const rinse = [{ action: "rinse", afterCast: "" }] as const;
    const rinsed = (gain: number) => ({ ...steady(gain), maintenanceAfter: rinse });
    const tracked = follow([...repeat(4, rinsed(0)), ...repeat(5, rinsed(-300))]);
    const last = held(["primary"], tracked.at(-1)!, "primary");
    expect(last.causes.fouling).toBeGreaterThan(0.5);
  });

  it("a soak that removes a film is seen on the next cast, and the cell is sound again", () => {
    const tracked = follow([
      ...repeat(3, steady(0)),
      ...repeat(2, steady(-200)),
      { ...steady(-200), maintenanceAfter: soak },
      ...repeat(2, steady(-4)),
    ]);
    const last = held(["primary"], tracked.at(-1)!, "primary");
    expect(last.causes.sound).toBeGreaterThan(0.7);
    expect(Math.abs(last.mean + 4)).toBeLessThan(3 * last.sd);
  });

  it("a film reads fresh: if one cell becomes salty relative to the other, the film is in the other", () => {
    const apart = (ppm: number): CastDesign => ({
      gains: { primary: { down: 0, up: 0 }, secondary: { down: -ppm, up: -ppm } },
      bottles: 3,
    });
    const tracked = follow([...repeat(2, apart(0)), ...[16, 32, 48].map(apart)], 5, both);
    const layout = layoutOf(both);
    const impossible = tracked.at(-1)!.hypotheses.filter(({ state, events }) =>
      both.some((cell) => {
        const film = cellIndex(layout, cell, "filmUp");
        const sd = Math.sqrt(state.covariance[film * (layout.size + 1)]!);
        return events.cells[cell]?.film !== undefined && state.mean[film]! > 3 * sd;
      }),
    );
    const weight = impossible.reduce((sum, { logWeight }) => sum + Math.exp(logWeight), 0);
    expect(weight).toBeLessThan(1e-4);
  });

  it("a film that comes to both cells reads fresh in both, so a cell that reads salty has no film", () => {
    const normal = deviates(17);
    const inputs = Array.from({ length: 4 }, (_, i) =>
      inputOf(
        i,
        {
          gains: {
            primary: { down: i < 3 ? -40 : -115, up: i < 3 ? -40 : -115 },
            secondary: { down: i < 3 ? 20 : 235, up: i < 3 ? 20 : 235 },
          },
        },
        normal,
      ),
    );
    const cells = ["primary", "secondary"] as const;
    const { hypotheses } = track(cells, inputs, recovery)[3]!;
    for (const cell of cells) {
      const film = cellView(layoutOf(cells), hypotheses, cell).film();
      const positive = film.filter(({ mean, variance }) => mean > 3 * Math.sqrt(variance) + 1);
      expect(positive.reduce((sum, { weight }) => sum + weight, 0)).toBeLessThan(0.001);
    }
    expect(
      cellView(layoutOf(cells), hypotheses, "secondary").causes().get("sound") ?? 0,
    ).toBeLessThan(0.05);
  });

  it("disagreeing bottles of one cast with an unchanged pair are a reference error", () => {
    const sound = { gains: { primary: { down: 3, up: 3 }, secondary: { down: -8, up: -8 } } };
    const tracked = follow([...repeat(3, sound), { ...sound, reference: 120 }], 3, both);
    for (const cell of both) {
      const last = held(both, tracked.at(-1)!, cell);
      expect(last.causes["reference-error"]).toBeGreaterThan(0.9);
      expect(Math.abs(last.mean - sound.gains[cell].up)).toBeLessThan(3 * last.sd);
    }
  });

  it("two later laboratory runs outweigh a bad first run that made a shifted cell look sound", () => {
    const shifted = steady(154);
    const tracked = follow([{ ...shifted, reference: -120 }, ...repeat(3, shifted)]);
    const first = held(["primary"], tracked[0]!, "primary");
    expect(first.causes.sound).toBeGreaterThan(0.85);
    const third = held(["primary"], tracked[2]!, "primary");
    expect(third.causes["calibration-shift"]).toBeGreaterThan(0.9);
    expect(Math.abs(third.mean - 154)).toBeLessThan(3 * third.sd);
  });

  it("an equal change of both cells is a film in both, unless their bottles are from a new run", () => {
    const [sound, fouled] = [0, -300].map((gain) => ({
      gains: { primary: { down: gain, up: gain }, secondary: { down: gain, up: gain } },
    }));
    const inRun = (run: string) => {
      const normal = deviates(11);
      const inputs = [sound!, sound!, fouled!].map((design, i) => ({
        ...inputOf(i, design, normal),
        evolutions:
          i === 0 || (i === 2 && run !== "run 1") ? {} : { run: { kind: "constant" } as const },
      }));
      return held(both, track(both, inputs, recovery).at(-1)!, "secondary").causes;
    };
    const goesOn = inRun("run 1");
    const isNew = inRun("run 2");
    expect(goesOn.fouling).toBeGreaterThan(0.5);
    expect(goesOn.fouling! / goesOn["reference-error"]!).toBeGreaterThan(
      (5 * isNew.fouling!) / isNew["reference-error"]!,
    );
  });

  it("legs that disagree layer by layer are the water", () => {
    const tracked = follow([...repeat(4, steady(0)), { ...steady(0), water: 250 }]);
    const last = held(["primary"], tracked.at(-1)!, "primary");
    expect(last.causes.water).toBeGreaterThan(0.9);
  });

  it("an error in proportion to pressure is a pressure response", () => {
    const design = { gains: { primary: { down: 0, up: 0, pressure: 45 } } };
    const last = held(["primary"], follow(repeat(6, design)).at(-1)!, "primary");
    expect(last.causes["pressure-response"]).toBeGreaterThan(0.9);
  });

  it("which of two cells fouled follows from the pair and the other's bottles", () => {
    const before = { gains: { primary: { down: 0, up: 0 }, secondary: { down: 0, up: 0 } } };
    const after = { gains: { primary: { down: 0, up: 0 }, secondary: { down: 0, up: -90 } } };
    const tracked = follow([...repeat(3, before), after], 5, both);
    expect(held(both, tracked.at(-1)!, "secondary").causes.fouling).toBeGreaterThan(0.9);
    expect(held(both, tracked.at(-1)!, "primary").causes.fouling ?? 0).toBeLessThan(0.1);
  });

  it("a cast without evidence is predicted only, and the uncertainty of a fouled cell grows", () => {
    const normal = deviates(7);
    const inputs = [0, 0, -180, -180].map((gain, i) => inputOf(i, steady(gain), normal));
    const silent = {
      cast: "005",
      observations: [],
      onsets: {},
      evolutions: {},
      maintenanceAfter: [],
    };
    const tracked = track(["primary"], [...inputs, silent], recovery);
    const [before, after] = [3, 4].map((i) => held(["primary"], tracked[i]!, "primary"));
    expect(after!.sd).toBeGreaterThan(before!.sd);
    // It may also have begun to grow or been shed in part, so the mean may move a little.
    expect(Math.abs(after!.mean - before!.mean)).toBeLessThan(5);
  });

  it("adding the same to every gain adds it to every estimate, where priors are wide", () => {
    const low = held(["primary"], follow(repeat(5, steady(-160))).at(-1)!, "primary");
    const high = held(["primary"], follow(repeat(5, steady(-120))).at(-1)!, "primary");
    expect(high.mean - low.mean).toBeGreaterThan(38);
    expect(high.mean - low.mean).toBeLessThan(42);
  });

  it("the order of observations within a cast does not matter", () => {
    const normal = deviates(11);
    const inputs = [0, 1, 2].map((i) => inputOf(i, steady(-70), normal));
    const reversed = inputs.map((input) => ({
      ...input,
      observations: [...input.observations].reverse(),
    }));
    const a = held(["primary"], track(["primary"], inputs, recovery).at(-1)!, "primary");
    const b = held(["primary"], track(["primary"], reversed, recovery).at(-1)!, "primary");
    expect(a.mean).toBeCloseTo(b.mean, 6);
    expect(a.sd).toBeCloseTo(b.sd, 6);
  });
});

describe("likelihoods of rows", () => {
  const normal = deviates(2);
  const state = certainZero(4);
  [9, 100, 4, 25].forEach((variance, i) => {
    redraw(state, i, normal(), variance);
  });
  const given = {
    rows: Array.from({ length: 20 }, () =>
      Float64Array.from({ length: 4 }, (_, j) => (j === 2 ? 0 : normal())),
    ),
    values: Array.from({ length: 20 }, () => 10 * normal()),
    variances: Array.from({ length: 20 }, () => 1 + normal() ** 2),
    logConstant: 0,
  };
  const inFull = () => {
    const conditioned = copyOf(state);
    const logDensity = given.rows.reduce(
      (sum, row, i) => sum + condition(conditioned, row, given.values[i]!, given.variances[i]!),
      0,
    );
    return { conditioned, logDensity };
  };

  it("compressed rows have the same likelihood as all rows", () => {
    const few = compress(given);
    expect(few.rows.length).toBe(3);
    const conditioned = copyOf(state);
    let logDensity = few.logConstant;
    few.rows.forEach((row, i) => {
      logDensity += condition(conditioned, row, few.values[i]!, few.variances[i]!);
    });
    const full = inFull();
    expect(logDensity).toBeCloseTo(full.logDensity, 8);
    conditioned.mean.forEach((mean, i) => {
      expect(mean).toBeCloseTo(full.conditioned.mean[i]!, 9);
    });
  });

  it("the marginal of new coefficients equals that of a state widened by them", () => {
    // The two shared errors have the same variance under a second hypothesis, so they are integrated out first.
    const other = copyOf(state);
    redraw(other, 0, 2, 1);
    const held = [state, other].map((state) => ({ logWeight: 0, state, events: { cells: {} } }));
    const sharedErrors = layoutOf(["primary"]).sharedErrors.slice(0, 2);
    const information = informationFor({ cells: [], sharedErrors, size: 4 }, held);
    const expected = information(state)(compress(given));
    expect(expected.logDensity).toBeCloseTo(inFull().logDensity, 8);
    const directions = [
      { slots: [0, 3], changes: [5, 5] },
      { slots: [1, 3], changes: [20, -20] },
    ];
    const widened = copyOf(state);
    for (const { slots, changes } of directions) {
      for (const [k, i] of slots.entries()) {
        for (const [l, j] of slots.entries())
          widened.covariance[i * 4 + j]! += changes[k]! * changes[l]!;
      }
    }
    const logDensity = given.rows.reduce(
      (sum, row, i) => sum + condition(widened, row, given.values[i]!, given.variances[i]!),
      0,
    );
    expect(logMarginal(expected, directions)).toBeCloseTo(logDensity, 8);
  });
});
