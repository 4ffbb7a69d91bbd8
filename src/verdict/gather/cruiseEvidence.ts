// All evidence of a cruise, cast by cast; each cast uses only itself and the casts before.
import type { Cruise } from "../../cast/cruise.js";
import type { CarriedResponse } from "./answer.js";
import { castInputs, cellsKnown, knownFromScans } from "./knownCruise.js";
import { type CastEvidence, type Memories, observeCast } from "./observeCast.js";
import type { CastRead } from "./readCast.js";

/**
 * The evidence of each cast, with its scans; a generator, so that a caller can show progress and stop.
 * @param carried response of the cells on earlier cruises
 */
export function* cruiseEvidence(
  cruise: Cruise,
  carried: CarriedResponse = {},
): Generator<CastEvidence> {
  const known = knownFromScans(cruise);
  const inputsOf = castInputs(known, cellsKnown(known));
  const answered: CastRead["answers"][] = [];
  let memories: Memories = {};
  for (const [i, cast] of cruise.casts.entries()) {
    const inputs = inputsOf(i);
    const told = cruise.instrument.cells ?? [];
    const { deepReference } = cruise;
    const observed = observeCast(inputs, told, deepReference, answered, memories, carried);
    memories = observed.memories;
    answered.push(inputs.read?.answers ?? {});
    yield { ...observed.found, cast };
  }
}
