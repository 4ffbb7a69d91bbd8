// Bottles closed in water that is known exactly, beside cells whose gains are known: for tests of the bottles and
// of the pair alone.
import type { Bottle } from "../../../src/cast/bottle.js";
import type { Cast, CellName } from "../../../src/cast/cast.js";
import { closureReading } from "../../../src/evidence/bottles/closureReadings.js";
import { cFromSp, spFromC } from "../../../src/seawater/index.js";

/** True water at a closure: ITS-90 degree C, dbar, PSS-78. */
export interface Closure {
  readonly pressure_dbar: number;
  readonly temperature_C: number;
  readonly salinity: number;
  /** Error of the laboratory salinity. */
  readonly laboratory?: number;
}

export type Gains = Readonly<Partial<Record<CellName, number>>>;

/** What a cell with a gain error of `ppm` reads. */
export function reading({ pressure_dbar, temperature_C, salinity }: Closure, ppm: number) {
  const conductivity_mS_cm = cFromSp(salinity, temperature_C, pressure_dbar) * (1 + ppm * 1e-6);
  return { temperature_C, conductivity_mS_cm };
}

/** Bottles numbered from 1 in the order given, with the CTD's readings written beside them. */
export function bottlesAt(closures: readonly Closure[], gains: Gains): readonly Bottle[] {
  return closures.map((closure, i) => ({
    cast: "001",
    bottle: String(i + 1),
    pressure_dbar: closure.pressure_dbar,
    salinity: closure.salinity + (closure.laboratory ?? 0),
    ctd: Object.fromEntries(
      Object.entries(gains).map(([cell, ppm]) => [cell, reading(closure, ppm)]),
    ),
  }));
}

/** Calm deep water, every bottle alike but for its pressure. */
export function calm(count: number, from_dbar = 1000, to_dbar = 4000): readonly Closure[] {
  return Array.from({ length: count }, (_, i) => ({
    pressure_dbar: from_dbar + ((to_dbar - from_dbar) * i) / Math.max(1, count - 1),
    temperature_C: 2,
    salinity: 34.7,
  }));
}

/** A subtropical column, invented: warm and salty above, cold and even below. */
export function column(pressure_dbar: number): Closure {
  return {
    pressure_dbar,
    temperature_C: 1.8 + 18 * Math.exp(-pressure_dbar / 500),
    salinity: 34.7 + 1.3 * Math.exp(-pressure_dbar / 400),
  };
}

/** Both legs of a cast through `column`, a scan a dbar, each leg with gains of its own. */
export function castThrough(
  deepest_dbar: number,
  gains: { readonly down: Gains; readonly up: Gains },
): Cast {
  const down = Array.from({ length: deepest_dbar + 1 }, (_, i) => i);
  const scans = [
    ...down.map((p) => ({ p, leg: "down" as const })),
    ...down.toReversed().map((p) => ({ p, leg: "up" as const })),
  ];
  const columnsOf = (cell: CellName) => {
    const read = scans.map(({ p, leg }) => reading(column(p), gains[leg][cell] ?? 0));
    return {
      temperature_C: Float64Array.from(read, ({ temperature_C }) => temperature_C),
      conductivity_mS_cm: Float64Array.from(read, ({ conductivity_mS_cm }) => conductivity_mS_cm),
    };
  };
  return {
    id: "001",
    conductivityFrom: "measured",
    columns: {
      pressure_dbar: Float64Array.from(scans, ({ p }) => p),
      primary: columnsOf("primary"),
      ...(gains.down.secondary === undefined ? {} : { secondary: columnsOf("secondary") }),
      others: {},
    },
  };
}

/** Practical Salinity of the CTD as the bottle closed, NaN where it did not read. */
export function closureSalinity(bottle: Bottle, cell: CellName): number {
  const reading = closureReading(bottle, cell, undefined);
  return reading === undefined
    ? Number.NaN
    : spFromC(reading.conductivity_mS_cm, reading.temperature_C, bottle.pressure_dbar);
}
