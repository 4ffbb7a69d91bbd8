// The figures of many outcomes as rows of a table, one world a row.
import type { WorldOutcome } from "./worldsOutcome.js";

const columns = [
  "n",
  "rms",
  "A",
  "B",
  "ratio",
  "in 95 %",
  "causes",
  "needless",
  "outlive",
  "only rinsed",
  "runs > 2",
] as const;
const nameWidth = 22;
const width = 12;

export const worldsHead = `${"world".padEnd(nameWidth)}${columns.map((name) => name.padStart(width)).join("")}`;

export function worldsRow(name: string, outcomes: readonly WorldOutcome[]): string {
  const bottled = outcomes.filter(({ ofCast_ppm }) => Number.isFinite(ofCast_ppm));
  const said = rms(bottled.map((o) => o.said_ppm - o.true_ppm));
  const a = rms(bottled.map((o) => o.ofCast_ppm - o.true_ppm));
  const b = rms(bottled.map((o) => o.ofLastFive_ppm - o.true_ppm));
  const held = outcomes.filter(
    (o) => o.interval95[0] <= o.true_ppm && o.true_ppm <= o.interval95[1],
  );
  const right = outcomes.filter((o) => o.causesRight.includes(o.causeSaid));
  const needless = outcomes.filter(isNeedless);
  const fouled = outcomes.filter((o) => o.leftFouled);
  const cells = inOrderOfCasts(outcomes);
  const cellValues = [
    outcomes.length.toFixed(0),
    said.toFixed(1),
    a.toFixed(1),
    b.toFixed(1),
    (said / Math.min(a, b)).toFixed(2),
    percent(held.length, outcomes.length),
    percent(right.length, outcomes.length),
    percent(needless.length, outcomes.length),
    String(sum(cells.map(outlived))),
    `${fouled.filter(isOnlyRinsed).length} of ${fouled.length}`,
    String(sum(cells.map(longRuns))),
  ];
  return `${name.padEnd(nameWidth)}${cellValues.map((value) => value.padStart(width)).join("")}`;
}

/** A deep clean is advised where there is no film worth it. */
function isNeedless({ deepClean, worthCleaning, intensity }: WorldOutcome): boolean {
  return deepClean && intensity !== "exchange" && !worthCleaning;
}

function isOnlyRinsed({ leftFouled, intensity }: WorldOutcome): boolean {
  return leftFouled && intensity === "rinse";
}

/** Of each cell of each cruise, its casts. */
function inOrderOfCasts(outcomes: readonly WorldOutcome[]): readonly (readonly WorldOutcome[])[] {
  const cells = new Map<string, WorldOutcome[]>();
  for (const outcome of outcomes) {
    const key = `${outcome.world} ${outcome.seed} ${outcome.cell}`;
    cells.set(key, [...(cells.get(key) ?? []), outcome]);
  }
  return [...cells.values()];
}

/** Needless deep cleans that are advised again on the next cast whose bottles are known. */
function outlived(casts: readonly WorldOutcome[]): number {
  return casts.filter((outcome, i) => {
    const next = casts.slice(i + 1).find(({ measured }) => measured);
    return isNeedless(outcome) && next !== undefined && isNeedless(next);
  }).length;
}

/** Runs of more than two casts on which a cell was left fouled and only a rinse was advised. */
function longRuns(casts: readonly WorldOutcome[]): number {
  let runs = 0;
  let length = 0;
  for (const outcome of casts) {
    length = isOnlyRinsed(outcome) ? length + 1 : 0;
    if (length === 3) runs++;
  }
  return runs;
}

function rms(values: readonly number[]): number {
  return Math.sqrt(sum(values.map((value) => value * value)) / values.length);
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

function percent(part: number, of: number): string {
  return of === 0 ? "-" : `${((100 * part) / of).toFixed(1)} %`;
}
