// The headings of a cast's columns: ours, or any others by a mapping.
import { BadInput, quoted } from "./badInput.js";
import { type CastColumnName, type CastMapping, castColumnNames } from "./castColumnNames.js";
import { guessHeading } from "./guessHeadings.js";
import { someHeadings } from "./headings.js";
import type { TableRow } from "./tableRow.js";
import { standardHeadings } from "./unitsRow.js";

/** The first rows of a file, and its line of units: the basis for a guess at a heading. */
export interface Beginning {
  readonly units?: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** Index in the file of each column read as numbers; absent if it is missing. */
export type ColumnPlaces = Readonly<Partial<Record<CastColumnName, number>>>;

/** The first that is present is used: conductivity is preferred to salinity. */
const conductivityNames = {
  "": ["conductivity_mS_cm", "conductivity_S_m", "salinity"],
  "2": ["conductivity2_mS_cm", "conductivity2_S_m", "salinity2"],
} as const satisfies Record<string, readonly CastColumnName[]>;

export function conductivityName(
  places: ColumnPlaces,
  suffix: "" | "2",
): CastColumnName | undefined {
  return conductivityNames[suffix].find((name) => places[name] !== undefined);
}

/**
 * @returns the indices of the columns, and notes on columns that were not used
 * @throws BadInput with every required or mapped heading that is missing
 */
export function placesOf(
  { cells, line }: TableRow,
  mapping: CastMapping,
  file: string,
  { units, rows }: Beginning = { rows: [] },
): { readonly places: ColumnPlaces; readonly notes: readonly string[] } {
  const found: Partial<Record<CastColumnName, number>> = {};
  for (const name of castColumnNames) {
    const place = cells.indexOf(mapping[name] ?? name);
    if (place >= 0) found[name] = place;
  }
  // With a line of units below them, headings may be standard names.
  if (units !== undefined) {
    for (const [key, heading] of Object.entries(standardHeadings)) {
      const name = key as CastColumnName;
      const place = cells.indexOf(heading);
      const taken = name.startsWith("conductivity") && conductivityName(found, "") !== undefined;
      if (place >= 0 && mapping[name] === undefined && !taken) found[name] ??= place;
    }
  }
  const strange = Object.values(mapping).filter((heading) => !cells.includes(heading));
  const wanted = [
    ...strange,
    ...(["pressure_dbar", "temperature_C"] as const).filter((name) => found[name] === undefined),
    ...(conductivityName(found, "") === undefined ? ["conductivity_mS_cm"] : []),
  ];
  if (wanted.length > 0) {
    const guess = (name: string) =>
      strange.includes(name) ? undefined : guessHeading(name as CastColumnName, cells, units, rows);
    throw missing(wanted, { cells, line }, file, guess);
  }
  const second = conductivityName(found, "2");
  const whole = second !== undefined && found.temperature2_C !== undefined;
  const half = second ?? (found.temperature2_C === undefined ? undefined : "temperature2_C");
  const taken: readonly (CastColumnName | undefined)[] = [
    "time_s",
    "scan",
    "pressure_dbar",
    "temperature_C",
    conductivityName(found, ""),
    ...(whole ? (["temperature2_C", second] as const) : []),
  ];
  const places = Object.fromEntries(
    Object.entries(found).filter(([name]) => taken.includes(name as CastColumnName)),
  );
  const other = second === undefined ? "conductivity2_mS_cm" : "temperature2_C";
  return {
    places,
    notes:
      whole || half === undefined
        ? []
        : [`${half} without ${other}: no second cell was taken from the file`],
  };
}

function missing(
  wanted: readonly string[],
  { cells, line }: TableRow,
  file: string,
  guess: (name: string) => ReturnType<typeof guessHeading>,
): BadInput {
  return new BadInput(
    [...new Set(wanted)].map((name) => ({
      file,
      line,
      column: name,
      found: `no such heading among ${someHeadings(cells)}`,
      expected:
        name === "conductivity_mS_cm"
          ? "a column conductivity_mS_cm, conductivity_S_m or salinity"
          : `a column ${name}`,
      mend: mendHeading(guess(name)),
    })),
  );
}

function mendHeading(guess: ReturnType<typeof guessHeading>): string {
  if (guess === undefined) {
    return "Rename the column. Or name your heading with --column, or under `mapping` in cruise.json.";
  }
  const { name, heading, why } = guess;
  // The shell splits words at blanks and interprets some characters.
  const words = `${name}=${heading}`;
  const shown = /^[\w=./-]+$/.test(words) ? words : `'${words}'`;
  return `Did you mean ${quoted(heading)} (${why})? If so, say --column ${shown}, or put "${name}": ${quoted(heading)} under \`mapping\` in cruise.json.`;
}
