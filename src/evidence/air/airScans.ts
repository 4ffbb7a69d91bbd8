// The scans of a cast that were taken in air, before it went into the water and after it came up.
import type { CastColumns } from "../../cast/cast.js";
import { inAirTest } from "../../cast/wetScans.js";

/** So many scans in the water in a row are the water; fewer are a splash or a wild reading (judgement). */
const leastInWater = 3;

interface AirScans {
  /** Indices, in order of time. */
  readonly before: readonly number[];
  readonly after: readonly number[];
}

/** Looks at no more than the two ends of the cast. */
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
