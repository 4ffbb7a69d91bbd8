// What the laboratory makes of the samples of a cruise: errors of each, errors of a run, evaporation, and in some
// worlds a spoilt or a copied cast.
import type { Bottle } from "../../cast/bottle.js";
import type { RandomStream } from "../random.js";
import type { ClosedBottle } from "./bottles.js";
import { between, betweenLog, exponential, happens, oneOf, wholeBetween } from "./draws.js";

/** Drawn once a cruise. */
export interface Laboratory {
  /** Of one sample, salinity. */
  readonly sampleSd: number;
  /** Of a run's standardisation, and of what it drifts by to its end. */
  readonly runSd: number;
  readonly driftSd: number;
  readonly castsPerRun: number;
  readonly evaporates: number;
  /** Last digit. */
  readonly grain: number;
  readonly labels: "of each run" | "one for all" | "none";
  readonly flags: boolean;
  /** Of leaks and mis-trips, those that were seen on deck and flagged. */
  readonly seen: number;
  /** Times of closure are written to this, s. */
  readonly clock_s: number;
}

export function drawLaboratory(random: RandomStream): Laboratory {
  return {
    sampleSd: betweenLog(random, 0.0003, 0.0012),
    runSd: betweenLog(random, 0.00015, 0.0008),
    driftSd: betweenLog(random, 0.00005, 0.0004),
    castsPerRun: wholeBetween(random, 1, 3),
    evaporates: betweenLog(random, 0.003, 0.03),
    grain: happens(random, 0.15) ? 0.001 : 0.0001,
    labels: oneOf(random, ["of each run", "of each run", "of each run", "one for all", "none"]),
    flags: happens(random, 0.5),
    seen: between(random, 0.2, 0.8),
    clock_s: oneOf(random, [0.25, 1, 1]),
  };
}

/** The bottles of one cast and where they stand. */
export interface Sampled {
  readonly cast: string;
  readonly index: number;
  readonly rate_Hz: number;
  readonly closed: readonly ClosedBottle[];
  /** By scan, as it was read. */
  readonly pressure: Float64Array;
  readonly measured: boolean;
  /** Samples of this cast are fresh by anything between these; undefined where they are not spoilt. */
  readonly spoilt: readonly [number, number] | undefined;
}

export function measure(random: RandomStream, laboratory: Laboratory, sampled: Sampled): Bottle[] {
  const { castsPerRun, grain, labels, flags, clock_s } = laboratory;
  const { cast, index, closed, measured, spoilt } = sampled;
  const run = Math.floor(index / castsPerRun);
  const ofRun = random.split("run").split(run);
  const standard = laboratory.runSd * ofRun.normal();
  const drift = laboratory.driftSd * ofRun.normal();
  return closed.map(({ scan, salinity, fault }, k): Bottle => {
    const own = random.split(cast).split(k);
    const along = ((index % castsPerRun) + k / closed.length) / castsPerRun;
    const evaporated = happens(own, laboratory.evaporates) ? 0.004 * exponential(own) : 0;
    const lost = spoilt === undefined ? 0 : betweenLog(own.split("spoilt"), spoilt[0], spoilt[1]);
    const found =
      salinity + laboratory.sampleSd * own.normal() + standard + drift * along + evaporated - lost;
    const seen = fault !== undefined && happens(own, laboratory.seen);
    return {
      cast,
      bottle: String(k + 1),
      pressure_dbar: Math.round(10 * meanAround(sampled, scan)) / 10,
      salinity: measured ? Math.round(found / grain) * grain : Number.NaN,
      time_s: Math.round(scan / sampled.rate_Hz / clock_s) * clock_s,
      ...(flags && measured ? { flag: seen ? 4 : 2 } : {}),
      ...(flags ? { bottleFlag: seen ? (fault === "leaking" ? 3 : 4) : 2 } : {}),
      ...(labels === "none" || !measured
        ? {}
        : { run: labels === "of each run" ? `run ${run + 1}` : "salinometer" }),
    };
  });
}

/** A cast whose salinities were copied from another's sheet, bottle by bottle as far as both go. */
export function copied(bottles: readonly Bottle[], to: string, from: string): Bottle[] {
  const source = bottles.filter(({ cast }) => cast === from);
  return bottles.map((bottle) => {
    if (bottle.cast !== to || Number.isNaN(bottle.salinity)) return bottle;
    return { ...bottle, salinity: source[Number(bottle.bottle) - 1]?.salinity ?? Number.NaN };
  });
}

function meanAround({ pressure, rate_Hz }: Sampled, scan: number): number {
  const some = pressure.subarray(Math.max(0, scan - rate_Hz), scan + rate_Hz + 1);
  return some.reduce((sum, p) => sum + p, 0) / some.length;
}
