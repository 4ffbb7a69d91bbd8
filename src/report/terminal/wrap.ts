// Text in lines of a given width, for a terminal.

/** Break at blanks so that no line is longer than `width`, where a word allows; later lines are indented. */
export function wrap(text: string, width: number, indent: string): string {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(/\s+/)) {
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
