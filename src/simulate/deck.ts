// Scans in air before a cast and after it: the package on deck, water in its cells draining.
// Numbers without a source are judgement: an ordinary deck.
import type { CellName } from "../cast/cast.js";
import { randomStream } from "./random.js";
import type { CompleteScenario, TimeInAir } from "./scenario.js";

/** Sea pressure of a package on deck, and the scatter of a scan, dbar (judgement). */
const onDeck_dbar = -0.05;
const pressureNoise_dbar = 0.01;
/** Air over the invented seas, and its change from scan to scan, degree C (judgement). */
const air_C = 18;
const airNoise_K = 0.05;
/** Noise of conductivity, mS/cm: that of a scan in water. */
const conductivityNoise_mS_cm = 0.0004;

export type Side = "before" | "after";

/** Number of scans in air before and after each cast. */
export function scansInAir({ sampling }: CompleteScenario, side: Side): number {
  if (sampling.kind === "averages") return 0;
  return Math.round((sampling.deck?.[side]?.seconds ?? 0) * sampling.rate_Hz);
}

/** Seconds from the first scan to the first in the water. */
export function secondsBefore(scenario: CompleteScenario): number {
  const { sampling } = scenario;
  return sampling.kind === "averages" ? 0 : scansInAir(scenario, "before") / sampling.rate_Hz;
}

/** Pressure on deck, one value for each scan, dbar. */
export function pressureInAir(scenario: CompleteScenario, cast: number, side: Side): Float64Array {
  const draw = streamOf(scenario, cast, side).split("pressure");
  return Float64Array.from(
    { length: scansInAir(scenario, side) },
    () => onDeck_dbar + pressureNoise_dbar * draw.normal(),
  );
}

/** Readings of a cell and its thermometer there: the offset, the water left in the cell, noise. */
export function readingsInAir(
  scenario: CompleteScenario,
  cast: number,
  cell: CellName,
  side: Side,
  offset_uS_cm: number,
) {
  const { sampling } = scenario;
  const n = scansInAir(scenario, side);
  const rate_Hz = sampling.kind === "averages" ? 1 : sampling.rate_Hz;
  const time = sampling.kind === "averages" ? undefined : sampling.deck?.[side];
  const draw = streamOf(scenario, cast, side).split(cell);
  const water = waterLeft(time, draw.split("water").uniform());
  const temperature_C = Float64Array.from({ length: n }, () => air_C + airNoise_K * draw.normal());
  const conductivity_mS_cm = Float64Array.from(
    { length: n },
    (_, i) => (offset_uS_cm + water(i / rate_Hz)) / 1000 + conductivityNoise_mS_cm * draw.normal(),
  );
  return { temperature_C, conductivity_mS_cm };
}

/** uS/cm by seconds: water that runs out, and a layer that stays, exponentially distributed from cast to cast. */
function waterLeft(time: TimeInAir | undefined, uniform: number): (seconds: number) => number {
  const { draining_microsiemens_cm = 0, draining_s = 10, left_microsiemens_cm = 0 } = time ?? {};
  const left = -left_microsiemens_cm * Math.log(uniform);
  return (seconds) => left + draining_microsiemens_cm * Math.exp(-seconds / draining_s);
}

function streamOf({ seed }: CompleteScenario, cast: number, side: Side) {
  return randomStream(seed).split("deck").split(cast).split(side);
}

/** The column of a whole cast: before, in the water, after. */
export function joined(before: Float64Array, water: Float64Array, after: Float64Array) {
  if (before.length + after.length === 0) return water;
  const whole = new Float64Array(before.length + water.length + after.length);
  whole.set(before);
  whole.set(water, before.length);
  whole.set(after, before.length + water.length);
  return whole;
}
