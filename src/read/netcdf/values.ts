// The values of a variable: missing ones NaN, packed ones unpacked [CFConventions2023], sections 2.5 and 8.1. Limits and
// fill values refer to the packed numbers.
import { type NetcdfVariable, numbersOf } from "./netcdfFile.js";

/** @returns a new column, in the unit of the file */
export function unpacked(variable: NetcdfVariable): Float64Array {
  const read = variable.read();
  const raw = read instanceof Float64Array ? read : new Float64Array(read.length).fill(Number.NaN);
  const [scale = 1] = numbersOf(variable, "scale_factor");
  const [offset = 0] = numbersOf(variable, "add_offset");
  const [fill = variable.usualFill] = numbersOf(variable, "_FillValue");
  const none = new Set([
    ...(fill === undefined ? [] : [fill]),
    ...numbersOf(variable, "missing_value"),
  ]);
  const [least, most] = limitsOf(variable);
  // Limits of another type than the packed integers refer to the unpacked values.
  const before = !variable.isInteger || limitsAreIntegers(variable);
  return raw.map((packed) => {
    const value = packed * scale + offset;
    const judged = before ? packed : value;
    return none.has(packed) || judged < least || judged > most ? Number.NaN : value;
  });
}

const limitNames = ["valid_range", "valid_min", "valid_max"] as const;

function limitsOf(variable: NetcdfVariable): readonly [least: number, most: number] {
  const [from, to] = numbersOf(variable, "valid_range");
  const [least = from ?? Number.NEGATIVE_INFINITY] = numbersOf(variable, "valid_min");
  const [most = to ?? Number.POSITIVE_INFINITY] = numbersOf(variable, "valid_max");
  return [least, most];
}

function limitsAreIntegers({ attributes }: NetcdfVariable): boolean {
  return limitNames.every((name) => attributes.get(name)?.isInteger ?? true);
}

/** The texts of a variable: strings, or rows of characters; numbers as text. */
export function textsOf(variable: NetcdfVariable): readonly string[] {
  const read = variable.read();
  if (read instanceof Float64Array) return Array.from(read, String);
  const rows = variable.shape.slice(0, -1).reduce((product, length) => product * length, 1);
  const count = variable.shape.reduce((product, length) => product * length, 1);
  // Strings have a length of their own, characters a dimension for it.
  const isText = read.every((text) => text.length <= 1) && variable.shape.length > 0;
  const length = isText && rows > 0 ? count / rows : 1;
  const texts = isText
    ? Array.from({ length: rows }, (_, k) => read.slice(k * length, (k + 1) * length).join(""))
    : read;
  return texts.map((text) => textOfBytes(text).replace(/\0.*$/s, "").trim());
}

/** Text in which each character is a byte, signed or not: UTF-8, or Latin-1 if it is not valid UTF-8. */
export function textOfBytes(text: string): string {
  const codes = Array.from(text, (character) => character.charCodeAt(0));
  // Text already decoded, and plain ASCII.
  if (codes.every((code) => code < 128) || codes.some((code) => code > 255 && code < 0xff80))
    return text;
  const bytes = Uint8Array.from(codes, (code) => code & 255);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("latin1").decode(bytes);
  }
}
