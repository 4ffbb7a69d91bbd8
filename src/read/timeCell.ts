// A time as ISO 8601 UTC. A time without a zone is taken for UTC, as is usual at sea.

const iso = /^\d{4}-\d{2}-\d{2}([T ]\d{2}:\d{2}(:\d{2}(\.\d+)?)?( ?(Z|[+-]\d{2}(:?\d{2})?))?)?$/;

/** @returns undefined where the cell is blank, null where it is no ISO 8601 time */
export function timeCell(text: string | undefined): string | undefined | null {
  const trimmed = (text ?? "").trim();
  if (trimmed === "") return undefined;
  if (!iso.test(trimmed)) return null;
  const joined = trimmed
    .replace(/^(\S+) (\d)/, "$1T$2")
    .replace(" ", "")
    .replace(/([+-]\d{2})$/, "$1:00");
  const zoned =
    joined.includes("T") && !/(Z|[+-]\d{2}:?\d{2})$/.test(joined) ? `${joined}Z` : joined;
  const time = new Date(zoned);
  return Number.isNaN(time.getTime()) ? null : time.toISOString();
}
