// Our names of the columns of a cast, and the mapping from them to the headings of a file.

/** The possible columns of a cast. */
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
