// Noise beyond that of a sound sensor: far above that of the other cell or, in a stretch, far above that expected from the
// water and the rest of the cast.

import { scansOfBlock } from "./columnSummary.js";
import { conductivityPerKelvin } from "./conductivitySlopes.js";
import { digits, ofCell, placeOf, placeWords, unitOf } from "./describe.js";
import type { HealthFinding } from "./finding.js";
import { meanOfSecondDifference } from "./noiseFloor.js";
import type { CellStatistics, Drop } from "./statistics.js";
import { quickScans, type WaterPart } from "./waterPart.js";

/** The two cells of a package agree within a factor of two; a larger factor is a fault (judgement). */
const unlike = 3;
/** A smaller noise does no harm to an averaged salinity at a target of 0.002, mS/cm and K (judgement). */
const harmless = { conductivity: 0.001, temperature: 0.001 };
/** Without another cell: a sound sensor at full rate is far quieter (judgement). */
const loud = { conductivity: 0.01, temperature: 0.01 };

/** The noise of the whole cast, compared with the other cell or with a sound sensor. */
export function noise(
  part: WaterPart,
  own: CellStatistics,
  other: CellStatistics | undefined,
): readonly HealthFinding[] {
  return (["conductivity", "temperature"] as const).flatMap((sensor) => {
    const here = own[sensor].noise;
    const there = other?.[sensor].noise;
    const alone = quickScans(part) && here > loud[sensor];
    const besides =
      there !== undefined && there > 0 && here > harmless[sensor] && here > unlike * there;
    if (!alone && !besides) return [];
    const place = placeOf(part, part.from, part.to - 1);
    const against = besides ? `, ${digits(here / there!)} times that of the other cell` : "";
    return [
      {
        kind: "noise" as const,
        cell: own.cell,
        sensor,
        ...place,
        size: { value: here, unit: unitOf[sensor] },
        what: `The ${ofCell(own.cell, sensor)} has a noise of ${digits(here)} ${unitOf[sensor]} from scan to scan in calm water${against}.`,
        mend: "Look at the pump and the plumbing for a low flow, then at the cable. Flush the cell.",
        serious: false,
      },
    ];
  });
}

/** Shortest stretch, s (judgement). */
const least_s = 15;
/**
 * Noise of a block as a multiple of that expected from the cast and the water; with another cell, and without (judgement).
 */
const aboveOther = 4;
const aboveWater = 8;

/** White noise has no change of this many times its mean; a few spikes have, and are reported as spikes (judgement). */
const evenly = 5;

/**
 * A stretch with more noise of conductivity than the rest of the cast; at 4 Hz or more.
 * @param told drops that were reported already: blocks with one are skipped
 */
export function noisyStretch(
  part: WaterPart,
  own: CellStatistics,
  other: CellStatistics | undefined,
  told: readonly Drop[],
): readonly HealthFinding[] {
  if (!quickScans(part)) return [];
  const { block: scansInBlock, from: start } = own.conductivity.survey;
  const holdsDrop = new Set(
    told.flatMap((drop) => {
      const block = Math.floor((drop.from - start) / scansInBlock);
      return [block - 1, block, block + 1];
    }),
  );
  const usual = own.conductivity.noise;
  const blocks = own.conductivity.survey.mean.length;
  const needed = Math.max(
    2,
    Math.ceil(least_s / (own.conductivity.survey.block * part.interval_s)),
  );
  let best: { first: number; last: number; times: number } | undefined;
  let first = -1;
  let sum = 0;
  let even = 0;
  for (let b = 0; b <= blocks; b++) {
    const here = b < blocks ? own.conductivity.survey.mean[b]! / meanOfSecondDifference : 0;
    const water =
      (conductivityPerKelvin * (own.temperature.survey.mean[b] ?? 0)) / meanOfSecondDifference;
    const there =
      other === undefined
        ? 0
        : ((other.conductivity.survey.mean[b] ?? 0) / meanOfSecondDifference) *
          Math.max(1, usual / other.conductivity.noise);
    const allowed = (other === undefined ? aboveWater : aboveOther) * Math.max(usual, water, there);
    if (here > Math.max(allowed, harmless.conductivity) && !holdsDrop.has(b)) {
      if (first < 0) {
        first = b;
        sum = 0;
        even = 0;
      }
      sum += here;
      if (own.conductivity.survey.most[b]! < evenly * own.conductivity.survey.mean[b]!) even++;
      continue;
    }
    if (
      first >= 0 &&
      b - first >= needed &&
      even >= (b - first) / 2 &&
      (best === undefined || b - first > best.last - best.first + 1)
    ) {
      best = { first, last: b - 1, times: sum / (b - first) / usual };
    }
    first = -1;
  }
  if (best === undefined) return [];
  const [from] = scansOfBlock(own.conductivity.survey, best.first);
  const [, end] = scansOfBlock(own.conductivity.survey, best.last);
  const place = placeOf(part, from, end - 1);
  return [
    {
      kind: "noise",
      cell: own.cell,
      sensor: "conductivity",
      ...place,
      size: { value: best.times * usual, unit: unitOf.conductivity },
      what: `The ${ofCell(own.cell, "conductivity")} is ${digits(best.times)} times as noisy ${placeWords(place)} as in the calm part of the cast.`,
      mend: "Something is in the cell, or the pump is failing. Flush the cell and look at the pump. Do not use this part.",
      serious: true,
    },
  ];
}
