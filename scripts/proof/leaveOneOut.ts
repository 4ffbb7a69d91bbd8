// Bottles of a station predicted without them: by the tracker's smoother, and by the usual way, one fit to a group of
// stations with iterated rejection beyond 2.8 standard deviations [McTaggartEtAl2010]. On open cruises, where at hand.
import { existsSync, readFileSync } from "node:fs";
import { parse } from "csv-parse/sync";
import type { Bottle } from "../../src/cast/bottle.js";
import type { CellName } from "../../src/cast/cast.js";
import type { Cruise } from "../../src/cast/cruise.js";
import { defaultRecovery } from "../../src/cleaning/recovery.js";
import { closureReading } from "../../src/evidence/closureReadings.js";
import { readCruise } from "../../src/node/index.js";
import { cFromSp, spFromC } from "../../src/seawater/index.js";
import { mixtureMean } from "../../src/statistics/mixture.js";
import { median } from "../../src/statistics/robustCentre.js";
import { smooth } from "../../src/track/smooth.js";
import { cellsOf, cruiseEvidence } from "../../src/verdict/cruiseEvidence.js";
import { stationGroupFit } from "./stationGroupFit.js";

const data = "../shared/data";
/** Bottles above are thrown by gradients, whatever is said of the cell. */
const deep_dbar = 500;
/** Stations in a group of the usual fit: the whole cruise, and as many as published groups often have. */
const groupSizes = [Number.POSITIVE_INFINITY, 20];
/** On long cruises every n-th station is left out at a time, so that each is predicted once in so many runs. */
const mostRuns = 8;

interface Residual {
  readonly cast: string;
  readonly pressure: number;
  /** ln of the CTD's over the bottle's conductivity, ppm. */
  readonly value: number;
}

export async function leaveOneOutReport(): Promise<string> {
  const cruises: (readonly [string, () => Promise<Cruise>])[] = [
    ...["ar7-01", "at30-01", "kn221-04"].map(
      (id) =>
        [
          `subpolar-atlantic-${id}/bottles.csv`,
          () => readCruise(`${data}/subpolar-atlantic-${id}/bottles.csv`),
        ] as const,
    ),
    ["north-pacific-west-2022/residuals.csv", async () => northPacific()],
    [
      "arctic-2015/33HQ20150809_hy1.csv",
      () => readCruise(`${data}/arctic-2015/33HQ20150809_hy1.csv`),
    ],
  ];
  const lines = [
    "error of the deep residuals (500 dbar and below) of stations left out, ppm: median |error| of a bottle, and",
    "median and root-mean-square of a station's median; the rms without the worst twentieth",
    "",
    `${"".padEnd(52)}${"tracker".padStart(20)}${"one group".padStart(20)}${"groups of 20".padStart(20)}`,
  ];
  for (const [file, read] of cruises) {
    if (!existsSync(`${data}/${file}`)) {
      lines.push(`${data}/${file}: not at hand, skipped`);
      continue;
    }
    lines.push(...(await cruiseLines(file.split("/")[0]!, await read())));
  }
  return lines.join("\n");
}

async function cruiseLines(name: string, cruise: Cruise): Promise<readonly string[]> {
  const cells = cellsOf(cruise);
  const bottles = cruise.bottles.filter(isGood);
  const casts = [...new Set(bottles.map(({ cast }) => cast))];
  const runs = Math.min(casts.length, mostRuns);
  const errors = cells.map(() => [[], [], []] as (Residual & { error: number })[][]);
  for (let run = 0; run < runs; run++) {
    const out = new Set(casts.filter((_, i) => i % runs === run));
    const without: Cruise = {
      ...cruise,
      bottles: bottles.map((bottle) =>
        out.has(bottle.cast) ? { ...bottle, salinity: Number.NaN } : bottle,
      ),
    };
    const inputs = [...cruiseEvidence(without)].map(({ tracked }) => tracked);
    const smoothed = smooth(cells, inputs, defaultRecovery, out);
    for (const [c, cell] of cells.entries()) {
      const residuals = residualsOf(bottles, cell);
      const kept = residuals.filter(({ cast }) => !out.has(cast));
      for (const residual of residuals.filter(({ cast }) => out.has(cast))) {
        const [surface, at1000] = (["surface", "at 1000 dbar"] as const).map((depth) =>
          mixtureMean(smoothed.gain(residual.cast, cell, "up", depth)),
        ) as [number, number];
        const predictions = [
          surface + ((at1000 - surface) * residual.pressure) / 1000,
          ...groupSizes.map((size) => {
            const near = neighbours(casts, residual.cast, size);
            return stationGroupFit(kept.filter(({ cast }) => near.has(cast)))(residual.pressure);
          }),
        ];
        predictions.forEach((prediction, method) => {
          errors[c]![method]!.push({ ...residual, error: residual.value - prediction });
        });
      }
    }
  }
  return cells.flatMap((cell, c) => {
    const label = `${name}, ${cell}, ${casts.length} stations`;
    return [`${label.padEnd(52)}${errors[c]!.map((e) => figures(e).padStart(20)).join("")}`];
  });
}

function isGood({ flag, bottleFlag, salinity }: Bottle): boolean {
  const bad = [3, 4].includes(flag ?? 2) || [3, 4].includes(bottleFlag ?? 2);
  return !bad && Number.isFinite(salinity);
}

function residualsOf(bottles: readonly Bottle[], cell: CellName): readonly Residual[] {
  return bottles.flatMap((bottle) => {
    const reading = closureReading(bottle, cell, undefined);
    if (reading === undefined || bottle.pressure_dbar < deep_dbar) return [];
    const reference = cFromSp(bottle.salinity, reading.temperature_C, bottle.pressure_dbar);
    const value = 1e6 * Math.log(reading.conductivity_mS_cm / reference);
    return Number.isFinite(value)
      ? [{ cast: bottle.cast, pressure: bottle.pressure_dbar, value }]
      : [];
  });
}

/** The stations of a group about one, itself included. */
function neighbours(casts: readonly string[], cast: string, size: number): ReadonlySet<string> {
  if (size >= casts.length) return new Set(casts);
  const from = Math.max(
    0,
    Math.min(casts.length - size, casts.indexOf(cast) - Math.floor(size / 2)),
  );
  return new Set(casts.slice(from, from + size));
}

function figures(errors: readonly (Residual & { readonly error: number })[]): string {
  const stations = [...grouped(errors).values()].map((own) => median(own));
  const sorted = stations.map((value) => value * value).sort((a, b) => a - b);
  const kept = sorted.slice(0, Math.ceil(0.95 * sorted.length));
  const rms = Math.sqrt(kept.reduce((sum, value) => sum + value, 0) / kept.length);
  return [median(errors.map(({ error }) => Math.abs(error))), median(stations.map(Math.abs)), rms]
    .map((value) => value.toFixed(1).padStart(6))
    .join("");
}

function grouped(errors: readonly (Residual & { readonly error: number })[]) {
  const groups = new Map<string, number[]>();
  for (const { cast, error } of errors) {
    const group = groups.get(cast);
    if (group === undefined) groups.set(cast, [error]);
    else group.push(error);
  }
  return groups;
}

/**
 * The published residuals of both cells, before adjustment, as closures in water of one salinity and temperature: only the
 * differences of conductivity are published, and they are what counts.
 */
function northPacific(): Cruise {
  const text = readFileSync(`${data}/north-pacific-west-2022/residuals.csv`, "utf8");
  const rows = parse(text, { columns: true }) as Record<string, string>[];
  const water = { salinity: 34.65, temperature_C: 2 };
  const bottles = rows.flatMap((row, i): readonly Bottle[] => {
    const pressure_dbar = Number(row.pressure_dbar);
    const off = row.bottle_minus_c1_unadjusted_mS_cm;
    const between = row.c1_minus_c2_unadjusted_mS_cm;
    if (pressure_dbar < deep_dbar || !off || !between) return [];
    const c1 = cFromSp(water.salinity, water.temperature_C, pressure_dbar);
    const reading = (c: number) => ({ temperature_C: water.temperature_C, conductivity_mS_cm: c });
    return [
      {
        cast: row.station!.padStart(3, "0"),
        bottle: String(i),
        pressure_dbar,
        salinity: spFromC(c1 + Number(off), water.temperature_C, pressure_dbar),
        ctd: { primary: reading(c1), secondary: reading(c1 - Number(between)) },
      },
    ];
  });
  const casts = [...new Set(bottles.map(({ cast }) => cast))].map((id) => ({ id }));
  return {
    name: "north-pacific-west-2022",
    casts,
    bottles,
    maintenance: [],
    instrument: {},
    target: 0.002,
    inputs: [],
  };
}
