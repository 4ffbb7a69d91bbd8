// Fast reading of a line of a cast's table: plain numbers are read directly from the bytes. The general reader takes any
// other line.

interface LinePlan {
  /** By cell: the index of the number that it holds, or -1. */
  readonly slots: Int32Array;
  /** Bytes of the separator and of the decimal sign. */
  readonly separator: number;
  readonly point: number;
}

const quote = 34;
const hash = 35;
const plus = 43;
const minus = 45;
const zero = 48;
const blank = 32;
/** Number of decimal digits that a double holds exactly; the quotient by a power of ten is then the nearest double. */
const mostDigits = 15;
const powers = Array.from({ length: mostDigits + 1 }, (_, k) => 10 ** k);
/** -999 and its variants mean a missing value; the general reader takes these. */
const leastPlain = -999;

/**
 * @param values receives the numbers by slot, NaN for a blank cell
 * @param ends   receives the end of each cell
 * @returns whether the line has plain numbers only; otherwise `values` is undefined
 */
export function plainLine(
  bytes: Uint8Array,
  from: number,
  to: number,
  { slots, separator, point }: LinePlan,
  values: Float64Array,
  ends: Int32Array,
): boolean {
  const count = slots.length;
  let i = from;
  while (i < to && bytes[i] === blank) i++;
  if (i === to || bytes[i] === hash) return false;
  for (let cell = 0; cell < count; cell++) {
    const slot = slots[cell]!;
    if (slot < 0) {
      for (; i < to && bytes[i] !== separator; i++) {
        const byte = bytes[i]!;
        if (byte === quote || byte > 126 || byte === 0) return false;
      }
    } else {
      while (i < to && bytes[i] === blank) i++;
      if (i === to || bytes[i] === separator) values[slot] = Number.NaN;
      else {
        const negative = bytes[i] === minus;
        if (negative || bytes[i] === plus) i++;
        let mantissa = 0;
        let digits = 0;
        let decimals = -1;
        for (; i < to; i++) {
          const byte = bytes[i]!;
          const digit = byte - zero;
          if (digit >= 0 && digit <= 9) {
            mantissa = 10 * mantissa + digit;
            digits++;
            if (decimals >= 0) decimals++;
          } else if (byte === point && decimals < 0) decimals = 0;
          else break;
        }
        if (digits === 0 || digits > mostDigits) return false;
        const size = decimals > 0 ? mantissa / powers[decimals]! : mantissa;
        const value = negative ? -size : size;
        if (value <= leastPlain) return false;
        values[slot] = value;
        while (i < to && bytes[i] === blank) i++;
        if (i < to && bytes[i] !== separator) return false;
      }
    }
    ends[cell] = i;
    if (i === to) return cell === count - 1;
    i++;
  }
  // A separator follows the last cell.
  return false;
}
