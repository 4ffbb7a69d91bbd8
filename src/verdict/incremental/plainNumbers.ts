// Many numbers as text, exact to the last bit, in base64 (RFC 4648): little-endian float64s, or the difference of each number
// from the one before it, for columns that change slowly.

/** Share of zeros from which they are omitted (judgement: size). */
const manyZeros = 0.25;
/** Number of arguments of one call of String.fromCharCode: engines have limits from some ten thousand up. */
const atOnce = 8192;

/**
 * The number of values, and a float64 for each. If many are zero, as in the rows and covariances of the filter, only the
 * others are written, with one bit per value: 1 if the value is written; the lowest bit of a byte comes first.
 */
export type NumbersText = readonly [count: number, values: string, which?: string];

export function numbersText(numbers: Float64Array): NumbersText {
  const count = numbers.length;
  const others = numbers.filter((value) => !Object.is(value, 0));
  if (count - others.length < manyZeros * count) return [count, base64Of(numbers)];
  const bits = new Uint8Array(Math.ceil(count / 8));
  for (let i = 0; i < count; i++) if (!Object.is(numbers[i], 0)) bits[i >> 3]! |= 1 << (i & 7);
  return [count, base64Of(others), fromBytes(bits)];
}

/** @throws TypeError if the lengths do not agree */
export function numbersFrom([count, values, which]: NumbersText): Float64Array {
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

/** The number of values and their differences: of the whole numbers if `whole` is present, otherwise of the float64 bits. */
export type DifferencesText = readonly [count: number, differences: string, whole?: 1];

/** Number of differences with one width; a byte before them gives the width in bits (judgement: size). */
const blockLength = 16;

/**
 * Differences of whole numbers, or of float64 bits read as whole numbers in the order of the float64s. Each is the difference
 * from the number before, the first from 0. Its lowest bit is the sign. The largest of a block sets the width of all.
 */
export function differencesText(numbers: Float64Array): DifferencesText {
  const isWhole = numbers.every((one) => Number.isSafeInteger(one) && !Object.is(one, -0));
  const ordered = isWhole
    ? BigInt64Array.from(numbers, BigInt)
    : new BigInt64Array(numbers.slice().buffer).map(inOrder);
  const differences = ordered.map((own, i) => own - (i === 0 ? 0n : ordered[i - 1]!));
  const folded = new BigUint64Array(differences.map((own) => (own << 1n) ^ (own >> 63n)).buffer);
  const bytes: number[] = [];
  // The first is as large as a number, not as a difference, so it has a block of its own.
  for (let from = 0; from < folded.length; from = from === 0 ? 1 : from + blockLength) {
    const block = folded.subarray(from, from === 0 ? 1 : from + blockLength);
    const width = block.reduce((all, own) => all | own, 0n).toString(2).length;
    bytes.push(width);
    let waiting = 0n;
    let bits = 0;
    for (const own of block) {
      waiting |= own << BigInt(bits);
      for (bits += width; bits >= 8; bits -= 8, waiting >>= 8n) bytes.push(Number(waiting & 255n));
    }
    if (bits > 0) bytes.push(Number(waiting));
  }
  const text = fromBytes(Uint8Array.from(bytes));
  return isWhole ? [numbers.length, text, 1] : [numbers.length, text];
}

/** @throws TypeError if the lengths do not agree */
export function numbersFromDifferences([count, differences, whole]: DifferencesText): Float64Array {
  const bytes = toBytes(differences);
  const ordered = new BigInt64Array(count);
  let at = 0;
  for (let from = 0; from < count; from = from === 0 ? 1 : from + blockLength) {
    const width = bytes[at++]!;
    const until = from === 0 ? 1 : Math.min(count, from + blockLength);
    let waiting = 0n;
    let bits = 0;
    for (let i = from; i < until; i++) {
      for (; bits < width; bits += 8) waiting |= BigInt(bytes[at++] ?? 0) << BigInt(bits);
      const folded = BigInt.asUintN(width, waiting);
      waiting >>= BigInt(width);
      bits -= width;
      ordered[i] = (i === 0 ? 0n : ordered[i - 1]!) + ((folded >> 1n) ^ -(folded & 1n));
    }
  }
  if (at !== bytes.length) throw new TypeError(`expected ${at} bytes, found ${bytes.length}`);
  return whole === undefined
    ? new Float64Array(ordered.map(inOrder).buffer)
    : Float64Array.from(ordered, Number);
}

/** The bits of negative float64s grow as the number falls; this reverses them. The function is its own inverse. */
function inOrder(bits: bigint): bigint {
  return bits < 0n ? bits ^ 0x7fff_ffff_ffff_ffffn : bits;
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
