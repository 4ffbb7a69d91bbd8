// A cruise from the file system: a folder with or without cruise.json, a cruise.json, a bottle file, a single cast.
import { existsSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import type { Cruise } from "../cast/cruise.js";
import type { InputFile } from "../cast/inputFile.js";
import { BadInput } from "../read/badInput.js";
import { castIdFault } from "../read/castIds.js";
import { hasBottleColumns, refuseForeign, sniff } from "../read/sniff.js";
import { castIdOf, guessFolder } from "./guessFolder.js";
import { hashFile } from "./hashFile.js";
import { castIdsOf, openNetcdf } from "./readNetcdf.js";
import {
  type CastOf,
  castFromFile,
  type OnFile,
  type ReadCruiseOptions,
  readParts,
} from "./readParts.js";
import { isFolder, readHead, readText } from "./readText.js";

/**
 * Read a cruise.
 * @param path a cruise folder, a cruise.json, a WHP-Exchange bottle file, a bottles table, or one cast
 * @param options facts given beside the files, or a function to call as they are read
 * @throws BadInput if a file cannot be read or has wrong contents: all faults of a file together
 */
export async function readCruise(
  path: string,
  options: OnFile | ReadCruiseOptions = {},
): Promise<Cruise> {
  return readCruiseWith(path, typeof options === "function" ? { onFile: options } : options);
}

/** @param castOf reads a cast from its file */
export async function readCruiseWith(
  path: string,
  options: ReadCruiseOptions,
  castOf: CastOf = castFromFile,
): Promise<Cruise> {
  const file = basename(path);
  if (await isFolder(path, path)) {
    const described = join(path, "cruise.json");
    return existsSync(described)
      ? readDescribed(described, options, castOf)
      : readGuessed(path, options, castOf);
  }
  const head = await readHead(path, path);
  const kind = sniff(head, options.columns);
  if (kind !== "netcdf") refuseForeign(kind, file);
  if (kind === "description") return readDescribed(path, options, castOf);
  if (kind === "maintenance") throw new BadInput([maintenanceAlone(file)]);
  const one = { name: file.replace(/\.[^.]*$/, ""), instrument: {} };
  const isBottles =
    kind === "bottles" ||
    kind === "exchange-bottles" ||
    (kind === "unknown" && options.columns === undefined && hasBottleColumns(head));
  if (isBottles) {
    return readParts(dirname(path), { ...one, casts: [], bottles: file }, [], options, castOf);
  }
  const own = options.cast ?? castIdOf({ name: file, kind, head });
  const ids =
    kind === "netcdf" ? castIdsOf(await openNetcdf(path, file, options.columns), own) : [own];
  // For a single cast the id is given; for several it selects the one to show.
  const named = ids.length === 1 && options.cast !== undefined ? [options.cast] : ids;
  for (const fault of named.map(castIdFault)) {
    if (fault === undefined) continue;
    throw new BadInput([
      { file, line: 0, ...fault, mend: `${fault.mend.slice(0, -1)}, with --cast.` },
    ]);
  }
  const casts = named.map((id) => ({ id, file }));
  return readParts(dirname(path), { ...one, casts }, [], options, castOf, true);
}

async function readDescribed(
  path: string,
  options: ReadCruiseOptions,
  castOf: CastOf,
): Promise<Cruise> {
  const file = basename(path);
  const { text, notes } = await readText(path, path);
  // Loaded only if needed, because it loads the library of schemas.
  const { readCruiseDescription } = await import("../read/cruiseDescription.js");
  const description = readCruiseDescription(text, { file });
  const rows = description.casts.length;
  const sha256 = await hashFile(path);
  const input: InputFile = { name: file, role: "cruise", sha256, rows, leftOut: [], notes };
  return readParts(dirname(resolve(path)), description, [input], options, castOf);
}

async function readGuessed(
  folder: string,
  options: ReadCruiseOptions,
  castOf: CastOf,
): Promise<Cruise> {
  const { description, notes } = await guessFolder(folder, options.columns);
  const { name, casts } = description;
  const input: InputFile = { name, role: "cruise", rows: casts.length, leftOut: [], notes };
  return readParts(folder, description, [input], options, castOf);
}

function maintenanceAlone(file: string) {
  return {
    file,
    line: 0,
    found: "a maintenance record",
    expected: "a cruise folder, a cruise.json, a bottle file or a cast",
    mend: "Name the cruise or the cast that the record belongs to, and the record with --record.",
  };
}
