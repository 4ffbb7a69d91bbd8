// Text from a file made fit to be shown in a terminal: no control characters, so that no file can move
// the cursor, change colours or ring the bell.

// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
const control = /[\u0000-\u001f\u007f-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/g;

/** A plain object of JSON with every string made fit to be shown. */
export function plainText<T>(data: T): T {
  const clean = (_key: string, value: unknown) =>
    typeof value === "string" ? value.replace(control, "\ufffd") : value;
  return JSON.parse(JSON.stringify(data), clean) as T;
}
