// The stored results of `foulcast assess` in `.foulcast/` beside a cruise: the contents of each file, and the verdicts.
// With them, a new cast costs the work of one cast. The files always have priority, and the folder can be deleted at any
// time.
import { mkdir, readFile, stat } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { debuglog } from "node:util";
import type { Cruise, CruiseCast } from "../cast/cruise.js";
import type { InputFile } from "../cast/inputFile.js";
import { hashFile } from "../node/hashFile.js";
import { readCruiseWith } from "../node/readCruise.js";
import { type CastOf, castFromFile, type ReadCruiseOptions } from "../node/readParts.js";
import { isFolder } from "../node/readText.js";
import { writeAtomically } from "../node/writeAtomically.js";
import { checkCruise } from "../read/checkCruise.js";
import type { AssessmentSettings } from "../verdict/assessmentSettings.js";
import {
  type CruiseState,
  documentOf,
  type ReadOfCast,
  unreadCasts,
  withMore,
} from "../verdict/incremental/cruiseState.js";
import { readStored, writeStored } from "../verdict/incremental/stateText.js";
import type { StoredCruise } from "../verdict/incremental/storedCruise.js";
import type { VerdictDocument } from "../verdict/verdict.js";

/**
 * The bundle names its parts by a hash of their content, so the name of this part distinguishes two builds of the same
 * version. Another build may give other numbers.
 */
const thisBuild = basename(import.meta.url);
const cacheFormat = `foulcast-beside/1 ${thisBuild}`;
/** Lists the files that are read again if NODE_DEBUG=foulcast is set. */
const debug = debuglog("foulcast");
/**
 * A file changed within this time before it was read may change again within one tick of its clock, ms (judgement: coarse
 * clocks).
 */
const settled_ms = 3000;

/** One file of a cast as of the time when it was read. */
interface FileRead {
  /** Its path, and the facts given about it: other columns or another start need a new reading. */
  readonly key: string;
  readonly sha256: string;
  /** Size, times of change and place on the disk; absent if it had been changed just before. */
  readonly identity?: string;
  readonly cast: CruiseCast;
  readonly input: InputFile;
}

interface Cache {
  readonly files: readonly FileRead[];
  readonly reads: readonly ReadOfCast[];
  readonly stored?: StoredCruise;
}

const emptyCache: Cache = { files: [], reads: [] };

/**
 * Read and assess a cruise as `readCruise` and `assessCruise` do, with stored results of the same files. Casts that were
 * not read again come without scans.
 * @param onCast called after each new verdict
 */
export async function assessWithCache(
  path: string,
  options: ReadCruiseOptions,
  { onCast, ...settings }: AssessmentSettings,
  onRead: (cruise: Cruise) => void,
): Promise<{ readonly cruise: Cruise; readonly document: VerdictDocument }> {
  const file = await placeBeside(path);
  const cache = file === undefined ? emptyCache : await readCache(file);
  let had = await readWith(path, options, cache, new Set());
  const again = unreadCasts(had.reads, checkCruise(had.cruise));
  if (again.length > 0) had = await readWith(path, options, cache, new Set(again));
  const { cruise, files, reads } = had;
  onRead(cruise);
  const before: CruiseState = {
    cruise,
    settings,
    reads,
    ...(cache.stored === undefined ? {} : { stored: cache.stored }),
  };
  const { state } = withMore(before, cruise, onCast === undefined ? {} : { onCast });
  const document = documentOf(state);
  const isNew =
    files.some((one) => !cache.files.includes(one)) ||
    state.stored?.casts.length !== cache.stored?.casts.length ||
    state.stored?.casts.some((cast, i) => cast !== cache.stored?.casts[i]) === true;
  if (file !== undefined && isNew) {
    const stored = state.stored === undefined ? {} : { stored: state.stored };
    await writeCache(file, { files, reads: state.reads, ...stored });
  }
  return { cruise, document };
}

/** Undefined if the path is not the folder of a cruise. */
async function placeBeside(path: string): Promise<string | undefined> {
  if (await isFolder(path, path)) return join(path, ".foulcast", "cruise.json");
  return path.endsWith(".json") ? join(dirname(path), ".foulcast", basename(path)) : undefined;
}

/** Undefined if there is none, or if it is damaged or of another version. */
async function readCache(file: string): Promise<Cache> {
  try {
    return readStored(cacheFormat, await readFile(file, "utf8"), file) as Cache;
  } catch (error) {
    debug("nothing kept is used: %s", error instanceof Error ? error.message : error);
    return emptyCache;
  }
}

/** If the folder cannot be written, nothing is stored. */
async function writeCache(file: string, cache: Cache): Promise<void> {
  try {
    await mkdir(dirname(file), { recursive: true });
    await writeAtomically(file, writeStored(cacheFormat, cache));
  } catch (error) {
    debug("nothing is kept: %s", error instanceof Error ? error.message : error);
  }
}

/** @param anew ids of casts whose scans are needed */
async function readWith(
  path: string,
  options: ReadCruiseOptions,
  { files: known, reads: knownReads }: Cache,
  anew: ReadonlySet<string>,
): Promise<{
  readonly cruise: Cruise;
  readonly files: readonly FileRead[];
  readonly reads: readonly ReadOfCast[];
}> {
  const byKey = new Map(known.map((one) => [one.key, one]));
  const byCast = new Map(knownReads.map((one) => [one.cast, one]));
  const files: FileRead[] = [];
  const reads: ReadOfCast[] = [];
  const castOf: CastOf = async (castPath, facts, open) => {
    const key = JSON.stringify(facts);
    const before = byKey.get(key);
    const read = byCast.get(facts.id);
    if (before !== undefined && read !== undefined && !anew.has(facts.id)) {
      const same = await sameFile(castPath, before);
      if (same !== undefined) {
        files.push(same);
        reads.push(read);
        return same;
      }
    }
    debug("the scans of %s are read", facts.file);
    const identity = await identityOf(castPath);
    const found = await castFromFile(castPath, facts, open);
    const { data: _, ...cast } = found.cast;
    const sha256 = found.input.sha256;
    if (sha256 !== undefined) {
      const own = identity !== undefined && identity === (await identityOf(castPath));
      files.push({ key, sha256, cast, input: found.input, ...(own ? { identity } : {}) });
    }
    return found;
  };
  const cruise = await readCruiseWith(path, options, castOf);
  return { cruise, files, reads };
}

/** The stored results of a file with the same bytes; the bytes are compared if any property of the file changed. */
async function sameFile(path: string, known: FileRead): Promise<FileRead | undefined> {
  const identity = await identityOf(path);
  if (identity !== undefined && identity === known.identity) return known;
  if ((await hashFile(path).catch(() => undefined)) !== known.sha256) return undefined;
  const { identity: _, ...same } = known;
  return identity === undefined ? same : { ...same, identity };
}

/** Undefined if it does not exist, or was changed a moment ago. */
async function identityOf(path: string): Promise<string | undefined> {
  try {
    const { dev, ino, size, mtimeNs, ctimeNs } = await stat(path, { bigint: true });
    const settled = (time_ns: bigint) => Date.now() - Number(time_ns / 1_000_000n) > settled_ms;
    if (!settled(mtimeNs) || !settled(ctimeNs)) return undefined;
    return [dev, ino, size, mtimeNs, ctimeNs].join(" ");
  } catch {
    return undefined;
  }
}
