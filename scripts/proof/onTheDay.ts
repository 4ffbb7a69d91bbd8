// Open cruises as on the day: each cast is assessed before its salinities are measured, and again when they are. What the
// verdict said is compared with the median of the deep residuals of that cast's own bottles.
import { existsSync } from "node:fs";
import { basename, dirname } from "node:path";
import type { CellName } from "../../src/cast/cast.js";
import type { Cruise } from "../../src/cast/cruise.js";
import { readCruise } from "../../src/node/index.js";
import { median } from "../../src/statistics/robustCentre.js";
import { cellsOf } from "../../src/verdict/gather/knownCruise.js";
import { addBottles, addCast, openCruise } from "../../src/verdict/incremental/openCruise.js";
import type { Verdict } from "../../src/verdict/verdict.js";
import { deep_dbar, isGood, residualsOf } from "./deepResiduals.js";

const data = "../shared/data";
const files = [
  ...["ar7-01", "at30-01", "kn221-04"].map((id) => `subpolar-atlantic-${id}/bottles.csv`),
  "arctic-2015/33HQ20150809_hy1.csv",
];
/** A median of fewer deep bottles is no reference. */
const fewest = 3;

export async function onTheDayReport(): Promise<string> {
  const lines = [
    "gain as said of each cast, less the median of its own deep residuals (500 dbar and below), root-mean-square in ppm:",
    "before its bottles are measured, the median of the five casts before it, and once they are measured",
    "",
    `${"".padEnd(46)}${["casts", "before", "five before", "measured"].map((head) => head.padStart(13)).join("")}`,
  ];
  for (const file of files) {
    const path = `${data}/${file}`;
    if (existsSync(path)) lines.push(...linesOf(basename(dirname(path)), await readCruise(path)));
    else lines.push(`${path}: not at hand, skipped`);
  }
  return lines.join("\n");
}

interface Said {
  readonly own: number;
  readonly before: number;
  readonly lastFive: number;
  readonly measured: number;
}

function linesOf(name: string, cruise: Cruise): readonly string[] {
  const cells = cellsOf(cruise);
  const said = new Map(cells.map((cell) => [cell, [] as Said[]]));
  const earlier = new Map(cells.map((cell) => [cell, [] as number[]]));
  const { instrument, target } = cruise;
  let state = openCruise({ name, instrument, target });
  for (const cast of cruise.casts) {
    const bottles = cruise.bottles.filter((bottle) => bottle.cast === cast.id);
    const unmeasured = bottles.map((bottle) => ({ ...bottle, salinity: Number.NaN }));
    const before = addCast(state, cast, { bottles: unmeasured });
    const measured = addBottles(before.state, bottles);
    state = measured.state;
    const deep = bottles.filter((b) => isGood(b) && b.pressure_dbar >= deep_dbar);
    for (const cell of cells) {
      const residuals = residualsOf(deep, cell);
      if (residuals.length < fewest) continue;
      const own = median(residuals.map(({ value }) => value));
      const past = earlier.get(cell)!;
      if (past.length > 0) {
        const gain = (verdict: Verdict | undefined) => gainOf(verdict, cell);
        said.get(cell)!.push({
          own,
          before: gain(before.verdict),
          lastFive: median(past.slice(-5)),
          measured: gain(measured.verdict),
        });
      }
      past.push(own);
    }
  }
  return cells.map((cell) => {
    const all = said.get(cell)!;
    const rms = (of: (one: Said) => number) =>
      Math.sqrt(all.reduce((sum, one) => sum + (of(one) - one.own) ** 2, 0) / all.length);
    const values = [
      `${all.length}`,
      rms(({ before }) => before).toFixed(1),
      rms(({ lastFive }) => lastFive).toFixed(1),
      rms(({ measured }) => measured).toFixed(1),
    ];
    return `${`${name}, ${cell}`.padEnd(46)}${values.map((value) => value.padStart(13)).join("")}`;
  });
}

function gainOf(verdict: Verdict | undefined, cell: CellName): number {
  return verdict?.cells[cell]?.gainError.up.ppm ?? Number.NaN;
}
