/**
 * The output buffer of a column function: the caller's, or a new one, with the common length of all columns.
 * @throws RangeError if the columns or the buffer differ in length
 */
export function outputFor(
  out: Float64Array | undefined,
  first: Float64Array,
  second: Float64Array = first,
  third: Float64Array = first,
): Float64Array {
  const column = out ?? new Float64Array(first.length);
  for (const other of [second, third, column])
    if (other.length !== first.length)
      throw new RangeError(
        `columns must have one length: found ${other.length} beside ${first.length}`,
      );
  return column;
}
