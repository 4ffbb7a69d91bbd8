// Records of cells in order of the cruises.
import type { CellRecord } from "./cellRecord.js";

/** Records without a time come first. */
export function inOrderOfTime(records: readonly CellRecord[]): readonly CellRecord[] {
  const at = ({ from }: CellRecord) => Date.parse(from.start ?? "") || 0;
  return [...records].sort(
    (a, b) => at(a) - at(b) || (a.serial < b.serial ? -1 : a.serial > b.serial ? 1 : 0),
  );
}
