// Bottles of a station predicted without them: by the tracker's smoother, and by the usual way, one fit to a group of
// stations with iterated rejection beyond 2.8 standard deviations [McTaggartEtAl2010]. On open cruises, where at hand.
import { existsSync, readFileSync } from "node:fs";
import { parse } from "csv-parse/sync";
import type { Bottle } from "../../src/cast/bottle.js";
import type { Cruise } from "../../src/cast/cruise.js";
import { defaultRecovery } from "../../src/model/recovery.js";
import { readCruise } from "../../src/node/index.js";
import { cFromSp, spFromC } from "../../src/seawater/index.js";
import { mixtureMean } from "../../src/statistics/mixture.js";
import { median } from "../../src/statistics/robustCentre.js";
import { errorMixture, errorWeights } from "../../src/track/errorComponent.js";
import { smooth } from "../../src/track/smooth.js";
import { cruiseEvidence } from "../../src/verdict/gather/cruiseEvidence.js";
import { cellsOf } from "../../src/verdict/gather/knownCruise.js";
import { deep_dbar, isGood, type Residual, residualsOf } from "./deepResiduals.js";
import { stationGroupFit } from "./stationGroupFit.js";

const data = "../shared/data";
/** Stations in a group of the usual fit: the whole cruise, and as many as published groups often have. */
const groupSizes = [Number.POSITIVE_INFINITY, 20];
/** On long cruises every n-th station is left out at a time, so that each is predicted once in so many runs. */
const mostRuns = 8;

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
    "error of the deep residuals (500 dbar and below) of stations left out, ppm, both ways given deep bottles alone: median",
    "|error| of a bottle, and median and root-mean-square of a station's median; the rms without the worst twentieth",
    "",
    `${"".padEnd(52)}${"tracker".padStart(20)}${"one group".padStart(20)}${"groups of 20".padStart(20)}`,
  ];
  const all: Errors[] = [];
  for (const [file, read] of cruises) {
    if (!existsSync(`${data}/${file}`)) {
      lines.push(`${data}/${file}: not at hand, skipped`);
      continue;
    }
    for (const errors of errorsOf(file.split("/")[0]!, await read())) {
      lines.push(`${errors.label.padEnd(52)}${errors.byMethod.map(column).join("")}`);
      all.push(errors);
    }
  }
  if (all.length > 0) lines.push("", ...pooled(all));
  return lines.join("\n");
}

type Off = Residual & { readonly error: number };

/** Of one cell of a cruise: the tracker's, one group's, groups'. */
interface Errors {
  readonly label: string;
  readonly byMethod: readonly (readonly Off[])[];
}

function errorsOf(name: string, cruise: Cruise): readonly Errors[] {
  const cells = cellsOf(cruise);
  const bottles = cruise.bottles.filter((b) => isGood(b) && b.pressure_dbar >= deep_dbar);
  const casts = [...new Set(bottles.map(({ cast }) => cast))];
  const runs = Math.min(casts.length, mostRuns);
  const errors = cells.map(() => [[], [], []] as Off[][]);
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
        const error = smoothed.error(residual.cast, cell, "up");
        const predictions = [
          mixtureMean(errorMixture(error, errorWeights(residual.water))),
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
  return cells.map((cell, c) => ({
    label: `${name}, ${cell}, ${casts.length} stations`,
    byMethod: errors[c]!,
  }));
}

/** By what factor the tracker's errors are smaller: geometric means over all cells, the two of one cruise being alike. */
function pooled(all: readonly Errors[]): readonly string[] {
  return (["one group", "groups of 20"] as const).map((name, i) => {
    const ratios = ["of a bottle", "of a station's median", "rms"].map((of, k) => {
      const logs = all.map(({ byMethod }) => {
        const [own, other] = [figures(byMethod[0]!)[k]!, figures(byMethod[i + 1]!)[k]!];
        return Math.log(own / other);
      });
      const mean = logs.reduce((sum, log) => sum + log, 0) / logs.length;
      return `${of} ${Math.exp(mean).toFixed(2)}`;
    });
    return `tracker's errors over those of ${name}, geometric means: ${ratios.join(", ")}`;
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

/** Median |error| of a bottle; median and root-mean-square of a station's median, the worst twentieth left out of that. */
function figures(errors: readonly Off[]): readonly [number, number, number] {
  const stations = [...grouped(errors).values()].map((own) => median(own));
  const sorted = stations.map((value) => value * value).sort((a, b) => a - b);
  const kept = sorted.slice(0, Math.ceil(0.95 * sorted.length));
  const rms = Math.sqrt(kept.reduce((sum, value) => sum + value, 0) / kept.length);
  return [median(errors.map(({ error }) => Math.abs(error))), median(stations.map(Math.abs)), rms];
}

function column(errors: readonly Off[]): string {
  return figures(errors)
    .map((value) => value.toFixed(1).padStart(6))
    .join("")
    .padStart(20);
}

function grouped(errors: readonly Off[]) {
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
