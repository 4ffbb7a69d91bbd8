// Progress of long work, on one line of standard error, and only for a terminal.
import { plainLine } from "../words/plainText.js";

/** Shorter work shows nothing, milliseconds. */
const patience_ms = 400;

/** @returns a function to call during the work, and one to call at its end */
export function progressLine(what: string) {
  const watched = process.stderr.isTTY === true;
  const began = Date.now();
  let shown = false;
  return {
    show(done: number, of: number, name: string): void {
      if (!watched || Date.now() - began < patience_ms) return;
      shown = true;
      process.stderr.write(`\r\u001b[K${what} ${done} of ${of}: ${plainLine(name)}`);
    },
    end(): void {
      if (shown) process.stderr.write("\r\u001b[K");
    },
  };
}
