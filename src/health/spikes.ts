// Single readings, or a few in a row, far from their neighbours while the other sensor shows no change.

import type { CellColumns } from "../cast/cast.js";
import { median } from "../statistics/robustCentre.js";
import { type ColumnSummary, scansOfBlock } from "./columnSummary.js";
import { conductivityPerKelvin } from "./conductivitySlopes.js";
import { digits, ofCell, placeOf, placeWords, unitOf } from "./describe.js";
import type { HealthFinding } from "./finding.js";
import { meanOfSecondDifference } from "./noiseFloor.js";
import { plausibleFor } from "./plausibleFor.js";
import { resolutionOf } from "./resolution.js";
import type { CellStatistics, Drop, Spikes } from "./statistics.js";
import { quickScans, type WaterPart } from "./waterPart.js";

/** Examine a block if its largest change is this many times its mean: one in fifty of white noise (judgement). */
const suspicious = 4.5;
/** Least distance of a spike from the median of its neighbours, in standard deviations of its block (judgement). */
const beyondNoise = 6;
/** Least distance, mS/cm or K: smaller spikes do not harm an average (judgement). */
const leastSize = 0.01;
/** Least distance in resolution steps of the column (judgement). */
const leastSteps = 3;
/** Readings on either side (judgement). */
const reach = 4;
/** A spike must be larger than this times the change of the other sensor; then it is the sensor's own. */
const ownShare = 2;

export function spikesOf(
  readings: CellColumns,
  sensor: "conductivity" | "temperature",
  survey: ColumnSummary,
): Spikes {
  const { conductivity_mS_cm, temperature_C } = readings;
  const own = sensor === "conductivity" ? conductivity_mS_cm : temperature_C;
  const other = sensor === "conductivity" ? temperature_C : conductivity_mS_cm;
  const holds = plausibleFor(sensor);
  const holdsOther = plausibleFor(sensor === "conductivity" ? "temperature" : "conductivity");
  const smallest = Math.max(leastSize, leastSteps * resolutionOf(own, survey));
  const at: number[] = [];
  const size: number[] = [];
  let last = Number.NEGATIVE_INFINITY;
  for (let b = 0; b < survey.mean.length; b++) {
    const mean = survey.mean[b]!;
    const most = survey.most[b]!;
    if (!(most > smallest) || most <= suspicious * mean) continue;
    const [start, end] = scansOfBlock(survey, b);
    const noise = blockNoise(own, start, end);
    const least = Math.max(smallest, beyondNoise * noise);
    for (let i = start; i < end; i++) {
      // A spike beyond `least` differs by nearly as much from one of its neighbours.
      const step = Math.abs(own[i]! - own[i - 1]!);
      if (!(step > least / 2) && !(i === last + 1)) continue;
      if (!holds(own[i]!)) continue;
      const away = awayFromNeighbours(own, i, holds);
      if (!(Math.abs(away) > least)) continue;
      const elsewhere = conductivityPerKelvin * Math.abs(awayFromNeighbours(other, i, holdsOther));
      if (Math.abs(away) < ownShare * elsewhere) continue;
      if (i > last + 1) {
        at.push(i);
        size.push(away);
      }
      last = i;
    }
  }
  return { at, size };
}

/** From the median of second differences, which a few spikes do not change. */
function blockNoise(column: Float64Array, start: number, end: number): number {
  const sizes: number[] = [];
  for (let i = Math.max(2, start); i < end; i++) {
    sizes.push(Math.abs(column[i]! - 2 * column[i - 1]! + column[i - 2]!));
  }
  // The median of |x| of a normal distribution is 0.6745, its mean 0.7979 of the standard deviation: mathematics.
  return (median(sizes) * (0.7979 / 0.6745)) / meanOfSecondDifference;
}

/**
 * Distance of a reading from the prediction of its neighbours, if it is larger than the difference of the neighbours;
 * otherwise 0, also if one of them is impossible.
 */
function awayFromNeighbours(
  column: Float64Array,
  i: number,
  holds: (value: number) => boolean,
): number {
  const before = column.subarray(Math.max(0, i - reach), i);
  const after = column.subarray(i + 1, i + reach + 1);
  if (!(before.every(holds) && after.every(holds))) return 0;
  const [left, right] = [median(before), median(after)];
  const away = column[i]! - (left + right) / 2;
  return Math.abs(away) > Math.abs(right - left) ? away : 0;
}

/** Fewest spikes reported: in a thousand scans, and in all (judgement). */
const tellRate = 1;
const tellCount = 5;
/** If scans are seconds or metres apart, thin layers look like spikes, so more spikes are required (judgement). */
const tellRateCoarse = 10;
/** With another cell, spikes of one cell alone are not layers (judgement). */
const tellRateOwn = 3;
/** Averages tolerate a few, but not this many in a thousand (judgement). */
const seriousRate = 50;

/** @param told drops of the same sensor that were reported already */
export function spikes(
  part: WaterPart,
  look: CellStatistics,
  other: CellStatistics | undefined,
  sensor: "conductivity" | "temperature",
  told: readonly Drop[],
): readonly HealthFinding[] {
  const { cell } = look;
  const quick = quickScans(part);
  const own = withoutDrops(look[sensor].spikes, told);
  const { at, size } =
    quick || other === undefined ? own : ownOnly(own, new Set(other[sensor].spikes.at));
  const rate = (1000 * at.length) / (part.to - part.from);
  const least = quick ? tellRate : other === undefined ? tellRateCoarse : tellRateOwn;
  if (at.length < tellCount || rate < least) return [];
  const place = placeOf(part, at[0]!, at.at(-1)!);
  const usual = median(size.map(Math.abs));
  const down = size.filter((s) => s < 0).length;
  return [
    {
      kind: "spikes",
      cell,
      sensor,
      ...place,
      size: { value: rate, unit: "per 1000 scans" },
      what: `${at.length} spikes in the ${ofCell(cell, sensor)} ${placeWords(place)}, ${down} of them downward. They are ${digits(rate)} in 1000 scans, usually ${digits(usual)} ${unitOf[sensor]}.`,
      mend: "Look at the connector and the cable first. Animals or debris in the cell look the same: flush the cell and check again.",
      serious: rate > seriousRate,
    },
  ];
}

/** A spike within this many scans of a drop is its edge (judgement). */
const edge = 3;

function withoutDrops(spikes: Spikes, drops: readonly Drop[]): Spikes {
  return those(spikes, (i) => drops.every(({ from, to }) => i < from - edge || i > to + edge));
}

/** Spikes without one of the other cell at the same scan or the next. */
function ownOnly(spikes: Spikes, others: ReadonlySet<number>): Spikes {
  return those(spikes, (i) => !(others.has(i - 1) || others.has(i) || others.has(i + 1)));
}

function those({ at, size }: Spikes, kept: (scan: number) => boolean): Spikes {
  return { at: at.filter(kept), size: size.filter((_, k) => kept(at[k]!)) };
}
