// Films that came within a cast: whether the verdict of that very cast tells it, and where it places them, as the cast comes
// up and its bottles are still to be measured, and once they are.
import type { CellName } from "../../src/cast/cast.js";
import type { Cruise } from "../../src/cast/cruise.js";
import type { PlaceOnCast } from "../../src/model/placesOnCast.js";
import {
  type CellTruth,
  randomScenario,
  type Scenario,
  simulateCruise,
} from "../../src/simulate/index.js";
import { assessCast } from "../../src/verdict/assessCruise.js";
import { firstFreshSeed } from "./freshSeeds.js";

/** Steps of this size and more, ppm. */
const least_ppm = 100;
/** A cell with less of a film than this is clean, ppm: a layer upon an older film keeps that film's beginning. */
const clean_ppm = 25;
/** Bottles are measured a day or more later: so many of the newest casts have none. */
const unmeasured = 3;

/** One film that came within a cast, into a cell that was clean. */
interface Arrival {
  readonly cells: number;
  readonly true: PlaceOnCast;
  /** Where the verdict places it; undefined where it does not hold that something came within this cast and stayed. */
  readonly asItComesUp: PlaceOnCast | undefined;
  readonly withBottles: PlaceOnCast | undefined;
}

/** How many are told and placed, by the number of cells and by where they came, as text. */
export function onsetsReport(cruises: number, onCruise: (done: number) => void): string {
  const arrivals: Arrival[] = [];
  for (let i = 0; i < cruises; i++) {
    arrivals.push(...arrivalsOf(randomScenario(firstFreshSeed + i)));
    onCruise(i + 1);
  }
  const edges_dbar = [0, 60, 120, 200, 400, Number.POSITIVE_INFINITY];
  const rows = [1, 2].flatMap((cells) =>
    edges_dbar.slice(1).map((below, i) => {
      const above = edges_dbar[i]!;
      const some = arrivals.filter(
        ({ cells: own, true: { pressure_dbar } }) =>
          own === cells && pressure_dbar >= above && pressure_dbar < below,
      );
      const where = Number.isFinite(below) ? `${above} to ${below} dbar` : `below ${above} dbar`;
      return row(`  ${cells} cell${cells > 1 ? "s" : ""}, ${where}`, some);
    }),
  );
  return [
    `${cruises} cruises (seeds ${firstFreshSeed} to ${firstFreshSeed + cruises - 1}), averages of 10 dbar`,
    `films of ${least_ppm} ppm and more that came within a cast, in the verdict of that cast: told to have; of these on the`,
    "right leg; and within 20 dbar",
    "",
    `${"".padEnd(28)}${`bottles of ${unmeasured} casts unmeasured`.padEnd(35)}all measured`,
    ...rows,
    row("  all", arrivals),
  ].join("\n");
}

function arrivalsOf(scenario: Scenario): readonly Arrival[] {
  const comes = (scenario.events ?? []).some(
    (event) => event.kind === "film-step" && event.at !== "before-cast" && event.ppm <= -least_ppm,
  );
  if (!comes) return [];
  const { cruise, truth } = simulateCruise(scenario);
  return truth.flatMap(({ cells }, i): readonly Arrival[] => {
    const names = Object.keys(cells) as CellName[];
    const fouled = names.filter((cell) => cameIn(cells[cell]!));
    if (fouled.length === 0) return [];
    const casts = cruise.casts.slice(0, i + 1);
    const ofCasts = new Set(casts.map(({ id }) => id));
    const waiting = new Set(casts.slice(-unmeasured).map(({ id }) => id));
    const all = cruise.bottles.filter(({ cast }) => ofCasts.has(cast));
    const measured = all.filter(({ cast }) => !waiting.has(cast));
    const asItComesUp = places({ ...cruise, casts, bottles: measured });
    const withBottles = places({ ...cruise, casts, bottles: all });
    return fouled.map((cell) => ({
      cells: names.length,
      true: cells[cell]!.onset!,
      asItComesUp: asItComesUp(cell),
      withBottles: withBottles(cell),
    }));
  });
}

function cameIn({ onset, film }: CellTruth): boolean {
  return onset !== undefined && film.down > -clean_ppm && film.down - film.up >= least_ppm;
}

/** Where the newest verdict of a cruise holds that something came within the cast and stayed. */
function places(cruise: Cruise): (cell: CellName) => PlaceOnCast | undefined {
  const newest = cruise.casts.at(-1)!.id;
  const verdict = assessCast(cruise, newest);
  return (cell) => {
    const { sinceCast, when, leg, pressure_dbar } = verdict.cells[cell]!.change;
    if (sinceCast !== newest || when !== "within") return undefined;
    return leg === undefined || pressure_dbar === undefined ? undefined : { leg, pressure_dbar };
  };
}

function row(name: string, some: readonly Arrival[]): string {
  const figures = (["asItComesUp", "withBottles"] as const).map((state) => {
    const told = some.flatMap((one) => {
      const said = one[state];
      return said === undefined ? [] : [{ true: one.true, said }];
    });
    const leg = told.filter((one) => one.said.leg === one.true.leg);
    const near = told.filter(
      (one) => Math.abs(one.said.pressure_dbar - one.true.pressure_dbar) <= 20,
    );
    return `${told.length} of ${some.length}; ${leg.length}; ${near.length}`;
  });
  return `${name.padEnd(28)}${figures[0]!.padEnd(35)}${figures[1]!}`;
}
