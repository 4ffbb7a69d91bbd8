// Delay of conductivity after temperature, to a fraction of a scan. Water takes time from the thermometer to the cell, and each
// sensor has its own response time [HorneToole1980], [GreggHess1985].

import type { Cast, CellColumns, CellName, LegName } from "../../cast/cast.js";
import { plausibleColumn, plausibleLimits } from "../../cast/plausibleReading.js";
import type { Legs } from "../../cast/splitLegs.js";
import { publishedLag } from "../lag/lagPrior.js";
import { crossSpectra } from "./crossSpectra.js";
import { type Delay, delayFromSpectra } from "./delayFromSpectra.js";
import { gradientWindows } from "./gradientWindows.js";

export interface TimeMismatch {
  /** Positive if conductivity is later than temperature, s. */
  readonly seconds: number;
  readonly standardUncertainty: number;
}

export interface Alignment extends TimeMismatch {
  readonly byLeg: Readonly<Partial<Record<LegName, TimeMismatch>>>;
}

interface AlignmentFound {
  readonly alignment?: Alignment;
  readonly notes: readonly string[];
}

/** Duration of a window, s, and its least number of scans (judgement: some periods of 0.1 Hz). */
const window_s = 30;
const leastScans = 32;
/** Largest number of windows on a leg (speed). */
const mostWindows = 24;
/** Rounds in which windows are shifted by the estimated delay (judgement). */
const rounds = 3;
/**
 * Stop if the shift changes by less than this, scans: another round would change the delay by a tenth of it (judgement).
 */
const nearEnough = 0.1;
/** Second differences of temperature are taken over this, s (judgement). */
const bend_s = 0.3;
/** Longest interval between scans at which a delay is measurable, s (judgement). */
const coarsest_s = 2;
/** A delay with a larger standard uncertainty is not reported, s (judgement). */
const worst_s = 0.25;
/** A window with this many times its usual duration lacks scans (judgement). */
const lostScans = 1.1;
/** Relative uncertainty of the thermal lag's contribution to the angle (judgement). */
const lagShare = 0.5;
/** Least standard uncertainty of a leg, s, because damping of the sensors differs from a delay (judgement). */
const least_s = 0.002;

export function alignment(cast: Cast, legs: Legs, cell: CellName): AlignmentFound {
  const columns = cast.columns[cell];
  if (columns === undefined) return { notes: ["the cast has no such cell"] };
  if (cast.conductivityFrom === "salinity") {
    return { notes: ["no alignment: conductivity was rebuilt from salinity"] };
  }
  const interval_s = intervalOf(legs);
  if (interval_s === undefined) {
    return { notes: ["no alignment: the cast has neither times nor a sample rate"] };
  }
  if (interval_s > coarsest_s) {
    return {
      notes: [
        `no alignment: values ${interval_s.toFixed(0)} s apart do not show how the sensors follow each other`,
      ],
    };
  }
  const { temperature_C, conductivity_mS_cm } = plausibleLimits;
  const readings = {
    temperature_C: plausibleColumn(columns.temperature_C, temperature_C),
    conductivity_mS_cm: plausibleColumn(columns.conductivity_mS_cm, conductivity_mS_cm),
  };
  const byLeg: Partial<Record<LegName, TimeMismatch>> = {};
  for (const leg of ["down", "up"] as const) {
    const found = ofLeg(readings, legs, leg, interval_s);
    if (found !== undefined && found.standardUncertainty < worst_s) byLeg[leg] = found;
  }
  const all = together(Object.values(byLeg));
  if (all === undefined) {
    return {
      notes: [
        "no alignment: too few scans in a row, or temperature changes too evenly or too little",
      ],
    };
  }
  return { alignment: { ...all, byLeg }, notes: [] };
}

/** Usual time between scans, s. */
function intervalOf({ clock, down, up }: Legs): number | undefined {
  if (clock.from === "pressure") return undefined;
  const leg = down.length > up.length ? down : up;
  const [first, last] = [leg[0], leg.at(-1)];
  if (first === undefined || last === undefined || first === last) return undefined;
  const interval = (clock.seconds[last]! - clock.seconds[first]!) / (last - first);
  return interval > 0 ? interval : undefined;
}

function ofLeg(
  { temperature_C, conductivity_mS_cm }: CellColumns,
  legs: Legs,
  leg: LegName,
  interval_s: number,
): TimeMismatch | undefined {
  const length = Math.max(leastScans, 2 ** Math.round(Math.log2(window_s / interval_s)));
  const bend = Math.max(1, Math.round(bend_s / interval_s));
  const starts = gradientWindows(temperature_C, legs[leg], { length, most: mostWindows, bend });
  const { seconds } = legs.clock;
  const whole = starts.filter(
    (start) => seconds[start + length - 1]! - seconds[start]! < lostScans * length * interval_s,
  );
  // Shift the windows by the delay of the round before.
  let later = 0;
  let delay: Delay | undefined;
  for (let round = 0; round < rounds; round++) {
    const spectra = crossSpectra(temperature_C, conductivity_mS_cm, whole, length, later);
    const laid_s = Math.round(later) * interval_s;
    const about = delay === undefined ? undefined : delay.seconds - laid_s;
    const found = delayFromSpectra(spectra, interval_s, about);
    if (found === undefined) return undefined;
    delay = { ...found, seconds: found.seconds + laid_s };
    const laid = later;
    later = delay.seconds / interval_s;
    if (Math.abs(later - laid) < nearEnough) break;
  }
  if (delay === undefined) return undefined;
  const lag = delay.ofPhase(phaseOfUsualLag);
  return {
    seconds: delay.seconds - lag,
    standardUncertainty: Math.hypot(delay.standardUncertainty, lagShare * lag, least_s),
  };
}

/** Phase angle of the water in the cell relative to the water outside: of 1 - alpha s tau / (1 + s tau) at s = i omega. */
function phaseOfUsualLag(frequency_Hz: number): number {
  const { alpha, tau_s } = publishedLag;
  const x = 2 * Math.PI * frequency_Hz * tau_s;
  const square = 1 + x * x;
  return Math.atan2((-alpha * x) / square, 1 - (alpha * x * x) / square);
}

/** Both legs. If they differ by more than their uncertainties, the uncertainty is increased. */
function together(legs: readonly TimeMismatch[]): TimeMismatch | undefined {
  if (legs.length === 0) return undefined;
  let weight = 0;
  let sum = 0;
  for (const { seconds, standardUncertainty } of legs) {
    weight += standardUncertainty ** -2;
    sum += seconds * standardUncertainty ** -2;
  }
  const seconds = sum / weight;
  const chi = legs.reduce(
    (s, leg) => s + ((leg.seconds - seconds) / leg.standardUncertainty) ** 2,
    0,
  );
  const excess = Math.max(1, chi / Math.max(1, legs.length - 1));
  return { seconds, standardUncertainty: Math.sqrt(excess / weight) };
}
