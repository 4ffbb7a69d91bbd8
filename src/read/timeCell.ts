// A time as ISO 8601 UTC. A time without a zone is taken as UTC, as is usual at sea, with a note.
import type { Table } from "./table.js";

const iso =
  /^(\d{4})-(\d{2})-(\d{2})(?:[T ](\d{2}:\d{2}(?::\d{2}(?:\.\d+)?)?)(?: ?(?:(Z)|([+-]\d{2}):?(\d{2})?))?)?$/i;

/** @returns undefined if the cell is blank, null if it is not an ISO 8601 time */
export function timeCell(text: string | undefined): string | undefined | null {
  const trimmed = (text ?? "").trim();
  if (trimmed === "") return undefined;
  const match = iso.exec(trimmed);
  if (match === null) return null;
  const [, year, month, day, clock = "00:00", , hours, minutes = "00"] = match;
  // Otherwise the 31st of April would become the 1st of May.
  const date = new Date(`${year}-${month}-${day}T00:00:00Z`);
  if (Number.isNaN(date.getTime()) || date.getUTCDate() !== Number(day)) return null;
  const zone = hours === undefined ? "Z" : `${hours}:${minutes}`;
  const time = new Date(`${year}-${month}-${day}T${clock}${zone}`);
  return Number.isNaN(time.getTime()) ? null : time.toISOString();
}

/** Whether a time of day has no zone. */
function isWithoutZone(text: string): boolean {
  return /[T ]\d{2}:\d{2}(:\d{2}(\.\d+)?)?$/i.test(text.trim());
}

/** Notes on the times in these columns; empty if there are none. */
export function zoneNotes(table: Table, headings: readonly string[]): readonly string[] {
  return headings.flatMap((heading) => {
    const place = table.headings.indexOf(heading);
    const bare = table.rows.filter(({ cells }) => isWithoutZone(cells[place] ?? "")).length;
    return bare === 0 ? [] : [`${heading}: ${bare} times without a zone were taken as UTC`];
  });
}
