// From the hypotheses held after a cast to what is said of one cell.
import type { CellName } from "../../cast/cast.js";
import type { Advice } from "../../cleaning/decision/advice.js";
import type { CauseName } from "../../model/causeNames.js";
import { causeOf, type Hypothesis } from "../../model/hypothesis.js";
import { cellIndex, gainRow, type Layout } from "../../model/state.js";
import { cellStory } from "../../model/story.js";
import { type Mixture, mixtureBeyond } from "../../statistics/mixture.js";
import { forecastGain } from "../../track/forecast.js";
import type { TrackedCast } from "../../track/track.js";
import type { Answer } from "../gather/answer.js";
import { salinityError, type Water } from "../salinityError.js";
import type {
  CauseProbability,
  CellVerdict,
  DataQuality,
  Estimate,
  EvidenceSummary,
  Forecast,
} from "../verdict.js";
import { because, type Grounds } from "./because.js";
import { changeOf } from "./change.js";
import { estimate, mixtureOf } from "./estimate.js";

/** Everything that is said of one cell but the advice. */
export interface CellContext {
  readonly layout: Layout;
  readonly cell: CellName;
  readonly tracked: TrackedCast;
  readonly evidence: readonly EvidenceSummary[];
  /** Casts up to this one. */
  readonly castsSeen: number;
  /** Whether anything at all was ever observed of this cell. */
  readonly everObserved: boolean;
  readonly target: number;
  readonly target_ppm: number;
  readonly hoursToNext: number;
  readonly water?: Water;
  /** How the cell answered on this cast; absent without scans. */
  readonly answer?: Answer;
}

export function cellVerdict(context: CellContext, advice: Advice): CellVerdict {
  const { layout, cell, tracked, target_ppm, hoursToNext, water } = context;
  const { hypotheses, now } = tracked;
  const gains = (["down", "up"] as const).map((leg) =>
    mixtureOf(hypotheses, gainRow(layout, cell, leg)),
  ) as [Mixture, Mixture];
  const up = estimate(gains[1]);
  const pressure = slotEstimate(layout, hypotheses, cell, "pressure");
  return {
    gainError: {
      down: estimate(gains[0]),
      up,
      now: estimate(mixtureOf(now, gainRow(layout, cell, "up"))),
    },
    cleanGain: slotEstimate(layout, hypotheses, cell, "clean"),
    pressureResponse: {
      ppmPer1000dbar: pressure.ppm,
      standardUncertainty: pressure.standardUncertainty,
    },
    salinityError: {
      at35: salinityError(up.ppm),
      standardUncertainty: Math.abs(salinityError(up.standardUncertainty)),
      ...(water === undefined ? {} : { inSitu: inSituError(up, pressure, water) }),
    },
    ...besideTheGain(context),
    change: changeOf(layout, hypotheses, cell),
    causes: causesOf(context),
    forecast: forecastOf(layout, tracked, cell, hoursToNext, target_ppm),
    advice,
    data: dataQuality(gains, target_ppm, context.everObserved),
  };
}

/** Thermometer and offset, where anything speaks of them. */
function besideTheGain({
  layout,
  cell,
  tracked: { hypotheses },
  evidence,
}: CellContext): Pick<CellVerdict, "temperatureError" | "additiveOffset"> {
  const off = hypotheses.filter(({ story }) => cellStory(story, cell).thermometerOff !== undefined);
  const thermometer = slotEstimate(layout, hypotheses, cell, "thermometer");
  const additive = slotEstimate(layout, hypotheses, cell, "additive");
  const readInAir = evidence.some((line) => line.line === "air-zero" && line.cell === cell);
  return {
    ...(weightOf(off) < worthTelling
      ? {}
      : {
          temperatureError: inMillikelvin(thermometer),
        }),
    ...(readInAir
      ? {
          additiveOffset: {
            microsiemens_cm: additive.ppm,
            standardUncertainty: additive.standardUncertainty,
          },
        }
      : {}),
  };
}

/** The slot of a thermometer holds mK. */
function inMillikelvin({ ppm, standardUncertainty }: Estimate) {
  return { millikelvin: ppm, standardUncertainty };
}

/** A thermometer that is off is told of from this probability. */
const worthTelling = 0.1;

function inSituError(up: Estimate, pressure: Estimate, water: Water): number {
  return salinityError(up.ppm + (pressure.ppm * water.pressure_dbar) / 1000, water);
}

export function slotEstimate(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  cell: CellName,
  slot: Parameters<typeof cellIndex>[2],
): Estimate {
  const row = new Float64Array(layout.size);
  row[cellIndex(layout, cell, slot)] = 1;
  return estimate(mixtureOf(hypotheses, row));
}

/** Causes with their probabilities and sentences, most probable first. */
export function causesOf(context: CellContext): readonly CauseProbability[] {
  const { layout, cell, tracked, everObserved } = context;
  if (!everObserved) {
    return [
      {
        cause: "undetermined",
        probability: 1,
        because: because("undetermined", grounds(context, [])),
      },
    ];
  }
  const groups = byCause(layout, tracked.hypotheses, cell);
  return [...groups]
    .map(([cause, members]) => ({
      cause,
      probability: Math.min(1, weightOf(members)),
      because: because(cause, grounds(context, members)),
    }))
    .sort((a, b) => b.probability - a.probability);
}

export function byCause(
  layout: Layout,
  hypotheses: readonly Hypothesis[],
  cell: CellName,
): ReadonlyMap<CauseName, readonly Hypothesis[]> {
  const groups = new Map<CauseName, Hypothesis[]>();
  for (const hypothesis of hypotheses) {
    const cause = causeOf(layout, hypothesis, cell);
    const members = groups.get(cause);
    if (members === undefined) groups.set(cause, [hypothesis]);
    else members.push(hypothesis);
  }
  return groups;
}

function weightOf(members: readonly Hypothesis[]): number {
  return members.reduce((sum, { logWeight }) => sum + Math.exp(logWeight), 0);
}

/** The numbers of those hypotheses that give one cause. */
function grounds(context: CellContext, members: readonly Hypothesis[]): Grounds {
  const { layout, cell, evidence, castsSeen, target } = context;
  const held = members.length > 0 ? members : context.tracked.hypotheses;
  const total = Math.log(weightOf(held));
  const alone = held.map((h) => ({ ...h, logWeight: h.logWeight - total }));
  const pressure = slotEstimate(layout, alone, cell, "pressure");
  return {
    up: estimate(mixtureOf(alone, gainRow(layout, cell, "up"))),
    cleanGain: slotEstimate(layout, alone, cell, "clean"),
    film: slotEstimate(layout, alone, cell, "filmUp"),
    pressure: {
      ppmPer1000dbar: pressure.ppm,
      standardUncertainty: pressure.standardUncertainty,
    },
    change: changeOf(layout, alone, cell),
    evidence: evidence.filter((summary) => summary.cell === cell || summary.cell === "both"),
    target,
    castsSeen,
    thermometer: inMillikelvin(slotEstimate(layout, alone, cell, "thermometer")),
    ...(context.answer === undefined ? {} : { answer: context.answer }),
  };
}

function forecastOf(
  layout: Layout,
  { now, noise }: TrackedCast,
  cell: CellName,
  hours: number,
  target_ppm: number,
): Forecast {
  const gain = forecastGain(layout, now, cell, hours / 24, noise);
  return {
    hours,
    gainError: estimate(gain),
    probabilityBeyondTarget: mixtureBeyond(gain, target_ppm),
  };
}

/** A gain error this large is no longer one number, parts of a million: 1 % of conductivity. */
const hopeless_ppm = 10_000;

/**
 * What the salinity of the cast is worth: within the target as it is, within it once the gain error is
 * taken out, neither, or beyond mending.
 */
function dataQuality(
  gains: readonly [Mixture, Mixture],
  target_ppm: number,
  everObserved: boolean,
): DataQuality {
  if (!everObserved) return "questionable";
  const worst = Math.max(...gains.map((gain) => mixtureBeyond(gain, target_ppm)));
  if (worst < 0.1) return "sound";
  const estimates = gains.map((gain) => estimate(gain));
  if (estimates.some(({ ppm }) => Math.abs(ppm) > hopeless_ppm)) return "bad";
  // Half the width of the 95 % interval is what a corrected salinity may still be off by.
  const left = Math.max(...estimates.map(({ interval95: [low, high] }) => (high - low) / 2));
  return left <= target_ppm ? "usable-after-correction" : "questionable";
}
