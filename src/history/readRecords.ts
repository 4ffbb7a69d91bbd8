// Read a history from text, one record for each line, and check it.
import { BadInput, type Fault, quoted } from "../read/badInput.js";
import { valueAt } from "../read/valueAt.js";
import { type CellRecord, cellRecordSchema, recordKey } from "./cellRecord.js";
import { historyFormat } from "./historyFormat.js";
import { inOrderOfTime } from "./inOrderOfTime.js";

/** A record with its place in the file. */
export interface PlacedRecord {
  readonly record: CellRecord;
  readonly file: string;
  readonly line: number;
}

/**
 * Read the records of cells from text.
 * @param text one JSON object on each line; empty lines are skipped
 * @throws BadInput with every line and key that is wrong
 */
export function readRecords(
  text: string,
  { file }: { readonly file: string },
): readonly PlacedRecord[] {
  const faults: Fault[] = [];
  const placed: PlacedRecord[] = [];
  for (const [i, line] of text
    .replace(/^\ufeff/, "")
    .split("\n")
    .entries()) {
    if (line.trim() === "") continue;
    const found = recordOf(line, { file, line: i + 1 });
    if (Array.isArray(found)) faults.push(...found);
    else placed.push(found as PlacedRecord);
  }
  if (faults.length > 0) throw new BadInput(faults);
  return placed;
}

/**
 * Records from several files, in order of time. Equal lines count once.
 * @throws BadInput if two lines of one cell and cruise differ
 */
export function joinRecords(placed: readonly PlacedRecord[]): readonly CellRecord[] {
  const byKey = new Map<string, PlacedRecord>();
  const faults: Fault[] = [];
  for (const one of placed) {
    const key = recordKey(one.record);
    const before = byKey.get(key);
    if (before === undefined) byKey.set(key, one);
    else if (JSON.stringify(before.record) !== JSON.stringify(one.record)) {
      const { serial, cruise } = one.record;
      faults.push({
        file: one.file,
        line: one.line,
        found: `cell ${serial} on ${cruise} again, but different from ${before.file}, line ${before.line}`,
        expected: "one record of a cell and cruise",
        mend: "Remove the older of the two, or assess the cruise again.",
      });
    }
  }
  if (faults.length > 0) throw new BadInput(faults);
  return inOrderOfTime([...byKey.values()].map(({ record }) => record));
}

function recordOf(
  line: string,
  at: { readonly file: string; readonly line: number },
): PlacedRecord | readonly Fault[] {
  const mend = "Write it as docs/history.md says, or assess the cruise again.";
  let json: unknown;
  try {
    json = JSON.parse(line);
  } catch {
    const shown = quoted(line);
    return [
      {
        ...at,
        found: `${shown}, which is not JSON`,
        expected: "one JSON object on each line",
        mend,
      },
    ];
  }
  const parsed = cellRecordSchema.safeParse(json);
  if (parsed.success) return { record: parsed.data, ...at };
  return parsed.error.issues.map((issue): Fault => {
    const path = issue.path.join(".");
    return {
      ...at,
      ...(path === "" ? {} : { column: path }),
      found:
        issue.code === "unrecognized_keys"
          ? `the key ${issue.keys.join(", ")}, which is not known`
          : quoted(valueAt(json, issue.path)),
      expected:
        path === "format"
          ? `the format ${historyFormat}`
          : issue.message.replace(/^Invalid input: expected /, ""),
      mend,
    };
  });
}
