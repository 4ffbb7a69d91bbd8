// One cell gets its water later than the other, because its line is longer or its flow slower (0.3 s: judgement). In a barrier
// layer, where salinity has a step and temperature none, the two then disagree, down and up with opposite signs.
import { test } from "vitest";
import type { CellColumns, CellName } from "../../src/cast/cast.js";
import type { CruiseCast } from "../../src/cast/cruise.js";
import { cFromSp } from "../../src/seawater/index.js";
import { castId } from "../../src/simulate/scenario.js";
import { seeded } from "../evidence/seeded.js";
import { expectNoFilm, withTwoCells } from "./twoSoundCells.js";

const rate_Hz = 4;
const delay_s = 0.3;
const deepest_dbar = 600;

const smooth = (x: number) => (x <= 0 ? 0 : x >= 1 ? 1 : x * x * (3 - 2 * x));
/** Uniform to 60 dbar. */
const temperatureAt = (p: number) => 28 - 14 * smooth((p - 60) / 150) - 8 * smooth((p - 150) / 500);
/** Fresher by 2 above 20 dbar. */
const salinityAt = (p: number) =>
  33 + 2 * Math.min(1, Math.max(0, (p - 20) / 15)) - 0.5 * smooth((p - 100) / 500);

/** Each scan holds what was there `delay_s` before. */
function later(column: readonly number[]): readonly number[] {
  return column.map((_, k) => {
    const x = Math.max(0, k - delay_s * rate_Hz);
    const i = Math.floor(x);
    return column[i]! + (x - i) * ((column[i + 1] ?? column[i]!) - column[i]!);
  });
}

/** A cast at 1 dbar/s with two sound cells. */
function castWith(cast: number, late: CellName): CruiseCast {
  const random = seeded(99 + cast);
  const down = Array.from({ length: deepest_dbar * rate_Hz }, (_, k) => 1 + k / rate_Hz);
  const path = [...down, ...down.toReversed()];
  const wave = (k: number) => Math.sin(k / 3000 + cast - 1);
  const temperature = path.map((p, k) => temperatureAt(p + wave(k)));
  const conductivity = path.map((p, k) => cFromSp(salinityAt(p + wave(k)), temperature[k]!, p));
  const noisy = (column: readonly number[], sd: number) =>
    Float64Array.from(column, (value) => value + sd * random.normal());
  const cell = (name: CellName): CellColumns => ({
    temperature_C: noisy(name === late ? later(temperature) : temperature, 0.0002),
    conductivity_mS_cm: noisy(name === late ? later(conductivity) : conductivity, 0.0001),
  });
  const id = castId(cast);
  const start = new Date(Date.UTC(2031, 4, 3) + cast * 6 * 3_600_000).toISOString();
  const columns = {
    time_s: Float64Array.from(path, (_, k) => k / rate_Hz),
    pressure_dbar: Float64Array.from(path),
    primary: cell("primary"),
    secondary: cell("secondary"),
    others: {},
  };
  const data = {
    id,
    start,
    conductivityFrom: "measured",
    sampleRate_Hz: rate_Hz,
    columns,
  } as const;
  return { id, start, data };
}

test.each(["primary", "secondary"] as const)(
  "a %s cell that gets its water 0.3 s after the other is no fouled cell in a salinity step near the surface",
  (late) => {
    const casts = [1, 2].map((cast) => castWith(cast, late));
    // Without a delay in the pair the cell that was in time was fouled with 0.83 and 0.89, by -370 and -440 ppm.
    expectNoFilm(withTwoCells(casts, rate_Hz));
  },
);
