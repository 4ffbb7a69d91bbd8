// Options of every command that reads a cruise: facts given beside its files.
import { basename } from "node:path";
import type { OnFile, ReadCruiseOptions } from "../node/readParts.js";
import { readText } from "../node/readText.js";
import { BadInput, quoted } from "../read/badInput.js";
import { type CastColumnName, type CastMapping, castColumnNames } from "../read/castColumnNames.js";
import { readJson } from "../read/json.js";
import { UsageError } from "./usageError.js";

export const readingOptions = {
  bottles: { type: "string" },
  record: { type: "string" },
  target: { type: "string" },
  minutes: { type: "string" },
  column: { type: "string", multiple: true },
  columns: { type: "string" },
} as const;

/** Lines of a command's help. */
export const readingHelp = `  --bottles FILE        the bottles, where the cruise or the cast does not name them
  --record FILE         the maintenance record, where the cruise does not name it
  --target S            required salinity accuracy (0.002)
  --minutes N           minutes available for cleaning before the next cast
  --column OURS=THEIRS  a heading of the casts: --column pressure_dbar=Pres; once for each
  --columns FILE        the same from a file: { "pressure_dbar": "Pres", ... }`;

interface ReadingValues {
  readonly bottles?: string | undefined;
  readonly record?: string | undefined;
  readonly target?: string | undefined;
  readonly minutes?: string | undefined;
  readonly column?: readonly string[] | undefined;
  readonly columns?: string | undefined;
}

/**
 * @param cast value of --cast: the id of a cast that is a single file
 * @throws UsageError if a value is impossible, BadInput if the file of headings cannot be read or is not one
 */
export async function readCruiseOptions(
  values: ReadingValues,
  cast: string | undefined,
  onFile: OnFile,
): Promise<ReadCruiseOptions> {
  const columns = {
    ...(values.columns === undefined ? {} : await mappingFile(values.columns)),
    ...mappingOf(values.column ?? []),
  };
  const target = numberFrom("--target", values.target, 1e-5, 1);
  const minutesAvailable = numberFrom("--minutes", values.minutes, 0, 100_000);
  return {
    onFile,
    ...(cast === undefined ? {} : { cast }),
    ...(values.bottles === undefined ? {} : { bottles: values.bottles }),
    ...(values.record === undefined ? {} : { record: values.record }),
    ...(target === undefined ? {} : { target }),
    ...(minutesAvailable === undefined ? {} : { minutesAvailable }),
    ...(Object.keys(columns).length === 0 ? {} : { columns }),
  };
}

function numberFrom(option: string, text: string | undefined, least: number, most: number) {
  if (text === undefined) return undefined;
  const value = text.trim() === "" ? Number.NaN : Number(text);
  if (value >= least && value <= most) return value;
  throw new UsageError(`${option} ${text}: expected a number from ${least} to ${most}`);
}

function mappingOf(words: readonly string[]): CastMapping {
  const mapping: Partial<Record<CastColumnName, string>> = {};
  for (const word of words) {
    const sign = word.indexOf("=");
    const [name, heading] = [word.slice(0, Math.max(0, sign)).trim(), word.slice(sign + 1).trim()];
    if (sign < 0 || heading === "" || !isColumn(name)) {
      throw new UsageError(
        `--column ${word}: expected a column of ours, =, and its heading in the file; ours are ${castColumnNames.join(", ")}`,
      );
    }
    mapping[name] = heading;
  }
  return mapping;
}

function isColumn(name: string): name is CastColumnName {
  return (castColumnNames as readonly string[]).includes(name);
}

async function mappingFile(path: string): Promise<CastMapping> {
  const file = basename(path);
  const json = readJson((await readText(path, path)).text, file);
  const pairs = typeof json === "object" && json !== null ? Object.entries(json) : [];
  const odd = pairs.find(([name, heading]) => !isColumn(name) || typeof heading !== "string");
  if (pairs.length > 0 && odd === undefined && !Array.isArray(json)) return json as CastMapping;
  throw new BadInput([
    {
      file,
      line: 0,
      ...(odd === undefined ? {} : { column: odd[0] }),
      found: odd === undefined ? quoted(json) : `${quoted(odd[0])} for ${quoted(odd[1])}`,
      expected: `an object of headings by the names ${castColumnNames.join(", ")}`,
      mend: 'Write { "pressure_dbar": "Pres", "temperature_C": "Temp" }.',
    },
  ]);
}
