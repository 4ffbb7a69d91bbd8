// A ship with two cells over three cruises, its true gains known: invented, from fixed seeds.
import { type CellRecord, cellHistory } from "../../src/history.js";
import { assessCruise, type CellName, type Cruise } from "../../src/index.js";
import { randomStream, simulateCruise } from "../../src/simulate/index.js";

const cells = ["primary", "secondary"] as const;

export interface ShipScenario {
  readonly seed: number;
  /** Days from the start of one cruise to the next. */
  readonly days: number;
  /** ppm per square root of a day, by which the clean gains move. */
  readonly walk: number;
  /** ppm a day, by which they drift. */
  readonly drift?: number;
  /** What a calibration before the last cruise, of which nobody wrote, did to the primary cell, ppm. */
  readonly recalibrated?: number;
  readonly casts?: number;
  /** A film that is in the primary cell all through these cruises, counted from 0. */
  readonly film?: { readonly ppm: number; readonly cruises: readonly number[] };
}

export interface ShipCruise {
  readonly cruise: Cruise;
  /** Clean gain, ppm, the same on all casts. */
  readonly clean: Readonly<Record<CellName, number>>;
  readonly pressure: Readonly<Record<CellName, number>>;
}

/** Day of a calibration that both files of a ship name. */
export const calibrated = "2020-12-01";
export const serialOf = (seed: number, cell: CellName) =>
  `${cell === "primary" ? "P" : "S"}-${seed}`;

export function shipOverYears({
  seed,
  days,
  walk,
  drift = 0,
  recalibrated,
  casts = 4,
  film,
}: ShipScenario): readonly ShipCruise[] {
  const stream = randomStream(seed).split("ship");
  const clean: Record<CellName, number> = { primary: 0, secondary: 0 };
  const pressure = { primary: 0, secondary: 0 };
  for (const cell of cells) {
    // Three in four are calibrated well: 0.002 is 51 ppm, two thirds of that are 2.3 standard deviations. The fourth is old.
    const own = stream.split(cell);
    clean[cell] = (own.uniform() < 0.25 ? 130 : 15) * own.normal();
    pressure[cell] = 5 * stream.split(`${cell} pressure`).normal();
  }
  return [0, 1, 2].map((year) => {
    if (year > 0)
      for (const cell of cells)
        clean[cell] +=
          walk * Math.sqrt(days) * stream.split(`${cell} ${year}`).normal() + drift * days;
    if (year === 2 && recalibrated !== undefined) clean.primary += recalibrated;
    const { cruise } = simulateCruise({
      seed: 10 * seed + year,
      name: `Cruise ${year + 1} of ship ${seed} (invented)`,
      casts,
      deepest_dbar: 2000,
      bottles: 10,
      calibrationResidual_ppm: { ...clean },
      events: [
        ...cells.map((cell) => ({
          kind: "pressure-response" as const,
          cell,
          ppmPer1000dbar: pressure[cell],
        })),
        ...(film?.cruises.includes(year)
          ? [
              {
                kind: "film-step" as const,
                cells: ["primary"] as const,
                cast: 1,
                at: "before-cast" as const,
                ppm: film.ppm,
              },
            ]
          : []),
      ],
    });
    const told = withSerials(later(cruise, year * days), seed);
    return { cruise: told, clean: { ...clean }, pressure };
  });
}

function later(cruise: Cruise, days: number): Cruise {
  const moved = <T extends { readonly start?: string }>(one: T): T =>
    one.start === undefined
      ? one
      : { ...one, start: new Date(Date.parse(one.start) + days * 86_400_000).toISOString() };
  const { nextStation: _, ...rest } = cruise;
  return {
    ...rest,
    casts: cruise.casts.map((cast) =>
      cast.data === undefined ? moved(cast) : { ...moved(cast), data: moved(cast.data) },
    ),
    maintenance: cruise.maintenance.map(({ time: _, ...event }) => event),
  };
}

function withSerials(cruise: Cruise, seed: number): Cruise {
  const line = (cell: CellName) => ({ cell: serialOf(seed, cell), cellCalibrated: calibrated });
  return {
    ...cruise,
    instrument: {
      ...cruise.instrument,
      sensors: { primary: line("primary"), secondary: line("secondary") },
    },
  };
}

/** The first casts, with their bottles. */
export function upTo(cruise: Cruise, count: number): Cruise {
  const casts = cruise.casts.slice(0, count);
  const ids = new Set(casts.map(({ id }) => id));
  return { ...cruise, casts, bottles: cruise.bottles.filter(({ cast }) => ids.has(cast)) };
}

/** The laboratory has measured none of its bottles yet. */
export function unmeasured(cruise: Cruise): Cruise {
  return {
    ...cruise,
    bottles: cruise.bottles.map(({ flag: _, run: __, ...drawn }) => ({
      ...drawn,
      salinity: Number.NaN,
    })),
  };
}

/** The third cruise of a ship, and the history that the first two left. */
export function thirdOf(scenario: ShipScenario) {
  const ship = shipOverYears(scenario);
  const history: CellRecord[] = [];
  for (const { cruise } of ship.slice(0, 2)) {
    history.push(...cellHistory(cruise, assessCruise(cruise, { history })));
  }
  return { ...ship[2]!, history };
}
