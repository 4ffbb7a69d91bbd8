// Columns with so few decimals that their rounding hides a film. In calm water all scans are rounded in the same direction,
// so averaging does not help.
import { digits, ofCell, placeOf, unitOf } from "./describe.js";
import type { HealthFinding } from "./finding.js";
import type { CellStatistics } from "./statistics.js";
import type { WaterPart } from "./waterPart.js";

/**
 * Rounding steps of columns, mS/cm or K, coarsest first. The finest of them is 150 ppm of conductivity at 33 mS/cm:
 * rounding has a standard deviation of 40 ppm, near the 51 ppm of the target of 0.002 (derived).
 */
const steps = [1, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005];
/** Number of readings examined, evenly spread (judgement: speed). */
const sample = 500;
/** Fewer readings may fall on the steps by chance (judgement). */
const leastReadings = 10;
/**
 * A reading this close to a multiple of a step, in steps, counts as on it, because a change of unit leaves rounding errors
 * (judgement).
 */
const onStep = 1e-6;

export function coarseSteps(
  part: WaterPart,
  own: CellStatistics,
  sensor: "conductivity" | "temperature",
): readonly HealthFinding[] {
  const { conductivity_mS_cm, temperature_C } = own.readings;
  const step = stepOf(sensor === "conductivity" ? conductivity_mS_cm : temperature_C, part);
  if (step === undefined) return [];
  return [
    {
      kind: "coarse-steps",
      cell: own.cell,
      sensor,
      ...placeOf(part, part.from, part.to - 1),
      size: { value: step, unit: unitOf[sensor] },
      what: `The ${ofCell(own.cell, sensor)} is written in steps of ${digits(step)} ${unitOf[sensor]}: too coarse to see a film.`,
      mend: "Write the cast again with four decimals or more.",
      serious: true,
    },
  ];
}

function stepOf(column: Float64Array, { from, to }: WaterPart): number | undefined {
  const stride = Math.max(1, Math.floor((to - from) / sample));
  const readings: number[] = [];
  for (let i = from; i < to; i += stride) {
    if (Number.isFinite(column[i]!)) readings.push(column[i]!);
  }
  if (new Set(readings).size < leastReadings) return undefined;
  return steps.find((step) =>
    readings.every((reading) => Math.abs(reading / step - Math.round(reading / step)) < onStep),
  );
}
