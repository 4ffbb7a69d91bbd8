// A figure with its words, and its standard error from cruise to cruise.
import { jackknife } from "./jackknife.js";

export function figureLine(words: string, figure: string): string {
  return `${words.padEnd(58)}${figure}`;
}

/** @param value of the items of many cruises, or of all but one */
export function withError<Item>(
  byCruise: readonly (readonly Item[])[],
  value: (items: readonly Item[]) => number,
  digits: number,
): string {
  const found = jackknife(byCruise, value);
  return `${found.value.toFixed(digits).padStart(8)} ± ${found.standardError.toFixed(digits)}`;
}
