// A cast as a plain table: one header line, one row for each scan.
import type { CastFacts, ReadCast } from "./castBuilder.js";
import { castReader } from "./castReader.js";

/**
 * Read a cast from text.
 * @param text  headings `time_s, pressure_dbar, temperature_C, conductivity_mS_cm` (or `conductivity_S_m`, or `salinity`),
 *   optional `temperature2_C, conductivity2_mS_cm`, `scan`; any other headings by `facts.mapping`
 * @returns the cast, columns in mS/cm, ITS-90 degree C and dbar, with notes and excluded rows
 * @throws BadInput if a column is missing, repeated, or in another unit than its heading says
 */
export function readCastCsv(text: string, facts: CastFacts): ReadCast {
  const reader = castReader(facts);
  reader.push(new TextEncoder().encode(text));
  return reader.finish();
}
