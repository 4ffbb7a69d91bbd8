// Laboratory salinities: errors of a sample and of a run, evaporation, and in some worlds a spoilt or copied cast.
// Numbers without a source are judgement: laboratories from very good to poor.
import type { Bottle } from "../../cast/bottle.js";
import type { RandomStream } from "../random.js";
import type { ClosedBottle } from "./bottles.js";
import { between, betweenLog, exponential, happens, oneOf, wholeBetween } from "./draws.js";

/** Drawn once a cruise. */
interface LaboratoryErrors {
  /** Standard deviation of one sample, PSS-78. */
  readonly sampleSd: number;
  /** Standard deviations of a run's standardisation and of its drift over the run, PSS-78. */
  readonly runSd: number;
  readonly driftSd: number;
  readonly castsPerRun: number;
  readonly evaporates: number;
  /** Salinities are rounded to this. */
  readonly grain: number;
  readonly labels: "of each run" | "one for all" | "none";
  readonly flags: boolean;
  /** Share of leaks and mis-trips that are noticed and flagged. */
  readonly seen: number;
  /** Closure times are rounded to this, s. */
  readonly clock_s: number;
}

export function drawLaboratory(random: RandomStream): LaboratoryErrors {
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

/** The closed bottles of one cast. */
export interface Sampled {
  readonly cast: string;
  readonly index: number;
  readonly rate_Hz: number;
  readonly closed: readonly ClosedBottle[];
  /** Pressure as read, by scan, dbar. */
  readonly pressure: Float64Array;
  readonly measured: boolean;
  /** Smallest and largest error of a spoilt sample toward fresh, PSS-78; undefined if not spoilt. */
  readonly spoilt: readonly [number, number] | undefined;
}

export function measure(
  random: RandomStream,
  laboratory: LaboratoryErrors,
  sampled: Sampled,
): Bottle[] {
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

/** Overwrites the salinities of cast `to` with those of cast `from`, bottle by bottle. */
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
