// The headings of a cast's columns: ours, or any others by a mapping from ours to theirs.

/** What a column of a cast can be. */
export const castColumnNames = [
  "time_s",
  "scan",
  "pressure_dbar",
  "temperature_C",
  "conductivity_mS_cm",
  "conductivity_S_m",
  "salinity",
  "temperature2_C",
  "conductivity2_mS_cm",
  "conductivity2_S_m",
  "salinity2",
] as const;
export type CastColumnName = (typeof castColumnNames)[number];

/** From our name to the file's heading. */
export type CastMapping = Readonly<Partial<Record<CastColumnName, string>>>;

/** Where each of our columns stands in the file; absent where it does not. */
export type ColumnPlaces = Readonly<Partial<Record<CastColumnName, number>>>;

export function placesOf(headings: readonly string[], mapping: CastMapping): ColumnPlaces {
  const places: Partial<Record<CastColumnName, number>> = {};
  for (const name of castColumnNames) {
    const place = headings.indexOf(mapping[name] ?? name);
    if (place >= 0) places[name] = place;
  }
  return places;
}
