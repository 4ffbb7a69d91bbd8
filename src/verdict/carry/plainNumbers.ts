// Many numbers as text, exact to the last bit: little-endian float64 in base64 (RFC 4648). The rows and covariances of the
// filter contain many zeros. Then only the other numbers are written, after one bit a number that marks them.

/** Share of zeros from which they are omitted (judgement: size). */
const manyZeros = 0.25;
/** Number of arguments of one call of String.fromCharCode: engines have limits from some ten thousand up. */
const atOnce = 8192;

export interface NumbersText {
  readonly count: number;
  /** Bits, lowest of a byte first, set for each number that is written; absent if all are. */
  readonly which?: string;
  readonly values: string;
}

export function numbersText(numbers: Float64Array): NumbersText {
  const count = numbers.length;
  const others = numbers.filter((value) => !Object.is(value, 0));
  if (count - others.length < manyZeros * count) return { count, values: base64Of(numbers) };
  const bits = new Uint8Array(Math.ceil(count / 8));
  for (let i = 0; i < count; i++) if (!Object.is(numbers[i], 0)) bits[i >> 3]! |= 1 << (i & 7);
  return { count, which: fromBytes(bits), values: base64Of(others) };
}

/** @throws TypeError if the lengths do not agree */
export function numbersFrom({ count, which, values }: NumbersText): Float64Array {
  const written = float64Of(values);
  const bits = which === undefined ? undefined : toBytes(which);
  const numbers = new Float64Array(count);
  let next = 0;
  for (let i = 0; i < count; i++) {
    if (bits === undefined || (bits[i >> 3]! >> (i & 7)) & 1) numbers[i] = written[next++]!;
  }
  if (next !== written.length)
    throw new TypeError(`expected ${next} numbers, found ${written.length}`);
  return numbers;
}

function base64Of(values: Float64Array): string {
  const bytes = new Uint8Array(8 * values.length);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < values.length; i++) view.setFloat64(8 * i, values[i]!, true);
  return fromBytes(bytes);
}

function float64Of(text: string): Float64Array {
  const bytes = toBytes(text);
  const view = new DataView(bytes.buffer);
  const values = new Float64Array(bytes.length / 8);
  for (let i = 0; i < values.length; i++) values[i] = view.getFloat64(8 * i, true);
  return values;
}

function fromBytes(bytes: Uint8Array): string {
  let text = "";
  for (let i = 0; i < bytes.length; i += atOnce) {
    text += String.fromCharCode(...bytes.subarray(i, i + atOnce));
  }
  return btoa(text);
}

function toBytes(text: string): Uint8Array {
  const decoded = atob(text);
  const bytes = new Uint8Array(decoded.length);
  for (let i = 0; i < bytes.length; i++) bytes[i] = decoded.charCodeAt(i);
  return bytes;
}
