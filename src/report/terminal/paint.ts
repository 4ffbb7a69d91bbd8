// Colour and weight for a terminal, or none. Every meaning of a colour is also in words.

export interface Paint {
  readonly strong: (text: string) => string;
  readonly dim: (text: string) => string;
  readonly good: (text: string) => string;
  readonly warn: (text: string) => string;
  readonly bad: (text: string) => string;
}

const as = (code: number) => (text: string) => `\u001b[${code}m${text}\u001b[0m`;
const plain = (text: string) => text;

export function paintFor(colour: boolean): Paint {
  return colour
    ? { strong: as(1), dim: as(2), good: as(32), warn: as(33), bad: as(31) }
    : { strong: plain, dim: plain, good: plain, warn: plain, bad: plain };
}
