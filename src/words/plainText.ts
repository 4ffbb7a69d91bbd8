// Text from a file made fit to be shown in a terminal: no control characters, so that no file can move
// the cursor, change colours, ring the bell, break a line or turn the direction of what is read.

// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
const control = /[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/g;

/** A plain object of JSON with every string made fit to be shown. */
export function plainText<T>(data: T): T {
  const clean = (_key: string, value: unknown) =>
    typeof value === "string" ? plainLine(value) : value;
  return JSON.parse(JSON.stringify(data), clean) as T;
}

/** One line fit to be shown. */
export function plainLine(text: string): string {
  return text.replace(control, "\ufffd");
}

/** A message of several lines fit to be shown; its ends of line stay. */
export function plainLines(text: string): string {
  return text.split("\n").map(plainLine).join("\n");
}
