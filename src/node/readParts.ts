// Read the files of a cruise one after the other, and combine them.
import { basename, join } from "node:path";
import type { Cruise, CruiseCast } from "../cast/cruise.js";
import type { DeepReference } from "../cast/deepReference.js";
import type { InputFile } from "../cast/inputFile.js";
import { assembleCruise } from "../read/assembleCruise.js";
import { readBottlesCsv } from "../read/bottlesCsv.js";
import type { CastFacts } from "../read/castBuilder.js";
import type { CastMapping } from "../read/castColumnNames.js";
import { castFinder } from "../read/castIds.js";
import type { CruiseDescription } from "../read/cruiseDescription.js";
import { readDeepReference } from "../read/deepReferenceCsv.js";
import { readExchangeBottles } from "../read/exchangeBottles.js";
import { readMaintenance } from "../read/maintenanceRecord.js";
import { present } from "../read/present.js";
import type { ReadBottles } from "../read/readBottles.js";
import { refuseForeign, sniff } from "../read/sniff.js";
import { hashFile } from "./hashFile.js";
import { readCastFile } from "./readCastFile.js";
import { keepingLast, type openNetcdf } from "./readNetcdf.js";
import { readHead, readText } from "./readText.js";

/** Called as files are read, for a progress line. */
export type OnFile = (done: number, of: number, name: string) => void;

/** Facts about a cruise given beside its files; they have priority. Paths are relative to the working folder. */
export interface ReadCruiseOptions {
  readonly onFile?: OnFile;
  /** The table of bottles, or a WHP-Exchange bottle file. */
  readonly bottles?: string;
  /** The maintenance record. */
  readonly record?: string;
  /** Required salinity accuracy, PSS-78. */
  readonly target?: number;
  /** Minutes available for cleaning before the next cast. */
  readonly minutesAvailable?: number;
  /** From our column names to the headings of the casts. */
  readonly columns?: CastMapping;
  /** The id of a cast that is a single file; its file name if absent. */
  readonly cast?: string;
}

/**
 * A cast from its file; `data` is absent if its scans were read before and are not needed.
 * @param open opens a NetCDF file
 */
export type CastOf = (
  path: string,
  facts: CastFacts,
  open: typeof openNetcdf,
) => Promise<{ readonly cast: CruiseCast; readonly input: InputFile }>;

export async function castFromFile(path: string, facts: CastFacts, open: typeof openNetcdf) {
  const { cast, input } = await readCastFile(path, facts, open);
  const { id, start, latitude, longitude } = cast;
  return { cast: present<CruiseCast>({ id, start, latitude, longitude, data: cast }), input };
}

/**
 * @param folder     base of the paths in the description
 * @param castsAlone whether the casts were named themselves: bottles of others are then ignored
 */
export async function readParts(
  folder: string,
  description: CruiseDescription,
  described: readonly InputFile[],
  options: ReadCruiseOptions,
  castOf: CastOf,
  castsAlone = false,
): Promise<Cruise> {
  const { name, note, instrument, deepWater, timeZone } = description;
  const nextStation = {
    ...description.nextStation,
    ...(options.minutesAvailable === undefined
      ? {}
      : { minutesAvailable: options.minutesAvailable }),
  };
  const of = placeOf(folder, description.bottles, options.bottles);
  const record = placeOf(folder, description.maintenance, options.record);
  const water = placeOf(folder, deepWater?.file, undefined);
  const steps =
    description.casts.length + [of, record, water].filter((p) => p !== undefined).length;
  let done = 0;
  const step = (what: string) => options.onFile?.(++done, steps, what);
  const inputs = [...described];
  const casts: CruiseCast[] = [];
  const open = keepingLast();
  for (const { file, ...facts } of description.casts) {
    if (file === undefined) {
      casts.push(present<CruiseCast>(facts));
    } else {
      const { cast, input } = await castOf(
        join(folder, file),
        present<CastFacts>({
          sampleRate_Hz: instrument.sampleRate_Hz,
          ...facts,
          mapping: { ...facts.mapping, ...options.columns },
          file,
          keepOthers: false,
        }),
        open,
      );
      inputs.push(input);
      casts.push(cast);
    }
    step(facts.id);
  }
  const [only, ...others] = casts;
  const found = await readPart(of, (text, file) =>
    bottlesOf(text, file, others.length === 0 ? only?.id : undefined),
  );
  const bottles = castsAlone && found !== undefined ? ofTheseCasts(found, casts) : found;
  if (bottles !== undefined) step(bottles.input.name);
  const maintenance = await readPart(record, (text, file) => readMaintenance(text, { file }));
  if (maintenance !== undefined) step(maintenance.input.name);
  const deep = await readPart(water, (text, file) => readDeepReference(text, { file }));
  if (deep !== undefined) step(deep.input.name);
  return assembleCruise({
    name,
    note,
    casts,
    hasScans: description.casts.some(({ file }) => file !== undefined),
    bottles: bottles?.bottles ?? [],
    bottleCasts: bottles?.casts ?? [],
    maintenance: maintenance?.events ?? [],
    instrument: present(instrument),
    target: options.target ?? description.target,
    nextStation: Object.keys(nextStation).length === 0 ? undefined : present(nextStation),
    timeZone,
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

/**
 * Without the bottles of other casts. Those casts may have come later, and without their scans they have no verdict worth
 * showing. If no bottle is of these casts, all are kept, and the cruise is refused.
 */
function ofTheseCasts<T extends ReadBottles>(found: T, listed: readonly CruiseCast[]): T {
  const cast = castFinder(listed.map(({ id }) => id));
  const bottles = found.bottles.filter((bottle) => cast(bottle.cast) !== undefined);
  const ignored = found.bottles.length - bottles.length;
  if (ignored === 0 || bottles.length === 0) return found;
  const casts = found.casts.filter(({ id }) => cast(id) !== undefined);
  const note = `bottles of casts without a file, ignored: ${ignored}`;
  return {
    ...found,
    bottles,
    casts,
    input: { ...found.input, notes: [...found.input.notes, note] },
  };
}

interface NamedPath {
  readonly path: string;
  /** For messages. */
  readonly name: string;
}

/** The path of a part of the cruise: as given, otherwise from the description; undefined if neither has one. */
function placeOf(folder: string, file?: string, options?: string): NamedPath | undefined {
  if (options !== undefined) return { path: options, name: basename(options) };
  return file === undefined ? undefined : { path: join(folder, file), name: file };
}

/** The result of `read` for a file, with its fingerprint; undefined if no file is named. */
async function readPart<T extends { readonly input: InputFile }>(
  place: NamedPath | undefined,
  read: (text: string, file: string) => T,
): Promise<T | undefined> {
  if (place === undefined) return undefined;
  const { path, name } = place;
  refuseForeign(sniff(await readHead(path, name)), name);
  const { text, notes } = await readText(path, name);
  const part = read(text, name);
  const sha256 = await hashFile(path);
  return { ...part, input: { ...part.input, sha256, notes: [...part.input.notes, ...notes] } };
}

/** @param cast the only cast: bottles without a column for it belong to that */
function bottlesOf(text: string, file: string, cast: string | undefined): ReadBottles {
  return sniff(text.slice(0, 1000)) === "exchange-bottles"
    ? readExchangeBottles(text, { file })
    : readBottlesCsv(text, { file, ...(cast === undefined ? {} : { cast }) });
}
