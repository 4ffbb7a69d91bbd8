// A folder without cruise.json: recognise its files by their content.
import { readdir } from "node:fs/promises";
import { basename, join, resolve } from "node:path";
import { BadInput } from "../read/badInput.js";
import type { CastMapping } from "../read/castColumnNames.js";
import { castIdFault } from "../read/castIds.js";
import type { CruiseDescription } from "../read/cruiseDescription.js";
import { exchangeCastId } from "../read/exchange.js";
import { type FileKind, sniff } from "../read/sniff.js";
import { bareName, castIdsOf, openNetcdf } from "./readNetcdf.js";
import { readHead, unavailable } from "./readText.js";

interface FoundFile {
  readonly name: string;
  readonly kind: FileKind;
  readonly head: string;
  /** The casts named in a NetCDF file. */
  readonly ids?: readonly string[];
}

/**
 * @param columns headings of the casts that the user has mapped
 * @returns the cruise as far as its files describe it, and the assumptions
 * @throws BadInput if no file in the folder is recognised
 */
export async function guessFolder(
  folder: string,
  columns: CastMapping = {},
): Promise<{ readonly description: CruiseDescription; readonly notes: readonly string[] }> {
  const name = basename(resolve(folder));
  const files = await textFiles(folder, name, columns);
  const named = (...kinds: readonly FileKind[]) => files.filter(({ kind }) => kinds.includes(kind));
  const casts = named("cast", "exchange-cast", "netcdf").flatMap((file) =>
    file.ids === undefined ? [file] : file.ids.map((id) => ({ ...file, ids: [id] })),
  );
  const [bottles, ...moreBottles] = named("bottles", "exchange-bottles");
  const [maintenance, ...moreMaintenance] = named("maintenance");
  if (casts.length === 0 && bottles === undefined) {
    throw new BadInput([
      {
        file: name,
        line: 0,
        found: "a folder without cruise.json, casts or bottles",
        expected: "cruise.json, or casts and bottles as CSV, WHP-Exchange or NetCDF",
        mend: "Name the folder that holds the cruise, or write a cruise.json as docs/formats.md describes it.",
      },
    ]);
  }
  const ids = castIds(casts);
  const aside = [...named("unknown", "packed", "description"), ...moreBottles, ...moreMaintenance];
  return {
    description: {
      name,
      casts: casts.map((cast, i) => ({ id: ids[i]!, file: cast.name })),
      ...(bottles === undefined ? {} : { bottles: bottles.name }),
      ...(maintenance === undefined ? {} : { maintenance: maintenance.name }),
      instrument: {},
    },
    notes: [
      `there is no cruise.json: ${casts.length} casts in the order of their names, ` +
        `bottles ${bottles?.name ?? "none"}, maintenance ${maintenance?.name ?? "none"}`,
      ...(aside.length === 0 ? [] : [`left aside: ${aside.map((file) => file.name).join(", ")}`]),
    ],
  };
}

async function textFiles(
  folder: string,
  name: string,
  columns: CastMapping,
): Promise<readonly FoundFile[]> {
  const entries = await readdir(folder, { withFileTypes: true }).catch((error: unknown) => {
    throw unavailable(error, name);
  });
  const names = entries
    .filter((entry) => entry.isFile() && /\.(csv|txt|json|nc|zip)$/i.test(entry.name))
    .map((entry) => entry.name)
    .sort((a, b) => a.localeCompare(b, "en", { numeric: true }));
  const found: FoundFile[] = [];
  for (const file of names) {
    const head = await readHead(join(folder, file), file);
    const kind = sniff(head, columns);
    const ids = kind === "netcdf" ? await namesIn(join(folder, file), file, columns) : undefined;
    found.push({ name: file, kind, head, ...(ids === undefined ? {} : { ids }) });
  }
  return found;
}

/** The casts of a NetCDF file; undefined if it has a single one without a name. */
async function namesIn(path: string, file: string, columns: CastMapping) {
  const casts = await openNetcdf(path, file, columns);
  const [only, ...others] = casts.ids;
  return only === undefined && others.length === 0 ? undefined : castIdsOf(casts, "");
}

/** Ids of the casts; whole file names if their numbers alone are not unique. */
function castIds(casts: readonly FoundFile[]): readonly string[] {
  const short = casts.map(castIdOf);
  const ids =
    new Set(short).size === casts.length
      ? short
      : casts.map(({ name, ids: [id] = [] }) =>
          id === undefined ? bareName(name) : `${bareName(name)}/${id}`,
        );
  const faults = ids.flatMap((id, i) => {
    const fault = castIdFault(id);
    return fault === undefined ? [] : [{ file: casts[i]!.name, line: 0, ...fault }];
  });
  if (faults.length > 0) throw new BadInput(faults);
  return ids;
}

/** The cast's id: from a WHP-Exchange file itself, otherwise from its name; for cast-001.csv the number. */
export function castIdOf({ name, kind, head, ids: [id] = [] }: FoundFile): string {
  if (id !== undefined) return id;
  const header = (key: string) =>
    new RegExp(`^${key}[ \\t]*=[ \\t]*(\\S+)[ \\t]*$`, "m").exec(head)?.[1];
  const [station, cast] = [header("STNNBR"), header("CASTNO")];
  return kind === "exchange-cast" && station !== undefined && cast !== undefined
    ? exchangeCastId(station, cast)
    : bareName(name).replace(/^(cast|ctd|station|stn|sta)[-_ .]*(?=\d)/i, "");
}
