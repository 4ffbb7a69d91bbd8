// A cruise from the file system: a folder with or without cruise.json, a cruise.json, a bottle file.
import { readdir } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import type { Cruise, CruiseCast, InputFile } from "../cast/cruise.js";
import { assembleCruise } from "../read/assembleCruise.js";
import { BadInput } from "../read/badInput.js";
import { type ReadBottles, readBottlesCsv } from "../read/bottlesCsv.js";
import type { CastFacts } from "../read/castBuilder.js";
import { type CruiseDescription, readCruiseDescription } from "../read/cruiseDescription.js";
import { isExchange } from "../read/exchange.js";
import { readExchangeBottles } from "../read/exchangeBottles.js";
import { readMaintenance } from "../read/maintenanceRecord.js";
import { present } from "../read/present.js";
import { guessFolder } from "./guessFolder.js";
import { hashFile } from "./hashFile.js";
import { readCastFile } from "./readCastFile.js";
import { isFolder, readText } from "./readText.js";

/** Called as files are read, for a progress line. */
export type OnFile = (done: number, of: number, name: string) => void;

/**
 * Read a cruise.
 * @param path a cruise folder, a cruise.json, a WHP-Exchange bottle file or a bottles table
 * @throws BadInput where a file cannot be had, or holds what it should not: all faults of a file together
 */
export async function readCruise(path: string, onFile?: OnFile): Promise<Cruise> {
  if (await isFolder(path, path)) {
    const names = await readdir(path);
    return names.includes("cruise.json")
      ? readDescribed(join(path, "cruise.json"), onFile)
      : readGuessed(path, names, onFile);
  }
  if (path.endsWith(".nc")) {
    throw new BadInput([
      {
        file: path,
        line: 0,
        found: "a NetCDF file",
        expected: "text: CSV, WHP-Exchange or cruise.json",
        mend: "NetCDF is not read yet: write the cast as CSV.",
      },
    ]);
  }
  const text = await readText(path, path);
  if (/^\ufeff?\s*\{/.test(text)) return readDescribed(path, onFile);
  const bottles = bottlesOf(text, basename(path));
  return assembleCruise({
    name: basename(path).replace(/\.(csv|txt)$/i, ""),
    casts: [],
    bottles: bottles.bottles,
    bottleCasts: bottles.casts,
    inputs: [{ ...bottles.input, sha256: await hashFile(path) }],
  });
}

function bottlesOf(text: string, file: string): ReadBottles {
  return isExchange(text, "BOTTLE")
    ? readExchangeBottles(text, { file })
    : readBottlesCsv(text, { file });
}

async function readDescribed(path: string, onFile?: OnFile): Promise<Cruise> {
  const description = readCruiseDescription(await readText(path, path), { file: basename(path) });
  const { length } = description.casts;
  const input: InputFile = {
    name: basename(path),
    role: "cruise",
    sha256: await hashFile(path),
    rows: length,
    leftOut: [],
    notes: [],
  };
  return readParts(dirname(resolve(path)), description, [input], onFile);
}

async function readGuessed(
  folder: string,
  names: readonly string[],
  onFile?: OnFile,
): Promise<Cruise> {
  const { description, notes } = guessFolder(basename(resolve(folder)), names);
  const input: InputFile = {
    name: basename(resolve(folder)),
    role: "cruise",
    rows: 0,
    leftOut: [],
    notes,
  };
  return readParts(folder, description, [input], onFile);
}

async function readParts(
  folder: string,
  description: CruiseDescription,
  described: readonly InputFile[],
  onFile?: OnFile,
): Promise<Cruise> {
  const { name, note, instrument, target, nextStation } = description;
  const inputs = [...described];
  const casts: CruiseCast[] = [];
  for (const [i, cast] of description.casts.entries()) {
    const { file, ...facts } = cast;
    onFile?.(i + 1, description.casts.length, cast.id);
    if (file === undefined) {
      casts.push(present(facts));
      continue;
    }
    const told = present<CastFacts>({ sampleRate_Hz: instrument.sampleRate_Hz, ...facts, file });
    const read = await readCastFile(join(folder, file), told);
    inputs.push(read.input);
    const { id, start, latitude, longitude } = read.cast;
    casts.push(present<CruiseCast>({ id, start, latitude, longitude, data: read.cast }));
  }
  const bottles = await bottlesIn(folder, description.bottles);
  const maintenance = await maintenanceIn(folder, description.maintenance);
  return assembleCruise({
    name,
    note,
    casts,
    bottles: bottles?.bottles ?? [],
    bottleCasts: bottles?.casts ?? [],
    maintenance: maintenance?.events ?? [],
    instrument: present(instrument),
    target,
    nextStation: nextStation === undefined ? undefined : present(nextStation),
    inputs: [
      ...inputs,
      ...(bottles === undefined ? [] : [bottles.input]),
      ...(maintenance === undefined ? [] : [maintenance.input]),
    ],
  });
}

async function bottlesIn(
  folder: string,
  file: string | undefined,
): Promise<ReadBottles | undefined> {
  if (file === undefined) return undefined;
  const path = join(folder, file);
  const read = bottlesOf(await readText(path, file), file);
  return { ...read, input: { ...read.input, sha256: await hashFile(path) } };
}

async function maintenanceIn(folder: string, file: string | undefined) {
  if (file === undefined) return undefined;
  const path = join(folder, file);
  const read = readMaintenance(await readText(path, file), { file });
  return { ...read, input: { ...read.input, sha256: await hashFile(path) } };
}
