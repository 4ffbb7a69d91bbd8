// One cell of a table as a number. JavaScript's own conversion takes a blank for 0 and reads "0x10"; this does not.

// Each run of digits in one place only: two that could share them cost the square of their length.
const decimal = /^[+-]?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?$/;
/** Written where there is no value: -999 and its longer kin are those of WHP-Exchange and open archives. */
const missing = /^(|nan|na|n\/a|null|none|-9{3,7}(\.0*)?)$/i;

/** @returns the number, NaN if the cell says that there is none, undefined if it is not a number */
export function numberCell(text: string | undefined): number | undefined {
  const trimmed = (text ?? "").trim();
  if (!decimal.test(trimmed)) return missing.test(trimmed) ? Number.NaN : undefined;
  const value = Number(trimmed);
  if (value <= -999 && missing.test(trimmed)) return Number.NaN;
  return Number.isFinite(value) ? value : undefined;
}

/** What to do about a cell that is not a number. */
export function mendNumber(text: string): string {
  return /^[+-]?\d+,\d+$/.test(text.trim())
    ? "Write a point, not a comma, before the decimals."
    : "Write a decimal number, or leave the cell blank where there is none.";
}
