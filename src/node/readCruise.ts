// A cruise from the file system: a folder with or without cruise.json, a cruise.json, a bottle file, a single cast.
import { existsSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import type { Cruise, CruiseCast, InputFile } from "../cast/cruise.js";
import type { DeepReference } from "../cast/deepReference.js";
import { assembleCruise } from "../read/assembleCruise.js";
import { BadInput } from "../read/badInput.js";
import { type ReadBottles, readBottlesCsv } from "../read/bottlesCsv.js";
import type { CastFacts } from "../read/castBuilder.js";
import { type CruiseDescription, readCruiseDescription } from "../read/cruiseDescription.js";
import { readDeepReference } from "../read/deepReferenceCsv.js";
import { readExchangeBottles } from "../read/exchangeBottles.js";
import { type ReadMaintenance, readMaintenance } from "../read/maintenanceRecord.js";
import { present } from "../read/present.js";
import { refuseForeign, sniff } from "../read/sniff.js";
import { castIdOf, guessFolder } from "./guessFolder.js";
import { hashFile } from "./hashFile.js";
import { readCastFile } from "./readCastFile.js";
import { type DecodedText, isFolder, readHead, readText } from "./readText.js";

/** Called as files are read, for a progress line. */
export type OnFile = (done: number, of: number, name: string) => void;

/**
 * Read a cruise.
 * @param path a cruise folder, a cruise.json, a WHP-Exchange bottle file, a bottles table, or one cast
 * @throws BadInput where a file cannot be had, or holds what it should not: all faults of a file together
 */
export async function readCruise(path: string, onFile?: OnFile): Promise<Cruise> {
  const file = basename(path);
  if (await isFolder(path, path)) {
    const described = join(path, "cruise.json");
    return existsSync(described) ? readDescribed(described, onFile) : readGuessed(path, onFile);
  }
  const head = await readHead(path, path);
  const kind = sniff(head);
  refuseForeign(kind, file);
  if (kind === "description") return readDescribed(path, onFile);
  if (kind === "maintenance") throw new BadInput([maintenanceAlone(file)]);
  const name = file.replace(/\.[^.]*$/, "");
  const one = { name, instrument: {} };
  return kind === "cast" || kind === "exchange-cast"
    ? readParts(
        dirname(path),
        { ...one, casts: [{ id: castIdOf({ name: file, kind, head }), file }] },
        [],
        onFile,
      )
    : readParts(dirname(path), { ...one, casts: [], bottles: file }, [], onFile);
}

async function readDescribed(path: string, onFile?: OnFile): Promise<Cruise> {
  const file = basename(path);
  const { text, notes } = await readText(path, path);
  const description = readCruiseDescription(text, { file });
  const rows = description.casts.length;
  const sha256 = await hashFile(path);
  const input: InputFile = { name: file, role: "cruise", sha256, rows, leftOut: [], notes };
  return readParts(dirname(resolve(path)), description, [input], onFile);
}

async function readGuessed(folder: string, onFile?: OnFile): Promise<Cruise> {
  const { description, notes } = await guessFolder(folder);
  const { name, casts } = description;
  const input: InputFile = { name, role: "cruise", rows: casts.length, leftOut: [], notes };
  return readParts(folder, description, [input], onFile);
}

async function readParts(
  folder: string,
  description: CruiseDescription,
  described: readonly InputFile[],
  onFile?: OnFile,
): Promise<Cruise> {
  const { name, note, instrument, target, nextStation } = description;
  const { bottles: bottlesFile, maintenance: maintenanceFile, deepWater } = description;
  const files = [bottlesFile, maintenanceFile, deepWater?.file].filter((f) => f !== undefined);
  const of = description.casts.length + files.length;
  let done = 0;
  const inputs = [...described];
  const casts: CruiseCast[] = [];
  for (const { file, ...facts } of description.casts) {
    if (file === undefined) {
      casts.push(present<CruiseCast>(facts));
    } else {
      const told = present<CastFacts>({
        sampleRate_Hz: instrument.sampleRate_Hz,
        ...facts,
        file,
      });
      const { cast, input } = await readCastFile(join(folder, file), told);
      const { id, start, latitude, longitude } = cast;
      inputs.push(input);
      casts.push(present<CruiseCast>({ id, start, latitude, longitude, data: cast }));
    }
    onFile?.(++done, of, facts.id);
  }
  const bottles = await readPart(folder, bottlesFile, bottlesOf);
  if (bottles !== undefined) onFile?.(++done, of, bottles.input.name);
  const maintenance = await readPart(folder, maintenanceFile, maintenanceOf);
  if (maintenance !== undefined) onFile?.(++done, of, maintenance.input.name);
  const deep = await readPart(folder, deepWater?.file, (text, file) =>
    readDeepReference(text, { file }),
  );
  if (deep !== undefined) onFile?.(++done, of, deep.input.name);
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
    deepReference:
      deep && deepWater
        ? present<DeepReference>({
            ...deep.rows,
            standardUncertainty: deepWater.standardUncertainty,
            walk: deepWater.walk,
          })
        : undefined,
    inputs: [
      ...inputs,
      ...[bottles, maintenance, deep].flatMap((part) => (part ? [part.input] : [])),
    ],
  });
}

/** A file of the folder read by `read`, its fingerprint added; undefined where none is named. */
async function readPart<T extends { readonly input: InputFile }>(
  folder: string,
  file: string | undefined,
  read: (text: string, file: string) => T,
): Promise<T | undefined> {
  if (file === undefined) return undefined;
  const path = join(folder, file);
  refuseForeign(sniff(await readHead(path, file)), file);
  const { text, notes }: DecodedText = await readText(path, file);
  const part = read(text, file);
  const sha256 = await hashFile(path);
  return { ...part, input: { ...part.input, sha256, notes: [...part.input.notes, ...notes] } };
}

function bottlesOf(text: string, file: string): ReadBottles {
  return sniff(text.slice(0, 1000)) === "exchange-bottles"
    ? readExchangeBottles(text, { file })
    : readBottlesCsv(text, { file });
}

function maintenanceOf(text: string, file: string): ReadMaintenance {
  return readMaintenance(text, { file });
}

function maintenanceAlone(file: string) {
  return {
    file,
    line: 0,
    found: "a maintenance record",
    expected: "a cruise folder, a cruise.json, a bottle file or a cast",
    mend: "Name the cruise that the record belongs to.",
  };
}
