// The scans of a cast taken in air, before it went into the water and after it came up.
import type { CastColumns } from "../../cast/cast.js";
import { inAirTest } from "../../cast/wetScans.js";

/** This many successive scans in water mean the water; fewer are a splash or an outlier (judgement). */
const leastInWater = 3;

interface AirScans {
  /** Indices, in order of time. */
  readonly before: readonly number[];
  readonly after: readonly number[];
}

/** Looks only at the two ends of the cast. */
export function airScans(columns: CastColumns): AirScans {
  const { pressure_dbar: pressure, primary, secondary } = columns;
  const inAir = inAirTest(columns, pressure);
  const told = (i: number) =>
    Number.isFinite(pressure[i]!) &&
    (Number.isFinite(primary.conductivity_mS_cm[i]!) ||
      Number.isFinite(secondary?.conductivity_mS_cm[i] ?? Number.NaN));
  const from = (first: number, step: 1 | -1) => {
    const scans: number[] = [];
    let wetInRow = 0;
    for (let i = first; i >= 0 && i < pressure.length && wetInRow < leastInWater; i += step) {
      if (!told(i)) continue;
      if (inAir(i)) scans.push(i);
      wetInRow = inAir(i) ? 0 : wetInRow + 1;
    }
    return scans;
  };
  const before = from(0, 1);
  const last = before.at(-1) ?? -1;
  return {
    before,
    after: from(pressure.length - 1, -1)
      .filter((i) => i > last)
      .reverse(),
  };
}
