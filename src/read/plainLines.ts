// The short way through the lines of a cast's table: bytes that are plain numbers, read without a text being made, many
// lines in one loop. Any other line is left to the reader of tables.

export interface LinePlan {
  /** By cell: which of the wanted numbers it is, or -1. */
  readonly slots: Int32Array;
  /** Bytes of the separator and of the decimal sign. */
  readonly separator: number;
  readonly point: number;
}

/** Lines that are taken at a time, and cells of them: a table may have many columns (judgement). */
const mostLines = 4096;
const mostCells = 131_072;

/** What was read of some lines. */
export interface PlainLines {
  /** By slot: the numbers of the lines, NaN for a blank cell. As many as there is room for lines. */
  readonly values: readonly Float64Array[];
  /** By line: where it begins, and where each of its cells ends. */
  readonly ends: Int32Array;
  /** How many lines there are. */
  count: number;
  /** Where the line after them begins. */
  next: number;
}

const newline = 10;
const carriageReturn = 13;
const blank = 32;
const quote = 34;
const hash = 35;
const plus = 43;
const minus = 45;
const zero = 48;
/** Decimal digits that a double holds exactly, and with them the quotient by a power of ten is the nearest double. */
const mostDigits = 15;
const powers = Float64Array.from({ length: mostDigits + 1 }, (_, k) => 10 ** k);
/** -999 and its kin mean that there is no value: these are left to the reader of cells. */
const leastPlain = -999;

/** Room for lines of a plan. */
export function roomFor({ slots }: LinePlan): PlainLines {
  const wanted = slots.reduce((most, slot) => Math.max(most, slot + 1), 0);
  const lines = Math.max(1, Math.min(mostLines, Math.floor(mostCells / (slots.length + 1))));
  return {
    values: Array.from({ length: wanted }, () => new Float64Array(lines)),
    ends: new Int32Array((slots.length + 1) * lines),
    count: 0,
    next: 0,
  };
}

/**
 * Take lines until one that is not of plain numbers, or that has no end yet.
 * @param from where a line begins
 * @param into what was taken; the lines before are overwritten
 */
export function plainLines(
  bytes: Uint8Array,
  from: number,
  { slots, separator, point }: LinePlan,
  into: PlainLines,
): void {
  const { values, ends } = into;
  const cells = slots.length;
  const size = bytes.length;
  const lines = ends.length / (cells + 1);
  into.next = from;
  into.count = 0;
  for (let line = 0; line < lines; line++) {
    let i = into.next;
    ends[line * (cells + 1)] = i;
    while (i < size && bytes[i] === blank) i++;
    if (i === size || bytes[i] === hash) return;
    for (let cell = 0; cell < cells; cell++) {
      const slot = slots[cell]!;
      if (slot < 0) {
        for (; i < size; i++) {
          const byte = bytes[i]!;
          if (byte === separator || byte === newline || byte === carriageReturn) break;
          if (byte === quote || byte > 126 || byte === 0) return;
        }
      } else {
        while (i < size && bytes[i] === blank) i++;
        if (i === size) return;
        const first = bytes[i]!;
        let value = Number.NaN;
        if (first !== separator && first !== newline && first !== carriageReturn) {
          if (first === minus || first === plus) i++;
          let mantissa = 0;
          let digits = 0;
          let decimals = -1;
          for (; i < size; i++) {
            const byte = bytes[i]!;
            const digit = byte - zero;
            if (digit >= 0 && digit <= 9) {
              mantissa = 10 * mantissa + digit;
              digits++;
              if (decimals >= 0) decimals++;
            } else if (byte === point && decimals < 0) decimals = 0;
            else break;
          }
          if (digits === 0 || digits > mostDigits) return;
          value = decimals > 0 ? mantissa / powers[decimals]! : mantissa;
          if (first === minus) value = -value;
          if (value <= leastPlain) return;
          while (i < size && bytes[i] === blank) i++;
        }
        values[slot]![line] = value;
      }
      // Between cells stands a separator, behind the last the end of the line.
      if (i === size) return;
      ends[line * (cells + 1) + cell + 1] = i;
      const last = cell === cells - 1;
      if (!last && bytes[i] !== separator) return;
      if (!last) i++;
    }
    if (bytes[i] === carriageReturn) {
      // What follows it is not known yet where it stands at the very end.
      if (i + 1 === size) return;
      if (bytes[i + 1] === newline) i++;
    } else if (bytes[i] !== newline) return;
    into.count = line + 1;
    into.next = i + 1;
  }
}
