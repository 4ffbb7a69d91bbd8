// The interface of a command: one file each, named in ../main.ts.

export interface Command {
  readonly name: string;
  readonly summary: string;
  readonly help: string;
  /** @returns the exit status */
  readonly run: (words: readonly string[]) => Promise<number>;
}
