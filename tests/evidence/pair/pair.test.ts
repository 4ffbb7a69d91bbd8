import { existsSync, readFileSync } from "node:fs";
import { group } from "d3-array";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Bottle } from "../../../src/cast/bottle.js";
import type { Cast } from "../../../src/cast/cast.js";
import { splitLegs } from "../../../src/cast/splitLegs.js";
import { pairEvidence } from "../../../src/evidence/pair/pair.js";
import { pairDifferences } from "../../../src/evidence/pair/pairDifferences.js";
import { gainOf, gainTerms, type Observation } from "../../../src/model/observation.js";
import { cFromSp } from "../../../src/seawater/index.js";
import { median } from "../../../src/statistics/robustCentre.js";
import { bottlesAt, calm, castThrough, column, type Gains } from "../bottles/closures.js";

const fromCast = (cast: Cast) => pairEvidence("001", pairDifferences(cast, splitLegs(cast), []));
const fromClosures = (bottles: readonly Bottle[]) =>
  pairEvidence("001", pairDifferences(undefined, undefined, bottles));
const of = (observations: readonly Observation[], leg: "down" | "up") =>
  observations.filter((one) => gainTerms(one)[0]!.gain.leg === leg);
const gain = fc.double({ min: -3000, max: 3000, noNaN: true });

describe("the pair of cells", () => {
  it("the pair observes the gain of the first cell minus the second, on each leg", () => {
    fc.assert(
      fc.property(gain, gain, gain, gain, (down1, down2, up1, up2) => {
        const { observations } = fromCast(
          castThrough(400, {
            down: { primary: down1, secondary: down2 },
            up: { primary: up1, secondary: up2 },
          }),
        );
        for (const [leg, truth] of [
          ["down", down1 - down2],
          ["up", up1 - up2],
        ] as const) {
          const found = of(observations, leg);
          expect(found.length).toBeGreaterThan(1);
          for (const observation of found) {
            const { value } = observation;
            // The logarithm of a ratio against the difference of gains: g^2 / 2, of 3000 ppm 5 ppm; twice.
            expect(Math.abs(value - truth)).toBeLessThan(0.5 + 0.004 * Math.abs(truth));
            expect(gainTerms(observation)).toEqual([
              gainOf("primary", leg),
              gainOf("secondary", leg, -1),
            ]);
          }
        }
      }),
      { numRuns: 25, seed: 4 },
    );
  });

  it("the pair does not see a common error of both cells", () => {
    const between = (shared: number) => {
      const gains: Gains = { primary: 40 + shared, secondary: -20 + shared };
      return fromClosures(bottlesAt(calm(12), gains)).observations.map(({ value }) => value);
    };
    const sound = between(0);
    for (const shared of [-5000, -300, 250]) {
      between(shared).forEach((value, i) => {
        expect(Math.abs(value - sound[i]!)).toBeLessThan(0.02 * 60);
      });
    }
  });

  it("swapping the cells changes the sign of the pair", () => {
    const [there, back] = [
      fromClosures(bottlesAt(calm(12), { primary: 55, secondary: -35 })),
      fromClosures(bottlesAt(calm(12), { primary: -35, secondary: 55 })),
    ];
    there.observations.forEach(({ value, variance }, i) => {
      expect(Math.abs(value + back.observations[i]!.value)).toBeLessThan(0.05);
      expect(back.observations[i]!.variance).toBeCloseTo(variance, 3);
    });
  });

  it("warmer water in one line is no gain error: each conductivity is taken with its own temperature", () => {
    const bottles = bottlesAt(calm(12), { primary: 0 }).map((bottle): Bottle => {
      const { pressure_dbar, salinity, ctd } = bottle;
      const temperature_C = ctd!.primary!.temperature_C + 0.3;
      const conductivity_mS_cm = cFromSp(salinity, temperature_C, pressure_dbar);
      return { ...bottle, ctd: { ...ctd, secondary: { temperature_C, conductivity_mS_cm } } };
    });
    for (const { value } of fromClosures(bottles).observations) {
      expect(Math.abs(value)).toBeLessThan(0.01);
    }
  });

  it("0.003 to 0.007 in salinity, which two healthy cells differ by, is 77 to 180 ppm", () => {
    // Bottle minus CTD of the two cells of one package [CalCOFI2016]; 1e-4 of conductivity is 0.0039 (PSS-78).
    for (const [salinity, ppm] of [
      [0.003, 77],
      [0.007, 180],
    ] as const) {
      const bottles = bottlesAt(calm(9), { primary: 0 }).map((bottle): Bottle => {
        const { pressure_dbar, ctd } = bottle;
        const { temperature_C } = ctd!.primary!;
        const conductivity_mS_cm = cFromSp(
          bottle.salinity - salinity,
          temperature_C,
          pressure_dbar,
        );
        return { ...bottle, ctd: { ...ctd, secondary: { temperature_C, conductivity_mS_cm } } };
      });
      for (const { value } of fromClosures(bottles).observations) {
        expect(Math.abs(value / ppm - 1)).toBeLessThan(0.03);
      }
    }
  });

  it("the uncertainty of the pair stays that of healthy pairs, 0.0002 in salinity, for any number of readings", () => {
    const { observations } = fromCast(
      castThrough(3000, {
        down: { primary: 0, secondary: 0 },
        up: { primary: 0, secondary: 0 },
      }),
    );
    for (const { variance } of observations) {
      expect(Math.sqrt(variance)).toBeGreaterThan(5);
      expect(Math.sqrt(variance)).toBeLessThan(20);
    }
    expect(of(observations, "down").length).toBeLessThanOrEqual(6);
    expect(of(observations, "up").length).toBeLessThanOrEqual(6);
  });

  it("the pair shows where on the leg one cell caught something", () => {
    const cast = castThrough(2000, {
      down: { primary: 0, secondary: 0 },
      up: { primary: -150, secondary: 0 },
    });
    // From 900 dbar of the way down.
    const { conductivity_mS_cm } = cast.columns.primary;
    for (let i = 900; i <= 2000; i++) conductivity_mS_cm[i]! *= 1 - 150e-6;
    const down = of(fromCast(cast).observations, "down");
    for (const { pressure_dbar, value } of down) {
      if (pressure_dbar < 650) expect(Math.abs(value)).toBeLessThan(3);
      if (pressure_dbar > 1200) expect(Math.abs(value + 150)).toBeLessThan(3);
    }
    expect(down.at(-1)!.value).toBeLessThan(-140);
    expect(down[0]!.value).toBeGreaterThan(-10);
  });

  it("on a cast of 15 dbar, a cell that still loses air on the way down is right again on the way up", () => {
    const cast = castThrough(15, {
      down: { primary: 0, secondary: 0 },
      up: { primary: 0, secondary: 0 },
    });
    const { columns } = cast;
    const scans = columns.pressure_dbar.length;
    // Air fills a part of the cell, so that it reads fresh: by 4000 ppm at first, and by 1 ppm at the end of the cast.
    const primary = {
      ...columns.primary,
      conductivity_mS_cm: columns.primary.conductivity_mS_cm.map(
        (c, i) => c * (1 - 4e-3 * Math.exp((-8.3 * i) / scans)),
      ),
    };
    const { observations } = fromCast({ ...cast, columns: { ...columns, primary } });
    const down = of(observations, "down");
    const up = of(observations, "up");
    expect(down.length).toBeGreaterThan(1);
    expect(down[0]!.value).toBeLessThan(-1000);
    expect(down.at(-1)!.value).toBeGreaterThan(-600);
    for (const { value } of up) expect(Math.abs(value)).toBeLessThan(70);
  });

  it("the gain of a block with a change inside may have any value between both", () => {
    const cast = castThrough(1200, {
      down: { primary: 0, secondary: 0 },
      up: { primary: -250, secondary: 0 },
    });
    for (let i = 500; i <= 1200; i++) cast.columns.primary.conductivity_mS_cm[i]! *= 1 - 250e-6;
    const { observations } = fromCast(cast);
    for (const observation of observations) {
      const { value, variance, pressure_dbar } = observation;
      const sd = Math.sqrt(variance);
      const fouled = gainTerms(observation)[0]!.gain.leg === "up" || pressure_dbar > 500;
      expect(Math.abs(value + (fouled ? 250 : 0))).toBeLessThan(2 * sd);
    }
    // The others say as much as before. Near the surface the legs disagree, which may also be a lag on the way down.
    const deep = observations.filter(({ pressure_dbar }) => pressure_dbar > 400);
    const wide = deep.filter(({ variance }) => variance > 400);
    expect(wide.length).toBeLessThanOrEqual(1);
  });

  it("a closure with different temperatures at the two cells gets little weight", () => {
    const stirred = bottlesAt(calm(12), { primary: 30, secondary: 0 }).map((bottle, i): Bottle => {
      if (i !== 5) return bottle;
      const { temperature_C, conductivity_mS_cm } = bottle.ctd!.secondary!;
      // Its conductivity cell saw the water of the others, its thermometer water half a degree warmer.
      return {
        ...bottle,
        ctd: {
          ...bottle.ctd,
          secondary: { temperature_C: temperature_C + 0.5, conductivity_mS_cm },
        },
      };
    });
    for (const { value } of fromClosures(stirred).observations) {
      expect(Math.abs(value - 30)).toBeLessThan(3);
    }
  });

  it("a pair from closures alone observes the up leg, with a note", () => {
    const { observations, notes } = fromClosures(
      bottlesAt([2000, 1500, 1000, 500].map(column), { primary: 12, secondary: 0 }),
    );
    expect(new Set(observations.map((one) => gainTerms(one)[0]!.gain.leg))).toEqual(
      new Set(["up"]),
    );
    expect(notes).toEqual(["from bottle closures only"]);
  });

  it("without a second cell or a reading there is no pair", () => {
    expect(fromClosures([]).observations).toEqual([]);
    expect(fromClosures(bottlesAt(calm(6), { primary: 0 })).observations).toEqual([]);
    const holes = bottlesAt(calm(6), { primary: 0, secondary: Number.NaN });
    expect(fromClosures(holes).observations).toEqual([]);
    const one = castThrough(100, { down: { primary: 0 }, up: { primary: 0 } });
    expect(fromCast(one).observations).toEqual([]);
  });

  it("pair readings above and below an onset are separated, and those near it are excluded", () => {
    const cast = castThrough(900, {
      down: { primary: 0, secondary: 0 },
      up: { primary: 0, secondary: 0 },
    });
    const { pressure_dbar, primary } = cast.columns;
    // -200 ppm from 64 dbar on the way up, which is no edge of any layer.
    for (let i = 901; i < pressure_dbar.length; i++)
      if (pressure_dbar[i]! < 64) primary.conductivity_mS_cm[i]! *= 1 - 200e-6;
    const onset = { pressure_dbar: 62, standardUncertainty_dbar: 4, probabilityDown: 0.02 };
    const differences = pairDifferences(cast, splitLegs(cast), [], undefined, [onset]);
    const up = of(pairEvidence("001", differences).observations, "up");
    const above = up.filter(({ pressure_dbar: p }) => p < 62);
    expect(above.length).toBeGreaterThan(0);
    expect(up.length).toBeGreaterThan(above.length);
    for (const { value, pressure_dbar: p, variance } of up) {
      expect(Math.abs(value - (p < 62 ? -200 : 0))).toBeLessThan(0.5);
      expect(Math.sqrt(variance)).toBeLessThan(20);
    }
  });

  it("is as uncertain on the way down as the legs disagree in a gradient near the surface, and no more on the way up or deeper", () => {
    const cast = castThrough(1200, {
      down: { primary: 50, secondary: 0 },
      up: { primary: 50, secondary: 0 },
    });
    const calm = fromCast(cast).observations;
    for (let i = 0; i < 250; i++) cast.columns.primary.conductivity_mS_cm[i]! *= 1 - 200e-6;
    const flushed = fromCast(cast).observations;
    for (const [i, observation] of flushed.entries()) {
      const { pressure_dbar, variance, value } = observation;
      const isOff = pressure_dbar < 400 && gainTerms(observation)[0]!.gain.leg === "down";
      if (isOff) expect(Math.sqrt(variance / calm[i]!.variance)).toBeGreaterThan(1.5);
      else expect(variance).toBeCloseTo(calm[i]!.variance, 1);
      expect(Math.abs(value - 50)).toBeLessThan(isOff ? 3 * Math.sqrt(variance) : 10);
    }
  });

  it("missing, impossible and infinite readings are skipped", () => {
    const cast = castThrough(300, {
      down: { primary: 10, secondary: 0 },
      up: { primary: 10, secondary: 0 },
    });
    const { pressure_dbar, primary, secondary } = cast.columns;
    const columns = [
      pressure_dbar,
      primary.temperature_C,
      primary.conductivity_mS_cm,
      secondary!.temperature_C,
      secondary!.conductivity_mS_cm,
    ];
    // As split before: the scans with such readings stay on their legs.
    const legs = splitLegs(cast);
    const odd = [Number.NaN, Number.POSITIVE_INFINITY, Number.NaN];
    for (let i = 20; i < 600; i += 7) columns[i % 5]![i] = odd[i % 3]!;
    const { observations } = pairEvidence("001", pairDifferences(cast, legs, []));
    expect(observations.length).toBeGreaterThan(2);
    for (const { value, variance } of observations) {
      expect(Math.abs(value - 10)).toBeLessThan(0.1);
      expect(variance).toBeGreaterThan(0);
    }
    const bottles = bottlesAt(calm(6), { primary: 10, secondary: 0 }).map((bottle, i) =>
      i === 3 ? { ...bottle, pressure_dbar: Number.NaN } : bottle,
    );
    for (const { value, pressure_dbar: p } of fromClosures(bottles).observations) {
      expect(value).toBeCloseTo(10, 1);
      expect(p).toBeGreaterThan(0);
    }
  });
});

const shelf = "../shared/data/shelf-two-sensors-2018a/closures.csv";

describe("the pair of an ordinary cruise", () => {
  // ../shared is not part of the package; where it is absent this is skipped.
  it.skipIf(!existsSync(shelf))(
    "differs by the 0.0024 to 0.0034 in salinity that the closures of a healthy pair show, cast after cast",
    () => {
      const [heading, ...rows] = readFileSync(shelf, "utf8").trim().split(/\r?\n/);
      const names = heading!.split(",");
      const at = (row: string, part: RegExp) =>
        row.split(",")[names.findIndex((name) => part.test(name))]!;
      const bottles = rows.map(
        (row, i): Bottle => ({
          cast: at(row, /^cast/),
          bottle: String(i),
          pressure_dbar: Number(at(row, /^pressure/)),
          salinity: Number.NaN,
          ctd: {
            primary: {
              temperature_C: Number(at(row, /^t1_/)),
              conductivity_mS_cm: Number(at(row, /^c1_/)),
            },
            secondary: {
              temperature_C: Number(at(row, /^t2_/)),
              conductivity_mS_cm: Number(at(row, /^c2_/)),
            },
          },
        }),
      );
      const byCast = [...group(bottles, ({ cast }) => Number(cast))].sort(([a], [b]) => a - b);
      expect(byCast.length).toBeGreaterThan(20);
      const medians = byCast.flatMap(([, own]) => {
        const { observations } = fromClosures(own);
        return observations.length === 0 ? [] : [median(observations.map(({ value }) => value))];
      });
      // 39 ppm are 0.0015; 26 to 40 ppm a thousandth: 0.0039 in salinity are 100 ppm at SP 35 (PSS-78).
      const inSalinity = medians.map((ppm) => ppm * 3.9e-5);
      expect(median(inSalinity)).toBeGreaterThan(0.0022);
      expect(median(inSalinity)).toBeLessThan(0.0036);
      expect(Math.abs(inSalinity[0]! - 0.0024)).toBeLessThan(0.0005);
    },
  );
});
