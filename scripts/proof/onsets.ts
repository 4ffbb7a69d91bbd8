// Films that came within a cast: whether the verdict of that very cast tells it, and where it places them.
import type { LegName } from "../../src/cast/cast.js";
import type { CellTruth } from "../../src/simulate/index.js";
import type { ChangeOfGain } from "../../src/verdict/verdict.js";

interface Place {
  readonly leg: LegName;
  readonly pressure_dbar: number;
}

/** One film that came within a cast, into a cell that was clean before. */
export interface OnsetOutcome {
  readonly cells: number;
  readonly true: Place;
  /** Absent where the verdict does not hold that something came within this cast and stayed. */
  readonly said?: Place;
}

/** Steps of this size and more, ppm. */
const least_ppm = 100;
/** A cell with less of a film than this is clean, ppm: a layer upon an older film keeps that film's beginning. */
const clean_ppm = 25;

export function onsetOutcome(
  cast: string,
  cells: number,
  { onset, film }: CellTruth,
  change: ChangeOfGain,
): OnsetOutcome | undefined {
  if (onset === undefined || film.down < -clean_ppm || film.down - film.up < least_ppm) return;
  const { sinceCast, when, leg, pressure_dbar } = change;
  const told = sinceCast === cast && when === "within";
  const said = told && leg !== undefined && pressure_dbar !== undefined;
  return { cells, true: onset, ...(said ? { said: { leg, pressure_dbar } } : {}) };
}

const edges_dbar = [0, 60, 120, 200, 400, Number.POSITIVE_INFINITY];

/** How many are told and placed, by the number of cells and by where they came, as text. */
export function onsetsReport(outcomes: readonly OnsetOutcome[]): string {
  const rows = [1, 2].flatMap((cells) =>
    edges_dbar.slice(1).map((below, i) => {
      const above = edges_dbar[i]!;
      const some = outcomes.filter(
        (o) => o.cells === cells && o.true.pressure_dbar >= above && o.true.pressure_dbar < below,
      );
      const where = Number.isFinite(below) ? `${above} to ${below} dbar` : `below ${above} dbar`;
      return row(`  ${cells} cell${cells > 1 ? "s" : ""}, ${where}`, some);
    }),
  );
  return [
    `${`onset of films of ${least_ppm} ppm and more, on the cast itself`.padEnd(56)}told      leg right   within 20 dbar`,
    ...rows,
    row("  all", outcomes),
  ].join("\n");
}

function row(name: string, some: readonly OnsetOutcome[]): string {
  const told = some.filter(({ said }) => said !== undefined);
  const leg = told.filter((o) => o.said!.leg === o.true.leg);
  const near = told.filter((o) => Math.abs(o.said!.pressure_dbar - o.true.pressure_dbar) <= 20);
  const of = (part: number, all: number) => `${part} of ${all}`.padEnd(12);
  return `${name.padEnd(54)}${of(told.length, some.length)}${of(leg.length, told.length)}${of(near.length, told.length)}`;
}
