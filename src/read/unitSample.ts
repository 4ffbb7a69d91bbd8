// The salinities that follow from the columns of a cell, for the check of units, from a part of the scans.
import { spFromC } from "../seawater/index.js";
import { median, quantile } from "../statistics/robustCentre.js";

/** The columns of one cell and their headings in the file. */
export interface CellReadings {
  /** Unit: dbar. */
  readonly pressure: ArrayLike<number>;
  /** ITS-90 degree C. */
  readonly temperature: ArrayLike<number>;
  /** mS/cm, as taken from the file. */
  readonly conductivity: ArrayLike<number>;
  /** The unit that the file's heading gives. */
  readonly unit: "mS/cm" | "S/m";
  readonly headings: {
    readonly pressure: string;
    readonly temperature: string;
    readonly conductivity: string;
  };
}

/** A cell in air reads near zero and gives no information on units, mS/cm. */
const inAir = 0.2;

/** The basis of the check, from scans in the water. */
export interface Sample {
  readonly readings: CellReadings;
  readonly deepest: number;
  readonly highest: number;
  /** Medians, degree C and mS/cm. */
  readonly temperature: number;
  readonly conductivity: number;
  /** Median salinity as given. */
  readonly asGiven: number;
  /** Median salinity with so many times the conductivity, and with the columns exchanged: few casts ask for it. */
  readonly scaled: (factor: number) => number;
  readonly exchanged: () => number;
}

export function sampleOf(readings: CellReadings, judged: number): Sample {
  const { pressure: p, temperature: t, conductivity: c } = readings;
  const chosen = spread(p.length, judged);
  const pressures = chosen.map((i) => p[i]!);
  const inWater = chosen.filter((i) => p[i]! > 0);
  const wet = inWater.filter((i) => c[i]! > inAir);
  const scaled = (factor: number) => median(wet.map((i) => spFromC(factor * c[i]!, t[i]!, p[i]!)));
  return {
    readings,
    deepest: quantile(pressures, 0.98),
    highest: quantile(pressures, 0.02),
    temperature: median(inWater.map((i) => t[i]!)),
    conductivity: median(inWater.map((i) => c[i]!)),
    asGiven: scaled(1),
    scaled,
    exchanged: () => median(inWater.map((i) => spFromC(t[i]!, c[i]!, p[i]!))),
  };
}

/** Indices evenly spaced over a column. */
function spread(length: number, most: number): readonly number[] {
  const step = Math.max(1, Math.ceil(length / most));
  return Array.from({ length: Math.ceil(length / step) }, (_, k) => k * step);
}
