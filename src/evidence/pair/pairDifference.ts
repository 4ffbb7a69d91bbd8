// The two cells at one place; the conductivity of each is taken with its own temperature.
import type { Observation } from "../../model/observation.js";
import { spFromC, spFromCFirstDerivatives } from "../../seawater/index.js";

/** The difference of the two gains at one place. */
export interface PairDifference {
  readonly pressure: number;
  /** Unit: ppm. */
  readonly value: number;
  readonly water: NonNullable<Observation["water"]>;
  /** Temperature 1 minus 2, K. */
  readonly temperature: number;
  /** The effect of one kelvin of temperature error, ppm. */
  readonly perKelvin: number;
  /** The effect of the usual thermal lag on one cell there, ppm; 0 at closures, where the package stands. */
  readonly lag: number;
  /** The same for heat in the outer parts of one cell, as large as the usual lag in a steady gradient. */
  readonly outerHeat: number;
  /** The effect on one cell of water that arrives later, by one dbar of the path, ppm; 0 at closures. */
  readonly delay: number;
  /** Number of onsets above it; only differences with the same number are averaged together. */
  readonly stretch: number;
}

/** What one cell reads. */
type Water = PairDifference["water"];
/** The place of the reading. At a closure the effects of the responses have died away. */
export type Place = Pick<PairDifference, "pressure" | "lag" | "outerHeat" | "delay" | "stretch">;

/** One cell minus the other. */
export function pairDifference(first: Water, second: Water, place: Place): PairDifference {
  const { pressure } = place;
  const [c1, t1] = [first.conductivity_mS_cm, first.temperature_C];
  const [c2, t2] = [second.conductivity_mS_cm, second.temperature_C];
  const { dSpDc, dSpDt } = spFromCFirstDerivatives(c1, t1, pressure);
  const perSalinity = 1e6 / (c1 * dSpDc);
  return {
    ...place,
    value: perSalinity * (spFromC(c1, t1, pressure) - spFromC(c2, t2, pressure)),
    water: { conductivity_mS_cm: c1, temperature_C: t1 },
    temperature: t1 - t2,
    perKelvin: perSalinity * Math.abs(dSpDt),
  };
}
