// The pressure gauge: gaps, and stuck values while the package moves.
import { median } from "../statistics/robustCentre.js";
import type { ColumnSummary } from "./columnSummary.js";
import { digits, placeOf, placeWords } from "./describe.js";
import { dropoutsOf } from "./dropouts.js";
import type { HealthFinding } from "./finding.js";
import { plausibleFor } from "./plausibleFor.js";
import { repeatedRuns } from "./repeatedRuns.js";
import type { WaterPart } from "./waterPart.js";

/** A stuck gauge: shortest run of one value, s, and least leap after it, dbar (judgement). */
const least_s = 2;
const leastScans = 4;
const leap_dbar = 3;
/** Least leap in multiples of the usual step between scans (judgement). */
const leapInSteps = 5;
/** Smallest gaps reported: as a share, or scans in a row (judgement). */
const tellShare = 0.002;

export function pressureDropouts(part: WaterPart, survey: ColumnSummary): readonly HealthFinding[] {
  const { count, runs } = dropoutsOf(part, part.columns.pressure_dbar, survey, "pressure");
  const scans = part.to - part.from;
  // Fewer are no pattern (judgement).
  if (count < 3 || count < tellShare * scans) return [];
  const place = placeOf(part, runs[0]![0], runs.at(-1)![1]);
  const longest = runs.reduce((most, [from, to]) => Math.max(most, to - from + 1), 0);
  return [
    {
      kind: "dropouts",
      sensor: "pressure",
      ...place,
      size: { value: (1000 * count) / scans, unit: "per 1000 scans" },
      what: `${count} of ${scans} scans have no possible pressure. The longest run is ${longest} scans, ${placeWords(place)}.`,
      mend: "Look at the cable and at how the data were recorded. These scans are not used.",
      // A minute without pressure loses a layer of water (judgement).
      serious: longest * part.interval_s > 60,
    },
  ];
}

export function pressureStuck(part: WaterPart, survey: ColumnSummary): readonly HealthFinding[] {
  const pressure = part.columns.pressure_dbar;
  const least = Math.max(leastScans, Math.round(least_s / part.interval_s));
  const needed = Math.max(leap_dbar, leapInSteps * usualStep(pressure, survey));
  const runs = repeatedRuns(pressure, survey, least).filter(([, to]) => {
    return Math.abs(afterRun(part, to) - pressure[to]!) > needed;
  });
  if (runs.length === 0) return [];
  const [from, to] = runs.reduce((a, b) => (b[1] - b[0] > a[1] - a[0] ? b : a));
  const place = placeOf(part, runs[0]![0], runs.at(-1)![1]);
  const scans = runs.reduce((sum, run) => sum + run[1] - run[0] + 1, 0);
  return [
    {
      kind: "stuck",
      sensor: "pressure",
      ...place,
      size: { value: scans, unit: "scans" },
      what: `Pressure stays at ${digits(pressure[from]!)} dbar for ${to - from + 1} scans and then jumps to ${digits(afterRun(part, to))} dbar. In all ${scans} scans are stuck.`,
      mend: "Remove these scans. Look at how the data were recorded.",
      serious: true,
    },
  ];
}

/** Pressure where the gauge works again, dbar: the median of three possible readings; NaN if there are not three. */
function afterRun({ columns, to: end }: WaterPart, last: number): number {
  // The median of three tolerates one outlier (judgement).
  const after = columns.pressure_dbar.subarray(last + 1, Math.min(end, last + 4));
  return after.length === 3 && after.every(plausibleFor("pressure")) ? median(after) : Number.NaN;
}

/** Median step from one scan to the next, dbar. */
function usualStep(pressure: Float64Array, { from, to }: ColumnSummary): number {
  // At about 500 places (judgement: speed).
  const stride = Math.max(1, Math.floor((to - from) / 500));
  const steps: number[] = [];
  for (let i = from + 1; i < to; i += stride) {
    const step = Math.abs(pressure[i]! - pressure[i - 1]!);
    if (step > 0) steps.push(step);
  }
  const usual = median(steps);
  return Number.isNaN(usual) ? 0 : usual;
}
