import { describe, expect, it } from "vitest";
import type { DeepReference } from "../../../src/cast/deepReference.js";
import { splitLegs } from "../../../src/cast/splitLegs.js";
import { thinLayers } from "../../../src/cast/thinLayers.js";
import { classWidth_K, deepProfile } from "../../../src/evidence/deepWater/deepProfile.js";
import { noDeepWaterYet } from "../../../src/evidence/deepWater/deepWater.js";
import { median } from "../../../src/statistics/robustCentre.js";
import {
  alongTrack,
  arcticCasts,
  arcticIsThere,
  bothCells,
  castsOf,
  indianCasts,
  indianIsThere,
  seenBy,
} from "./deepCasts.js";

const seeds = Array.from({ length: 15 }, (_, i) => 100 + i);
const meanSquare = (values: readonly number[]) =>
  values.reduce((sum, value) => sum + value ** 2, 0) / values.length;

/** Known truth: simulated cruises of sound cells on a track whose water changes slowly. */
describe("the deep water of simulated cruises", () => {
  const cruises = seeds.map((seed) => alongTrack(castsOf({ seed, casts: 10 })));

  it("observes the change of one cell relative to the other within its stated variances, over 15 seeds", () => {
    const z = cruises.flatMap((cruise) =>
      cruise.slice(1).map((now, k) => {
        const before = cruise[k]!;
        const parts = [now, before].map((found) => bothCells.map((cell) => seenBy(found, cell)!));
        const variance = parts.flat().reduce((sum, { variance }) => sum + variance, 0);
        const [[a, b], [c, d]] = parts.map((pair) => pair.map(({ value }) => value)) as [
          [number, number],
          [number, number],
        ];
        return (a - b - (c - d)) / Math.sqrt(variance);
      }),
    );
    // Scatter of the water is shared by the cells, so that these differences are rather better than said.
    expect(meanSquare(z)).toBeLessThan(1.1);
    expect(meanSquare(z)).toBeGreaterThan(0.1);
  });

  it("the variance of the water's steps is not understated", () => {
    const z = cruises.flatMap((cruise) =>
      cruise.slice(1).map((now, k) => {
        const [a, b] = [seenBy(now, "primary")!, seenBy(cruise[k]!, "primary", "up")!];
        return (a.value - b.value) / Math.sqrt(now.step!.walk_ppm2 + a.variance + b.variance);
      }),
    );
    expect(meanSquare(z)).toBeLessThan(1);
    expect(meanSquare(z)).toBeGreaterThan(0.05);
    expect(z.filter((value) => Math.abs(value) > 3).length).toBeLessThan(0.01 * z.length);
  });

  it("the random walk of deep water becomes narrower on a calm cruise", () => {
    const walks = (k: number) => median(cruises.map((cruise) => cruise[k]!.step!.walk_ppm2));
    expect(walks(9)).toBeLessThan(0.7 * walks(1));
  });

  it("the deep-water curve starts with the first cast and never again", () => {
    for (const cruise of cruises) {
      expect(cruise.map(({ step }) => step!.restart)).toEqual(cruise.map((_, k) => k === 0));
    }
  });

  it("a film moves one cell by its size, other water moves both cells", () => {
    for (const seed of seeds.slice(0, 3)) {
      const sound = alongTrack(castsOf({ seed, casts: 8 }));
      const filmed = alongTrack(
        castsOf({
          seed,
          casts: 8,
          events: [
            { kind: "film-step", cast: 6, cells: ["primary"], at: "before-cast", ppm: -120 },
          ],
        }),
      );
      const moved = (cell: "primary" | "secondary", k: number) =>
        seenBy(filmed[k]!, cell)!.value - seenBy(sound[k]!, cell)!.value;
      for (const k of [5, 6, 7]) {
        expect(Math.abs(moved("primary", k) + 120)).toBeLessThan(6);
        expect(Math.abs(moved("secondary", k))).toBeLessThan(6);
      }
      const change = (cell: "primary" | "secondary") =>
        seenBy(sound[7]!, cell)!.value - seenBy(sound[2]!, cell)!.value;
      expect(Math.abs(change("primary") - change("secondary"))).toBeLessThan(30);
    }
  });

  it("one outlying cast does not change the curve for later casts", () => {
    for (const seed of seeds.slice(0, 3)) {
      const sound = alongTrack(castsOf({ seed, casts: 10 }));
      const wild = alongTrack(
        castsOf({
          seed,
          casts: 10,
          events: [
            {
              kind: "film-step",
              cast: 5,
              cells: ["primary"],
              at: { leg: "down", pressure_dbar: 1850 },
              ppm: -2000,
            },
            { kind: "shed", cast: 6, cells: ["primary"], retained: 0 },
          ],
        }),
      );
      for (const k of [6, 7, 8, 9]) {
        const off = seenBy(wild[k]!, "primary")!.value - seenBy(sound[k]!, "primary")!.value;
        expect(Math.abs(off)).toBeLessThan(8);
      }
    }
  });

  it("a uniform step, of one cell or of both, does not restart the walk: the causes decide", () => {
    const changed = (cells: readonly ("primary" | "secondary")[]) =>
      castsOf({ seed: 8, casts: 8 }).map((cast, k) => {
        if (k < 6) return cast;
        const columns = { ...cast.columns };
        for (const cell of cells) {
          const { temperature_C, conductivity_mS_cm } = cast.columns[cell]!;
          const read = conductivity_mS_cm.map((c) => c * (1 + 600e-6));
          columns[cell] = { temperature_C, conductivity_mS_cm: read };
        }
        return { ...cast, columns };
      });
    const restarts = (cells: readonly ("primary" | "secondary")[]) =>
      alongTrack(changed(cells)).map(({ step }) => step!.restart);
    for (const cells of [bothCells, ["primary"] as const]) {
      expect(restarts(cells)).toEqual([true, ...Array<boolean>(7).fill(false)]);
    }
  });

  it("a reference table shows the gain itself, with one error for all casts", () => {
    const [known] = castsOf({ seed: 3, casts: 1 });
    const { classes } = deepProfile(thinLayers(known!, splitLegs(known!)).of("down", "primary"));
    const reference: DeepReference = {
      potentialTemperature_C: Float64Array.from(
        classes,
        ({ index }) => (index + 0.5) * classWidth_K,
      ),
      salinity: Float64Array.from(classes, ({ salinity }) => salinity),
      rowUncertainty: Float64Array.from(classes, () => Number.NaN),
      standardUncertainty: 0.001,
    };
    const off = castsOf({
      seed: 3,
      casts: 3,
      calibrationResidual_ppm: { primary: 80, secondary: -40 },
    });
    const found = alongTrack(off, bothCells, reference);
    expect(Math.abs(seenBy(found[0]!, "primary")!.value - 80)).toBeLessThan(3);
    expect(Math.abs(seenBy(found[0]!, "secondary")!.value + 40)).toBeLessThan(20);
    // 0.001 in salinity is 26 ppm at SP 35: 1e-4 of conductivity is 0.0039.
    expect(Math.sqrt(found[0]!.step!.walk_ppm2)).toBeGreaterThan(24);
    expect(Math.sqrt(found[0]!.step!.walk_ppm2)).toBeLessThan(29);
    expect(found[1]!.step).toEqual({ walk_ppm2: 0, restart: false });
  });

  it("deep water is observed from scans, from a down leg alone, and from layers of 2 and 10 dbar", () => {
    const scans = castsOf({ seed: 5, casts: 2, sampling: { kind: "time-series", rate_Hz: 1 } });
    const fine = castsOf({ seed: 5, casts: 2, sampling: { kind: "averages", layer_dbar: 2 } });
    const coarse = castsOf({ seed: 5, casts: 2 });
    const alone = coarse.map((cast) => {
      const turn = cast.columns.pressure_dbar.indexOf(Math.max(...cast.columns.pressure_dbar));
      const { temperature_C, conductivity_mS_cm } = cast.columns.primary;
      return {
        ...cast,
        columns: {
          pressure_dbar: cast.columns.pressure_dbar.slice(0, turn + 1),
          primary: {
            temperature_C: temperature_C.slice(0, turn + 1),
            conductivity_mS_cm: conductivity_mS_cm.slice(0, turn + 1),
          },
          others: {},
        },
      };
    });
    const change = (found: ReturnType<typeof alongTrack>) => seenBy(found[1]!, "primary")!.value;
    const best = change(alongTrack(coarse));
    for (const casts of [scans, fine, alone]) {
      expect(Math.abs(change(alongTrack(casts, ["primary"])) - best)).toBeLessThan(12);
    }
    expect(seenBy(alongTrack(alone, ["primary"])[1]!, "primary", "up")).toBeUndefined();
  });

  it("casts to 900 dbar have deep water too, and its steps are not understated", () => {
    const z = seeds.flatMap((seed) => {
      const cruise = alongTrack(castsOf({ seed, casts: 6, deepest_dbar: 900 }));
      return cruise.slice(1).flatMap((now, k) => {
        const [a, b] = [seenBy(now, "primary"), seenBy(cruise[k]!, "primary")];
        if (a === undefined || b === undefined || now.step!.restart) return [];
        return [(a.value - b.value) / Math.sqrt(now.step!.walk_ppm2 + a.variance + b.variance)];
      });
    });
    expect(z.length).toBeGreaterThan(4 * seeds.length);
    expect(meanSquare(z)).toBeLessThan(1);
    expect(z.filter((value) => Math.abs(value) > 3).length).toBeLessThan(0.02 * z.length);
  });

  it("a shallow sea gives a note instead of deep water, and the memory stays", () => {
    const [found] = alongTrack(castsOf({ seed: 1, casts: 1, ocean: "shelf" }));
    expect(found!.step).toBeUndefined();
    expect(found!.memory).toBe(noDeepWaterYet);
    for (const { observations, notes } of found!.lines) {
      expect(observations).toEqual([]);
      expect(notes).toEqual([expect.stringContaining("no water below 500 dbar")]);
    }
  });
});

/** Clean control: a well-kept cruise of 45 casts, adjusted to bottles by its originators. */
describe.skipIf(!indianIsThere)(
  "open data of the southeast Indian Ocean (skipped where ../shared/data is not there)",
  () => {
    const casts = indianIsThere ? indianCasts() : [];
    const found = alongTrack(casts, ["primary"]);
    const deep = found.flatMap((cast) => {
      const own = seenBy(cast, "primary");
      return own === undefined || own.pressure_dbar < 3000 ? [] : [own.value];
    });

    it("deep casts differ from their neighbours by the published 0.00015, which is 4 ppm", () => {
      const away = deep
        .slice(1, -1)
        .map((value, k) => Math.abs(value - (deep[k]! + deep[k + 2]!) / 2));
      expect(deep.length).toBeGreaterThan(25);
      expect(median(away)).toBeLessThan(4);
    });

    it("no deep-water change exceeds four of its standard deviations, although neighbours differ by up to 0.01", () => {
      const seen = found.filter(({ step }) => step !== undefined);
      const z = seen.slice(1).flatMap((now, k) => {
        if (now.step!.restart) return [];
        const [a, b] = [seenBy(now, "primary")!, seenBy(seen[k]!, "primary")!];
        const variance = now.step!.walk_ppm2 + a.variance + b.variance;
        return [(a.value - b.value) / Math.sqrt(variance)];
      });
      expect(z.length).toBeGreaterThan(40);
      expect(Math.max(...z.map(Math.abs))).toBeLessThan(4);
      expect(meanSquare(z)).toBeLessThan(1.5);
    });
  },
);

describe.skipIf(!arcticIsThere)(
  "open data of the Arctic (skipped where ../shared/data is not there)",
  () => {
    it("shelf casts have no deep water, and casts of the basin agree within their uncertainties", () => {
      const casts = arcticIsThere ? arcticCasts() : [];
      const found = alongTrack(casts, ["primary"]);
      const depths = casts.map((cast) => Math.max(...cast.columns.pressure_dbar));
      const seen = found.filter((cast, k) => {
        if (depths[k]! < 500) expect(cast.step).toBeUndefined();
        return cast.step !== undefined;
      });
      expect(seen.length).toBeGreaterThan(2);
      for (const [k, now] of seen.slice(1).entries()) {
        if (now.step!.restart) continue;
        const leg = now.lines[0]!.observations[0]!;
        const before = seen[k]!.lines[0]!.observations[0]!;
        const variance = now.step!.walk_ppm2 + leg.variance + before.variance;
        expect(Math.abs(leg.value - before.value)).toBeLessThan(4 * Math.sqrt(variance));
      }
    });
  },
);
