// A cast's table streamed from a file: 24 Hz casts have hundreds of thousands of rows.
import { createHash } from "node:crypto";
import type { CastFacts, ReadCast } from "../read/castBuilder.js";
import { castReader } from "../read/castReader.js";
import { readExchangeCast } from "../read/exchangeCast.js";
import { refuseForeign, sniff } from "../read/sniff.js";
import { openNetcdf, readNetcdfCast } from "./readNetcdf.js";
import { decoded, readBytes, readHead, withFile } from "./readText.js";

/** Number of bytes read at a time. */
const pieceBytes = 262_144;

/**
 * Read one cast from a file.
 * @param facts about the cast; `facts.file` is its name in messages. They have priority over the contents of a WHP-Exchange
 *   or NetCDF file. For a NetCDF file with several profiles `facts.id` selects one.
 * @param open  opens a NetCDF file: a caller that reads several casts of one file keeps it open
 * @throws BadInput if the file cannot be read or is not a cast
 */
export async function readCastFile(
  path: string,
  facts: CastFacts,
  open: typeof openNetcdf = openNetcdf,
): Promise<ReadCast> {
  const kind = sniff(await readHead(path, facts.file));
  if (kind === "netcdf") return readNetcdfCast(path, facts, open);
  refuseForeign(kind, facts.file);
  if (kind !== "exchange-cast") return streamCast(path, facts);
  const bytes = await readBytes(path, facts.file);
  const { text, notes } = decoded(bytes);
  const { cast, input } = readExchangeCast(text, facts);
  const sha256 = createHash("sha256").update(bytes).digest("hex");
  return { cast, input: { ...input, sha256, notes: [...input.notes, ...notes] } };
}

async function streamCast(path: string, facts: CastFacts): Promise<ReadCast> {
  return withFile(path, facts.file, async (file, size) => {
    const hash = createHash("sha256");
    const reader = castReader(facts);
    for (let at = 0; at < size; ) {
      const length = Math.min(pieceBytes, size - at);
      // The reader may keep a chunk, so each has memory of its own.
      const { bytesRead, buffer } = await file.read(new Uint8Array(length), 0, length, at);
      if (bytesRead === 0) break;
      const piece = buffer.subarray(0, bytesRead);
      hash.update(piece);
      reader.push(piece);
      at += bytesRead;
    }
    const { cast, input } = reader.finish();
    return { cast, input: { ...input, sha256: hash.digest("hex") } };
  });
}
