// Cruises for the figures and the report: the demonstration cruise, and invented ones from bottles alone.
import type { Bottle } from "../../src/cast/bottle.js";
import type { Cruise } from "../../src/cast/cruise.js";
import { figureData } from "../../src/figures/figureData.js";
import { readCruise } from "../../src/node/index.js";
import { cFromSp } from "../../src/seawater/index.js";
import { assessCruise } from "../../src/verdict/assessCruise.js";
import { deviates } from "../track/observations.js";

export async function demoCruise() {
  return assessed(await readCruise("fixtures/demo-cruise"));
}

let short: ReturnType<typeof shortened> | undefined;

/** Its casts 008 to 010: the film comes within the first of them, and a bottle of the last closed elsewhere. */
export function shortDemoCruise() {
  short ??= shortened();
  return short;
}

async function shortened() {
  const cruise = await readCruise("fixtures/demo-cruise");
  const within = (id: string | undefined) => id !== undefined && id >= "008" && id <= "010";
  return assessed({
    ...cruise,
    casts: cruise.casts.filter(({ id }) => within(id)),
    bottles: cruise.bottles.filter(({ cast }) => within(cast)),
    maintenance: cruise.maintenance.filter(({ afterCast }) => within(afterCast)),
  });
}

export function assessed(cruise: Cruise) {
  const document = assessCruise(cruise);
  return { cruise, document, data: figureData(cruise, document) };
}

/** Names for `bottleCruise`. */
export interface Names {
  readonly cruise: string;
  readonly note: string;
  readonly cast: (index: number) => string;
  readonly bottle: (index: number) => string;
}

export const plainNames: Names = {
  cruise: "Invented",
  note: "Invented for a test.",
  cast: (i) => String(i + 1).padStart(3, "0"),
  bottle: (i) => String(i + 1),
};

/** Two cells beside bottles of known salinity, the primary drifting by a ppm a cast; one stray bottle in the first. */
export function bottleCruise(casts: number, bottlesOfCast: number, names = plainNames): Cruise {
  const normal = deviates(7);
  const bottles = Array.from({ length: casts * bottlesOfCast }, (_, i): Bottle => {
    const [cast, k] = [Math.floor(i / bottlesOfCast), i % bottlesOfCast];
    const pressure_dbar = 50 + (4000 * k) / bottlesOfCast;
    const [temperature_C, salinity] = [12 - 10 * (k / bottlesOfCast), 35 + 0.001 * normal()];
    const read = (ppm: number) => ({
      temperature_C,
      conductivity_mS_cm: cFromSp(35, temperature_C, pressure_dbar) * (1 + ppm * 1e-6),
    });
    return {
      cast: names.cast(cast),
      bottle: names.bottle(k),
      pressure_dbar,
      salinity: i === 2 ? 35.4 : salinity,
      ctd: { primary: read(-cast + 3 * normal()), secondary: read(8 + 3 * normal()) },
    };
  });
  return {
    name: names.cruise,
    note: names.note,
    casts: Array.from({ length: casts }, (_, i) => ({
      id: names.cast(i),
      start: new Date(Date.UTC(2031, 0, 1, 6 * i)).toISOString(),
    })),
    bottles,
    maintenance: [],
    instrument: {},
    target: 0.002,
    inputs: [
      {
        name: names.note,
        role: "bottles",
        sha256: "0".repeat(64),
        rows: bottles.length,
        leftOut: [{ line: 2, why: names.note }],
        notes: [names.note],
      },
    ],
  };
}

/** Text that would run, style or close something if it reached a page as it is. */
export const hostile: Names = {
  cruise: `"><script>alert(1)</script>`,
  note: `</style></svg></title><img src=x onerror=alert(1)> & ' " \u202e\u0007`,
  cast: (i) => `${i}'"><svg onload=alert(2)>`,
  bottle: (i) => `${i}]]><![CDATA[<script>alert(3)</script>`,
};
