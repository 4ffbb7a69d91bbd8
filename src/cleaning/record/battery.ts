// The battery pack: whether it is low, and for how many casts it lasts, from the checks in the record.
import type * as z from "zod";
import type { BatteryKind } from "../../cast/maintenance.js";
import type { Immutable } from "../../immutable.js";
import { leastSquares } from "../../statistics/leastSquares.js";
import type { batteryTrendSchema } from "./nextCastSchema.js";
import type { Entry, Timeline } from "./recordTimeline.js";

/**
 * Least voltage of a cell, without load, for a long cast (common practice, no source): alkaline cells fall steadily from
 * 1.5, lithium cells hold 3.6 and then drop at once.
 */
const workingVolts: Readonly<Record<BatteryKind, number>> = {
  alkaline: 1.2,
  lithium: 3.4,
  "lithium-ion": 3.5,
  "nickel-metal-hydride": 1.2,
};

/** Kinds whose voltage falls steadily; the others hold it and then drop at once (common practice, no source). */
const fallsSteadily: readonly BatteryKind[] = ["alkaline", "lithium-ion"];
/** If the voltage rises by this much since the check before, the cells were replaced, V (judgement). */
const changed_V = 0.05;
/**
 * Standard deviation of a reading from temperature, rest and meter, V a cell, and its weight as a number of readings
 * (judgement).
 */
const reading = { sd_V: 0.01, worth: 2 };
/** A trend is extrapolated to this many times its observed length (judgement). */
const carried = 3;
/** One-sided 95 % of a normal distribution: mathematics. */
const ninetyFive = 1.645;

/** Voltage of a pack and its least voltage, if the record has enough information. */
export function packVolts({ event }: Entry): PackVolts | undefined {
  const { batteryVolts, batteryCells, batteryKind } = event;
  if (batteryVolts === undefined || batteryCells === undefined || batteryKind === undefined)
    return undefined;
  return {
    volts: batteryVolts,
    least: batteryCells * workingVolts[batteryKind],
    cells: batteryCells,
    kind: batteryKind,
  };
}

interface PackVolts {
  readonly volts: number;
  readonly least: number;
  readonly cells: number;
  readonly kind: BatteryKind;
}

export type BatteryTrend = Immutable<z.infer<typeof batteryTrendSchema>>;

/** @returns undefined if the record has no check with volts, cells and kind */
export function batteryTrend({ entries, casts }: Timeline): BatteryTrend | undefined {
  const checks = entries.flatMap((entry) => {
    const pack = entry.event.action === "battery" ? packVolts(entry) : undefined;
    const at = entry.after + 1;
    return pack === undefined || Number.isNaN(at) ? [] : [{ ...pack, at, note: entry.event.note }];
  });
  const from = checks.findLastIndex((check, i) => {
    const before = checks[i - 1];
    return (
      before === undefined ||
      isAnother(check, before) ||
      /\bnew\b|chang|replac/i.test(check.note ?? "")
    );
  });
  const own = checks.slice(Math.max(0, from));
  const last = own.at(-1);
  if (last === undefined) return undefined;
  const { kind, volts, least } = last;
  const castsSince = casts.length - last.at;
  const trend = { kind, volts, least, checks: own.length, castsSince };
  const fit = leastSquares(
    own.map(({ at }) => [1, at - casts.length]),
    own.map((check) => check.volts),
  );
  if (fit === undefined) return trend;
  const [now, perCast] = fit.coefficients as [number, number];
  const variance =
    (reading.worth * (reading.sd_V * last.cells) ** 2 + fit.weightedSumOfSquares) /
    (reading.worth + fit.degreesOfFreedom);
  const sd = (casts: number) => {
    const [[a, ab], [, b]] = fit.covariance as [[number, number], [number, number]];
    return Math.sqrt(variance * (1 + a + 2 * casts * ab + casts ** 2 * b));
  };
  const span = last.at - own[0]!.at;
  const told = carried * span - castsSince;
  const lasts = (casts: number) => now + perCast * casts - ninetyFive * sd(casts) >= least;
  let castsLeft = 0;
  while (castsLeft < told && lasts(castsLeft + 1)) castsLeft++;
  return {
    ...trend,
    perCast: {
      volts: perCast,
      standardUncertainty: Math.sqrt(variance * fit.covariance[1]![1]!),
    },
    ...(fallsSteadily.includes(kind) && told > 0 ? { castsLeft } : {}),
  };
}

function isAnother(check: PackVolts, before: PackVolts): boolean {
  return (
    check.kind !== before.kind ||
    check.cells !== before.cells ||
    check.volts - before.volts > changed_V * check.cells
  );
}

/** "Battery: 13.1 V; least 12 V. It falls 0.12 ± 0.02 V a cast and lasts 6 casts or more (95 %)." */
export function batterySentence(trend: BatteryTrend): string {
  const { kind, volts, least, castsSince, perCast, castsLeft } = trend;
  const since = castsSince === 0 ? "" : `, ${castsSince} ${plural(castsSince)} ago`;
  const state = `Battery (${kind}): ${volts} V at the last check${since}; minimum ${Number(least.toFixed(2))} V.`;
  if (!fallsSteadily.includes(kind)) {
    return `${state} Such cells hold their voltage and then drop suddenly. Count the hours of use against the label.`;
  }
  if (perCast === undefined || castsLeft === undefined) {
    return `${state} Another check will show how fast it falls.`;
  }
  const change = `${perCast.volts.toFixed(2)} ± ${perCast.standardUncertainty.toFixed(2)} V a cast`;
  return castsLeft === 0
    ? `${state} It changes by ${change}: it may not last the next cast.`
    : `${state} It changes by ${change}: it lasts ${castsLeft} ${plural(castsLeft)} or more (95 %).`;
}

function plural(count: number): string {
  return count === 1 ? "cast" : "casts";
}
