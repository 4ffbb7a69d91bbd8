// The worlds as a whole: what each promises, and that a seed is a cruise.
import { describe, expect, it } from "vitest";
import type { CellName } from "../../../src/cast/cast.js";
import { cFromSp, spFromC } from "../../../src/seawater/index.js";
import { ppmOf } from "../../../src/simulate/worlds/truth.js";
import {
  type SimulatedWorld,
  simulateWorld,
  worldNames,
} from "../../../src/simulate/worlds/worlds.js";

const small = { casts: 5 };
const made = new Map<string, SimulatedWorld>(
  worldNames.map((world) => [world, simulateWorld(world, 2, small)]),
);
const of = (world: string) => made.get(world)!;
/** Every cell of every cast. */
const cellsOf = ({ truth }: SimulatedWorld) =>
  truth.flatMap(({ cells }, cast) => Object.values(cells).map((cell) => ({ cast, ...cell })));

describe("a world", () => {
  it("the same seed gives the same cruise to the last digit", () => {
    const again = simulateWorld("everything", 2, small);
    const sums = ({ cruise, truth }: SimulatedWorld) => ({
      scans: cruise.casts.map(({ data }) =>
        data!.columns.primary.conductivity_mS_cm.reduce((sum, c) => (c > 0 ? sum + c : sum), 0),
      ),
      bottles: cruise.bottles,
      maintenance: cruise.maintenance,
      gains: truth.map(({ cells }) => cells.primary!.gain_ppm),
    });
    expect(sums(again)).toEqual(sums(of("everything")));
  });

  it("another seed or another world gives another cruise", () => {
    const firstReadings = [
      simulateWorld("sound", 3, small),
      ...worldNames.map((world) => of(world)),
    ].map(({ cruise }) => cruise.casts[0]!.data!.columns.primary.conductivity_mS_cm[3000]);
    expect(new Set(firstReadings).size).toBe(worldNames.length + 1);
  });

  it.each(worldNames)("%s: columns have one length, and a missing value is NaN", (world) => {
    for (const { data } of of(world).cruise.casts) {
      const { time_s, pressure_dbar, primary } = data!.columns;
      expect(time_s!.length).toBe(pressure_dbar.length);
      expect(primary.conductivity_mS_cm.length).toBe(pressure_dbar.length);
      expect(primary.temperature_C.filter(Number.isNaN).length).toBeLessThan(200);
      expect(time_s!.every((time, i) => i === 0 || time > time_s![i - 1]!)).toBe(true);
    }
  });

  it("a cast at 24 Hz has six times the scans of one at 4 Hz", () => {
    const fast = simulateWorld("sound", 2, { casts: 1, rate_Hz: 24 }).cruise.casts[0]!.data!;
    const usual = simulateWorld("sound", 2, { casts: 1 }).cruise.casts[0]!.data!;
    const scans = (cast: typeof fast) => cast.columns.time_s!.at(-1)! * cast.sampleRate_Hz!;
    expect(scans(fast) / scans(usual)).toBeCloseTo(6, 2);
  });

  it("the newest casts can lack laboratory salinities", () => {
    const { cruise } = simulateWorld("sound", 2, { casts: 3, newestUnmeasured: 2 });
    for (const { cast, salinity } of cruise.bottles) {
      expect(Number.isNaN(salinity)).toBe(cast !== "001");
    }
  });

  it("0.002 in salinity is 51 ppm of conductivity at SP 35", () => {
    const c = cFromSp(35, 15, 0);
    expect(spFromC(c * (1 + 1e-6 * ppmOf(0.002)), 15, 0) - 35).toBeCloseTo(0.002, 6);
    expect(ppmOf(0.002)).toBeGreaterThan(50);
    expect(ppmOf(0.002)).toBeLessThan(53);
  });

  it.each(worldNames)("%s: a film makes a cell read fresh, never salty", (world) => {
    for (const { film_ppm } of cellsOf(of(world))) {
      expect(film_ppm.down).toBeLessThanOrEqual(0);
      expect(film_ppm.up).toBeLessThanOrEqual(0);
    }
  });

  it("the deep bottles give the true gain of a sound cell", () => {
    const { cruise, truth } = simulateWorld("sound", 5);
    const residuals = cruise.bottles.flatMap(({ cast, pressure_dbar, salinity, time_s }) => {
      if (pressure_dbar < 700) return [];
      const { columns } = cruise.casts.find(({ id }) => id === cast)!.data!;
      const i = columns.time_s!.findIndex((time) => time >= time_s! - 2);
      const { temperature_C, conductivity_mS_cm } = columns.primary;
      const c = cFromSp(salinity, temperature_C[i]!, columns.pressure_dbar[i]!);
      const true_ppm = truth.find((one) => one.cast === cast)!.cells.primary!.gain_ppm.up;
      return [1e6 * Math.log(conductivity_mS_cm[i]! / c) - true_ppm];
    });
    const middle = residuals.toSorted((a, b) => a - b)[residuals.length >> 1]!;
    // Pressure term, offset, thermometer and standardisation together, ppm.
    expect(Math.abs(middle)).toBeLessThan(30);
    expect(residuals.length).toBeGreaterThan(40);
  });
});

describe("the assumption that each world breaks", () => {
  it("sound cells, slow cells, other water and bad samples come with no film", () => {
    for (const world of [
      "sound",
      "slow-cell",
      "other-water-up",
      "spoilt-samples",
      "copied-samples",
    ]) {
      for (const { film_ppm, fouledBeyondTarget, causes } of cellsOf(of(world))) {
        expect(film_ppm.up).toBeCloseTo(0, 12);
        expect(fouledBeyondTarget).toBe(false);
        expect(causes).toContain("sound");
      }
    }
  });

  it("a film that grows is thicker at the end of a cast than at its beginning", () => {
    const grown = cellsOf(of("film-growing")).filter(({ film_ppm }) => film_ppm.down < -1);
    expect(grown.length).toBeGreaterThan(0);
    for (const { film_ppm } of grown) expect(film_ppm.up).toBeLessThan(film_ppm.down);
  });

  it("the films of both cells keep one proportion", () => {
    const shares = of("film-both-cells").truth.map(
      ({ cells }) => cells.primary!.film_ppm.up / cells.secondary!.film_ppm.up,
    );
    const known = shares.filter(Number.isFinite);
    expect(known.length).toBeGreaterThan(1);
    for (const share of known) expect(share).toBeCloseTo(known[0]!, 6);
  });

  it("a film that resists soaks is unchanged after the recorded soaks", () => {
    const { cruise, truth } = simulateWorld("film-no-soak-moves", 4);
    expect(cruise.maintenance.some(({ action }) => action === "soak")).toBe(true);
    const films = (["primary", "secondary"] as const satisfies readonly CellName[]).flatMap(
      (cell) => truth.flatMap(({ cells }) => cells[cell]?.film_ppm.up ?? []),
    );
    expect(new Set(films.filter((film) => film < -1).map((film) => film.toFixed(6))).size).toBe(1);
    expect(truth.at(-1)!.cells).toSatisfy((cells: object) =>
      Object.values(cells).some((cell) => cell.fouledBeyondTarget && !cell.cleaningWouldMend),
    );
  });

  it("a film from the soak is present when the down leg begins", () => {
    const first = cellsOf(of("film-in-the-soak")).find(({ film_ppm }) => film_ppm.up < -1)!;
    expect(first.film_ppm.down).toBe(first.film_ppm.up);
    expect(first.filmAt(0)).toBeCloseTo(0, 12);
  });

  it("the soak removes a film that came in one step", () => {
    const { truth } = simulateWorld("film-step", 3);
    const film = Object.values(truth[0]!.cells).map((_, c) =>
      truth.map(({ cells }) => Object.values(cells)[c]!.film_ppm.up),
    );
    const worst = Math.min(...film.flat());
    expect(worst).toBeLessThan(-59);
    const last = Math.min(...film.map((own) => own.at(-1)!));
    expect(last).toBeGreaterThan(0.16 * worst);
  });

  it("a transient changes the gain within the cast and not at its ends", () => {
    const own = cellsOf(of("transient")).filter(({ cause }) => cause === "transient");
    expect(own).toHaveLength(1);
    expect(own[0]!.film_ppm.down).toBeCloseTo(0, 9);
    expect(own[0]!.film_ppm.up).toBeCloseTo(0, 9);
    const times = Array.from({ length: 400 }, (_, k) => k * 60);
    expect(Math.min(...times.map(own[0]!.filmAt))).toBeLessThan(-99);
  });

  it("a shifted calibration is no film, and a soak does not change it", () => {
    const { cruise } = of("shifted-calibration");
    const own = cellsOf(of("shifted-calibration"));
    expect(own.some(({ causes }) => causes.includes("calibration-shift"))).toBe(true);
    expect(own.every(({ film_ppm }) => Math.abs(film_ppm.up) < 1e-9)).toBe(true);
    expect(cruise.maintenance.filter(({ action }) => action === "soak")).toHaveLength(1);
  });

  it("a copied cast has the salinities of an earlier one, bottle by bottle", () => {
    const { cruise, truth } = of("copied-samples");
    const to = truth.find(({ samples }) => samples === "copied")!.cast;
    const salinities = (cast: string) =>
      cruise.bottles.filter((bottle) => bottle.cast === cast).map(({ salinity }) => salinity);
    const same = truth.filter(
      ({ cast }) => cast !== to && String(salinities(cast)) === String(salinities(to)),
    );
    expect(same).toHaveLength(1);
  });

  it("an offset in uS/cm and a thermometer error in mK do not change the gain", () => {
    const offsets = cellsOf(of("offset")).filter(({ causes }) => causes.includes("offset"));
    const thermometers = cellsOf(of("thermometer")).filter(
      ({ temperatureError_mK }) => Math.abs(temperatureError_mK) >= 2,
    );
    for (const own of [offsets, thermometers]) {
      expect(own.length).toBeGreaterThan(0);
      expect(own.every(({ film_ppm }) => Math.abs(film_ppm.up) < 1e-9)).toBe(true);
    }
  });
});
