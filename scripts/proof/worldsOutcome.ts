// One invented cruise assessed: every cell of every cast, what was said beside what is true.
import type { CellName } from "../../src/cast/cast.js";
import { intensityNames } from "../../src/cast/maintenance.js";
import { assessCruise, type Cruise } from "../../src/index.js";
import { randomStream } from "../../src/simulate/random.js";
import { wholeBetween } from "../../src/simulate/worlds/draws.js";
import {
  type SimulatedWorld,
  simulateWorld,
  type WorldName,
} from "../../src/simulate/worlds/worlds.js";
import { maintenanceByCast } from "../../src/verdict/gather/maintenanceByCast.js";
import { yardsticks } from "./worldsYardstick.js";

/** One cell on one cast. Gains in ppm, at atmospheric pressure, as the up leg ended. */
export interface WorldOutcome {
  readonly world: WorldName;
  readonly seed: number;
  readonly cast: string;
  readonly cell: CellName;
  /** The cast's own salinities were known. */
  readonly measured: boolean;
  readonly true_ppm: number;
  readonly film_ppm: number;
  readonly said_ppm: number;
  readonly interval95: readonly [number, number];
  /** NaN where no bottle had been measured. */
  readonly ofCast_ppm: number;
  readonly ofLastFive_ppm: number;
  readonly causeSaid: string;
  readonly probability: number;
  readonly causeTrue: string;
  readonly causesRight: readonly string[];
  readonly samples: string;
  readonly intensity: string;
  readonly deepClean: boolean;
  readonly data: string;
  /** Fouled beyond the target, and after the cast the record has no cleaning stronger than a rinse. */
  readonly leftFouled: boolean;
  /** A deep clean would take off a film worth it, now or by the next cast. */
  readonly worthCleaning: boolean;
}

/** A film of less than this share of the target is not worth a deep clean, unless it passes the target on the next cast. */
const worthShare = 0.5;
/** The target of 0.002 in ppm of conductivity, at SP 35. */
const target_ppm = 51;

const strongerThanRinse: ReadonlySet<string> = new Set(intensityNames.slice(1));

/** Of one cruise. */
export interface WorldOutcomes {
  /** Every bottle measured by the time its cast came up. */
  readonly known: readonly WorldOutcome[];
  /** As on the day: some cast of the second half is the newest, and the newest one to three have no salinities yet. Those casts alone. */
  readonly onTheDay: readonly WorldOutcome[];
}

export function outcomesOfWorld(world: WorldName, seed: number): WorldOutcomes {
  const whole = simulateWorld(world, seed);
  const random = randomStream(seed).split("as on the day").split(world);
  const newestUnmeasured = wholeBetween(random, 1, 3);
  const until = wholeBetween(random, Math.ceil(whole.truth.length / 2), whole.truth.length);
  const early = upTo(whole.cruise, until, newestUnmeasured);
  const newest = newestUnmeasured * Object.keys(whole.truth[0]!.cells).length;
  return {
    known: outcomesOfCruise(world, seed, whole, whole.cruise),
    onTheDay: outcomesOfCruise(world, seed, whole, early).slice(-newest),
  };
}

/** The first casts of a cruise, with what was known when the last of them came up. */
function upTo(cruise: Cruise, count: number, newestUnmeasured: number): Cruise {
  const casts = cruise.casts.slice(0, count);
  const ids = new Set(casts.map(({ id }) => id));
  const unmeasured = new Set(casts.slice(-newestUnmeasured).map(({ id }) => id));
  return {
    ...cruise,
    casts,
    bottles: cruise.bottles.flatMap((bottle) => {
      if (!ids.has(bottle.cast)) return [];
      if (!unmeasured.has(bottle.cast)) return [bottle];
      const { flag: _, run: __, ...drawn } = bottle;
      return [{ ...drawn, salinity: Number.NaN }];
    }),
  };
}

function outcomesOfCruise(
  world: WorldName,
  seed: number,
  whole: SimulatedWorld,
  cruise: Cruise,
): readonly WorldOutcome[] {
  const { truth } = whole;
  const recorded = maintenanceByCast(whole.cruise);
  const document = assessCruise(cruise);
  const cells = Object.keys(truth[0]!.cells) as CellName[];
  const plain = cells.map((cell) => yardsticks(cruise, cell));
  return document.casts.flatMap((verdict, i) =>
    cells.map((cell, c): WorldOutcome => {
      const own = truth[i]!.cells[cell]!;
      const next = truth[i + 1]?.cells[cell] ?? own;
      const said = verdict.cells[cell]!;
      const [leading] = said.causes;
      const isCleaned = (recorded.get(verdict.cast) ?? []).some(
        (entry) => strongerThanRinse.has(entry.action) && (entry.cell ?? cell) === cell,
      );
      return {
        world,
        seed,
        cast: verdict.cast,
        cell,
        measured: cruise.bottles.some(
          ({ cast, salinity }) => cast === verdict.cast && Number.isFinite(salinity),
        ),
        true_ppm: own.gain_ppm.up,
        film_ppm: own.film_ppm.up,
        said_ppm: said.gainError.up.ppm,
        interval95: [said.gainError.up.interval95[0], said.gainError.up.interval95[1]],
        ofCast_ppm: plain[c]!.ofCast[i]!,
        ofLastFive_ppm: plain[c]!.ofLastFive[i]!,
        causeSaid: leading!.cause,
        probability: leading!.probability,
        causeTrue: own.cause,
        causesRight: own.causes,
        samples: truth[i]!.samples,
        intensity: said.advice.intensity,
        deepClean: said.advice.deepClean,
        data: verdict.data,
        leftFouled: own.fouledBeyondTarget && !isCleaned,
        worthCleaning: -own.film_ppm.up > worthShare * target_ppm || -next.film_ppm.up > target_ppm,
      };
    }),
  );
}
