// Makes text from a file safe for a terminal. Without control characters no file can move the cursor, change colours, ring
// the bell, break a line or reverse the reading direction.

// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
const control = /[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]/g;

/** A plain object of JSON with every string made safe for a terminal. */
export function plainText<T>(data: T): T {
  const clean = (_key: string, value: unknown) =>
    typeof value === "string" ? plainLine(value) : value;
  return JSON.parse(JSON.stringify(data), clean) as T;
}

/** One line made safe for a terminal. */
export function plainLine(text: string): string {
  return text.replace(control, "\ufffd");
}

/** A message of several lines made safe for a terminal; its line ends stay. */
export function plainLines(text: string): string {
  return text.split("\n").map(plainLine).join("\n");
}
