// The state of a cruise as text, and back: JSON with the name of its format, the software version, and a checksum.
import { BadInput, quoted } from "../../read/badInput.js";
import { readJson } from "../../read/json.js";
import { software } from "../../software.js";
import { crc32 } from "./crc32.js";
import type { CruiseState } from "./cruiseState.js";
import { fromPlainJson, type PlainJson, toPlainJson } from "./plainJson.js";

const stateFormat = "foulcast-state/1";

/** JSON in one line; docs/carry.md describes it. */
export function writeState(state: CruiseState): string {
  return writeStored(stateFormat, state);
}

/**
 * Read a state written by `writeState`, the same to the last digit.
 * @param file its name in messages
 * @throws BadInput if it is incomplete, damaged, in another format, or from another version of the software, whose numbers
 *   would differ
 */
export function readState(text: string, { file = "state" } = {}): CruiseState {
  return readStored(stateFormat, text, file) as CruiseState;
}

/** Plain values with the name of their format. */
export function writeStored(format: string, value: unknown): string {
  const plain = JSON.stringify(toPlainJson(value));
  const head = JSON.stringify({ format, software, checksum: crc32(plain) });
  return `${head.slice(0, -1)},"plain":${plain}}\n`;
}

/** @throws BadInput as `readState` */
export function readStored(format: string, text: string, file: string): unknown {
  const json = readJson(text, file) as Partial<{
    readonly format: string;
    readonly software: Partial<typeof software>;
    readonly checksum: string;
    readonly plain: PlainJson;
  }> | null;
  const refuse = (column: string, found: string, expected: string) => {
    const mend = "Open the cruise again and add its casts, bottles and record.";
    return new BadInput([{ file, line: 0, column, found, expected, mend }]);
  };
  if (json?.format !== format)
    throw refuse("format", quoted(json?.format), `${quoted(format)}, which this version writes`);
  const { name, version } = json.software ?? {};
  if (name !== software.name || version !== software.version) {
    const found = name === undefined ? "none" : `${name} ${version}`;
    const expected = `${software.name} ${software.version}: another version may give other numbers`;
    throw refuse("software", found, expected);
  }
  if (json.plain === undefined || crc32(JSON.stringify(json.plain)) !== json.checksum)
    throw refuse(
      "checksum",
      quoted(json.checksum),
      "the checksum of the state: the text is damaged",
    );
  return fromPlainJson(json.plain);
}
