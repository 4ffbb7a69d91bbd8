// A cast from its columns, for tests.
import { readFileSync } from "node:fs";
import type { Cast } from "../../src/cast/cast.js";

export function castOf(
  pressure: ArrayLike<number>,
  temperature: ArrayLike<number>,
  conductivity: ArrayLike<number>,
  more: Partial<Pick<Cast, "sampleRate_Hz">> & { readonly time_s?: Float64Array } = {},
): Cast {
  const { time_s, ...rest } = more;
  return {
    id: "001",
    conductivityFrom: "measured",
    ...rest,
    columns: {
      ...(time_s === undefined ? {} : { time_s }),
      pressure_dbar: Float64Array.from(pressure),
      primary: {
        temperature_C: Float64Array.from(temperature),
        conductivity_mS_cm: Float64Array.from(conductivity),
      },
      others: {},
    },
  };
}

/** A cast in which only the pressure matters. */
export function lowered(
  pressure: ArrayLike<number>,
  more: Parameters<typeof castOf>[3] = {},
): Cast {
  const values = Array.from(pressure);
  return castOf(
    values,
    values.map((p) => 4 + 10 * Math.exp(-p / 300)),
    values.map((p) => 32 + 9 * Math.exp(-p / 300)),
    more,
  );
}

/** The shallow coastal casts with both legs: see SOURCE.md beside them. */
export const coastal = {
  folder: "../shared/data/coastal-two-leg",
  stations: ["46", "48", "50", "51"],
};

export function coastalCast(station: string): Cast {
  const rows = readFileSync(`${coastal.folder}/station_${station}.csv`, "utf8")
    .trim()
    .split("\n")
    .slice(1)
    .map((line) => line.split(",").map(Number));
  const column = (k: number) => rows.map((row) => row[k]!);
  return castOf(column(1), column(2), column(3));
}
