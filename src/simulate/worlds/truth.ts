// The truth of a simulated cruise, by cast and cell.
// Numbers without a source are judgement: the limits of the names.
import type { CellName } from "../../cast/cast.js";
import { spFromCFirstDerivatives } from "../../seawater/index.js";
import type { CellHistory } from "./gains.js";
import { hourOf, type PlannedCast } from "./plan.js";
import type { Troubles } from "./troubles.js";

/** Names of causes as in docs/method.md. */
type TrueCause =
  | "sound"
  | "fouling"
  | "transient"
  | "calibration-shift"
  | "offset"
  | "temperature-error"
  | "thermal-lag"
  | "flow"
  | "water"
  | "reference-error";

/** At the start of the down leg and at the end of the up leg. */
interface ByLeg {
  readonly down: number;
  readonly up: number;
}

interface WorldCellTruth {
  /** At atmospheric pressure, ppm: measured = true x (1 + ppm x 1e-6), offsets and pressure terms apart. */
  readonly gain_ppm: ByLeg;
  /** The film's part of it, ppm; 0 or below. */
  readonly film_ppm: ByLeg;
  /** Steps since the start of the cruise, at the end of the up leg. */
  readonly offset_uS_cm: number;
  readonly temperatureError_mK: number;
  /** The cause of the greatest error. */
  readonly cause: TrueCause;
  /** Every cause that counts as right, given the record up to this cast. */
  readonly causes: readonly TrueCause[];
  /** The film's loss exceeds the target at the end of the up leg. */
  readonly fouledBeyondTarget: boolean;
  /** It does, and a soak removes it. */
  readonly cleaningWouldMend: boolean;
  /** At any time of the cast, s since its first scan, ppm. */
  readonly gainAt: (time_s: number) => number;
  readonly filmAt: (time_s: number) => number;
}

export interface WorldCastTruth {
  readonly cast: string;
  /** State of the cast's samples. */
  readonly samples: "good" | "spoilt" | "copied";
  readonly cells: Readonly<Partial<Record<CellName, WorldCellTruth>>>;
}

/** Gain error that changes salinity by this much at SP 35, 15 degree C and 0 dbar, ppm. */
export function ppmOf(salinity: number): number {
  const c = 42.914;
  return (1e6 * salinity) / (spFromCFirstDerivatives(c, 15, 0).dSpDc * c);
}

/** Errors below the target need not be named; errors of at least half the target may be. */
export function cellTruth(
  cast: PlannedCast,
  index: number,
  cell: CellName,
  history: CellHistory,
  troubles: Troubles,
  target_ppm: number,
  measured: boolean,
): WorldCellTruth {
  const { journey, began_h } = cast;
  const down_h = hourOf(cast, journey.downFrom);
  const up_h = hourOf(cast, journey.wetTo - 1);
  const film = { down: history.film_ppm(down_h), up: history.film_ppm(up_h) };
  const filmAt = (time_s: number) => history.film_ppm(began_h + time_s / 3600);
  const peak = deepestFilm(filmAt, down_h, up_h, began_h);
  const kept = Math.max(-film.down, -film.up);
  const shift = Math.abs(history.shift_ppm(up_h));
  const offset_uS_cm = history.offset_uS_cm(up_h);
  const temperatureError_mK = history.thermometer_mK(up_h);
  const slow = troubles.slow.some((one) => one.cell === cell && one.what.fromCast <= index);
  const wrongSamples = measured && samplesOf(troubles, index) !== "good";
  const soakedInVain = troubles.soaks.some(
    ({ afterCast, left }) => afterCast < index && left > 0.5,
  );
  // Error by each cause in deep water, ppm.
  const errors: readonly (readonly [TrueCause, number])[] = [
    ["fouling", kept],
    ["transient", peak - kept],
    ["calibration-shift", shift],
    // Deep water conducts 33 mS/cm; 1 mK changes salinity by 0.001.
    ["offset", (Math.abs(offset_uS_cm) * 1e3) / 33],
    ["temperature-error", Math.abs(temperatureError_mK) * ppmOf(0.001)],
  ];
  const named = errors.filter(([, ppm]) => ppm >= target_ppm).sort((a, b) => b[1] - a[1]);
  const others: readonly TrueCause[] = [
    ...(wrongSamples ? (["reference-error"] as const) : []),
    ...(slow ? (["thermal-lag"] as const) : []),
    ...(troubles.otherWater.includes(index) ? (["water"] as const) : []),
  ];
  const causes = new Set<TrueCause>([...named.map(([cause]) => cause), ...others]);
  // A cell without a loss is sound, for any samples, sea and lag.
  if (named.length === 0) causes.add("sound");
  if (slow) causes.add("flow");
  for (const [cause, ppm] of errors) if (ppm >= target_ppm / 2) causes.add(cause);
  // A calibration residual, or a drifted clean gain, may be named, because it is in the data.
  const clean_ppm = history.gain_ppm(up_h) - film.up;
  if (Math.abs(clean_ppm) >= target_ppm / 2) causes.add("calibration-shift");
  // A lasting uniform loss is a film or a shift. Only a cleaning can tell them apart: a failed one suggests a shift.
  const lossForGood = history.shift_ppm(up_h) < 0;
  if (causes.has("calibration-shift") && lossForGood) causes.add("fouling");
  if (causes.has("fouling") && soakedInVain) causes.add("calibration-shift");
  const fouledBeyondTarget = -film.up > target_ppm;
  const vain = troubles.soaks.length > 0 && troubles.soaks.every(({ left }) => left > 0.5);
  return {
    gain_ppm: { down: history.gain_ppm(down_h), up: history.gain_ppm(up_h) },
    film_ppm: film,
    offset_uS_cm,
    temperatureError_mK,
    cause: named[0]?.[0] ?? others[0] ?? "sound",
    causes: [...causes],
    fouledBeyondTarget,
    cleaningWouldMend: fouledBeyondTarget && !vain,
    gainAt: (time_s) => history.gain_ppm(began_h + time_s / 3600),
    filmAt,
  };
}

export function samplesOf({ spoilt, copies }: Troubles, index: number): WorldCastTruth["samples"] {
  if (spoilt.some(({ cast }) => cast === index)) return "spoilt";
  return copies.some(({ to }) => to === index) ? "copied" : "good";
}

/** Greatest loss by the film between two times, ppm, positive. */
function deepestFilm(
  filmAt: (time_s: number) => number,
  from_h: number,
  to_h: number,
  began_h: number,
): number {
  let deepest = 0;
  for (let hour = from_h; hour < to_h; hour += 0.005) {
    deepest = Math.max(deepest, -filmAt((hour - began_h) * 3600));
  }
  return deepest;
}
