// Text in lines of a given width, for a terminal.

/** Largest width of a line, for any terminal. */
export const widest = 80;

/** Break at blanks so that no line is longer than `width`; a longer word is broken. Later lines are indented. */
export function wrap(text: string, width: number, indent: string): string {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/\s+/).flatMap((one) => pieces(one, width))) {
    const next = line === "" ? word : `${line} ${word}`;
    if (next.length > width && line !== "") {
      lines.push(line);
      line = word;
    } else {
      line = next;
    }
  }
  return [...lines, line].join(`\n${indent}`);
}

/** A word that fits, or its pieces. A word with escape codes is not broken. */
function pieces(word: string, width: number): readonly string[] {
  if (word.length <= width || word.includes("\u001b")) return [word];
  return [word.slice(0, width), ...pieces(word.slice(width), width)];
}
