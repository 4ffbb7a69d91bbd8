// The truth for every cell on every cast of a scenario: the cell's own calibration, its film, and its causes, by their
// names.
import type { CellName, LegName } from "../cast/cast.js";
import type { CellTruth, FilmWithin } from "./cellTruth.js";
import { completed } from "./completed.js";
import type { PlaceInCast } from "./events.js";
import { type CompleteScenario, castId, type Scenario } from "./scenario.js";
import { trueCauses } from "./trueCauses.js";

export interface CastTruth {
  readonly id: string;
  readonly cells: Readonly<Partial<Record<CellName, CellTruth>>>;
}

/** One for each cast, in order. */
export type Truth = readonly CastTruth[];

/**
 * The truth about every cast of a scenario.
 * @throws RangeError if the scenario is impossible
 */
export function truthOf(scenario: Scenario): Truth {
  const complete = completed(scenario);
  const histories = complete.cells.map((cell) => [cell, historyOf(complete, cell)] as const);
  return Array.from({ length: complete.casts }, (_, i) => ({
    id: castId(i + 1),
    cells: Object.fromEntries(histories.map(([cell, history]) => [cell, history[i]!])),
  }));
}

/** The gain of a cell at a place of a cast, ppm: measured conductivity = true x (1 + gain x 1e-6). */
export function gainAt(truth: CellTruth, leg: LegName, pressure_dbar: number): number {
  return (
    truth.cleanGain_ppm +
    (truth.pressureResponse * pressure_dbar) / 1000 +
    filmAt(truth, leg, pressure_dbar)
  );
}

/** The film in a cell when the package passes a place, ppm. */
export function filmAt(
  truth: Pick<CellTruth, "film" | "within" | "deepest_dbar">,
  leg: LegName,
  pressure_dbar: number,
): number {
  let film = truth.film.down;
  for (const { at, ppm, recovery_dbar } of truth.within) {
    const since = pathBetween(at, { leg, pressure_dbar }, truth.deepest_dbar);
    if (since < 0) continue;
    film += recovery_dbar === undefined ? ppm : ppm * Math.exp(-since / recovery_dbar);
  }
  return film;
}

/** Path from one place of a cast to another, dbar; negative if the package passes it earlier. */
function pathBetween(from: PlaceInCast, to: PlaceInCast, deepest_dbar: number): number {
  const path = ({ leg, pressure_dbar }: PlaceInCast) =>
    leg === "down" ? pressure_dbar : 2 * deepest_dbar - pressure_dbar;
  return path(to) - path(from);
}

function historyOf(scenario: CompleteScenario, cell: CellName): readonly CellTruth[] {
  const { events, deepest_dbar } = scenario;
  const days = scenario.hoursBetweenCasts / 24;
  let cleanGain = scenario.calibrationResidual_ppm[cell];
  let temperatureError = 0;
  let additiveOffset = 0;
  let film = 0;
  return Array.from({ length: scenario.casts }, (_, i) => {
    const cast = i + 1;
    const within: FilmWithin[] = [];
    film *= retainedAfter(scenario, cell, cast - 1);
    for (const event of events) {
      if (event.kind === "film-growth" && event.cell === cell && cast > 1) {
        const { fromCast, untilCast = cast } = event;
        if (cast >= fromCast && cast <= untilCast) film += event.ppmPerDay * days;
      }
      if (event.kind === "shed" && event.cast === cast && event.cells.includes(cell)) {
        film *= event.retained;
      }
    }
    for (const event of events) {
      if (event.kind === "calibration-shift" && event.cell === cell && event.fromCast === cast) {
        cleanGain += event.ppm;
      }
      if (event.kind === "temperature-error" && event.cell === cell && event.fromCast === cast) {
        temperatureError += event.mK;
      }
      if (event.kind === "additive-offset" && event.cell === cell && event.fromCast === cast) {
        additiveOffset += event.microsiemens_cm;
      }
      if (event.kind !== "film-step" && event.kind !== "transient") continue;
      if (event.cast !== cast || !event.cells.includes(cell)) continue;
      if (event.at === "before-cast") film += event.ppm;
      else if (event.kind === "film-step") within.push({ at: event.at, ppm: event.ppm });
      else {
        within.push({ at: event.at, ppm: event.ppm, recovery_dbar: event.recovery_dbar });
      }
    }
    within.sort((a, b) => pathBetween(b.at, a.at, deepest_dbar));
    const pressureResponse = sumOf(events, (event) =>
      event.kind === "pressure-response" && event.cell === cell ? event.ppmPer1000dbar : 0,
    );
    const down = film;
    const up = filmAt({ film: { down, up: down }, within, deepest_dbar }, "up", 0);
    film += sumOf(within, ({ ppm, recovery_dbar }) => (recovery_dbar === undefined ? ppm : 0));
    const known = {
      cleanGain_ppm: cleanGain,
      pressureResponse,
      additiveOffset_microsiemens_cm: additiveOffset,
      temperatureError_mK: temperatureError,
      film: { down, up },
      gain: { down: cleanGain + down, up: cleanGain + up },
      within,
      ...(within[0] === undefined ? {} : { onset: within[0].at }),
      deepest_dbar,
    };
    const causes = trueCauses(scenario, cell, cast, known);
    return { ...known, causes, cause: causes[0]! };
  });
}

function retainedAfter({ events }: CompleteScenario, cell: CellName, cast: number): number {
  return events.reduce((share, event) => {
    const ours =
      event.kind === "cleaning" &&
      event.afterCast === cast &&
      (event.cells === undefined || event.cells.includes(cell));
    return ours ? share * event.retained : share;
  }, 1);
}

function sumOf<Item>(items: readonly Item[], value: (item: Item) => number): number {
  return items.reduce((sum, item) => sum + value(item), 0);
}
