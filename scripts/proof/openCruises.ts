// Verdicts on open cruise data, where it is at hand: the flags of the originators against what was left out, and
// cruises with two uncalibrated cells.
import { existsSync } from "node:fs";
import { basename, dirname } from "node:path";
import type { Cruise } from "../../src/cast/cruise.js";
import { readCruise } from "../../src/node/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import type { VerdictDocument } from "../../src/verdict/verdict.js";

const data = "../shared/data";
const arctic = `${data}/arctic-2015/33HQ20150809_hy1.csv`;
const subpolar = ["ar7-01", "at30-01", "kn221-04"].map(
  (id) => `${data}/subpolar-atlantic-${id}/bottles.csv`,
);

export async function openCruisesReport(): Promise<string> {
  const parts: string[] = [];
  for (const path of [arctic, ...subpolar]) {
    if (!existsSync(path)) {
      parts.push(`${path}: not at hand, skipped`);
      continue;
    }
    const cruise = await readCruise(path);
    const began = performance.now();
    const document = assessCruise(cruise);
    const seconds = (performance.now() - began) / 1000;
    parts.push(cruiseLines(basename(dirname(path)), document, seconds));
    if (path === arctic) parts.push(flagLines(cruise));
  }
  return parts.join("\n\n");
}

function cruiseLines(name: string, document: VerdictDocument, seconds: number): string {
  const counts = new Map<string, number>();
  for (const { cells } of document.casts) {
    for (const { causes } of Object.values(cells)) {
      const name = causes[0]!.cause;
      counts.set(name, (counts.get(name) ?? 0) + 1);
    }
  }
  const last = document.casts.at(-1)!;
  return [
    `${name}: ${document.casts.length} casts, ${seconds.toFixed(1)} s; leading causes ` +
      [...counts].map(([name, n]) => `${name} ${n}`).join(", "),
    ...Object.entries(last.cells).map(([name, { gainError, causes }]) => {
      const { ppm, standardUncertainty } = gainError.up;
      const told = causes
        .slice(0, 2)
        .map((c) => `${c.cause} ${(100 * c.probability).toFixed(0)} %`);
      return `  last cast, ${name}: ${ppm.toFixed(0)} ± ${standardUncertainty.toFixed(0)} ppm, ${told.join(", ")}`;
    }),
  ].join("\n");
}

/** The originators' flags are taken away first, so that what is left out is left out by the data alone. */
function flagLines(cruise: Cruise): string {
  const unflagged = cruise.bottles.map(({ flag: _, bottleFlag: __, ...bottle }) => bottle);
  const document = assessCruise({ ...cruise, bottles: unflagged });
  const leftOut = new Set(
    document.casts.flatMap(({ cast, evidence }) =>
      evidence
        .filter(({ line }) => line === "bottles")
        .flatMap((e) => e.leftOut.map(({ what }) => `${cast} ${what}`)),
    ),
  );
  const compared = cruise.bottles.filter(
    ({ salinity, ctd }) => Number.isFinite(salinity) && ctd?.primary,
  );
  const isLeftOut = (bottle: (typeof compared)[number]) =>
    leftOut.has(
      `${bottle.cast} bottle ${bottle.bottle} at ${bottle.pressure_dbar.toFixed(0)} dbar`,
    );
  const bad = compared.filter(
    ({ flag, bottleFlag }) => [3, 4].includes(flag ?? 2) || [3, 4].includes(bottleFlag ?? 2),
  );
  const good = compared.filter((bottle) => !bad.includes(bottle));
  const count = (some: typeof compared) => `${some.filter(isLeftOut).length} of ${some.length}`;
  return (
    `  flags taken away: left out ${count(bad)} bottles that the originators flag questionable, bad, leaking or ` +
    `mis-tripped,\n  and ${count(good)} of those they hold good`
  );
}
