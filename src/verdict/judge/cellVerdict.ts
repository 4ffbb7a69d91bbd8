// From the hypotheses held after a cast to what is said of one cell.
import type { CellName } from "../../cast/cast.js";
import { causeNamed } from "../../causes/index.js";
import type { Advice } from "../../cleaning/decision/advice.js";
import { type Estimate, estimate, moments } from "../../model/estimate.js";
import type { EvidenceSummary, Grounds } from "../../model/grounds.js";
import type { Layout } from "../../model/layout.js";
import { salinityError, type Water } from "../../model/salinityError.js";
import { mixtureBeyond } from "../../statistics/mixture.js";
import { type CellView, cellView } from "../../track/cellView.js";
import { forecastGain } from "../../track/forecast.js";
import type { TrackedCast } from "../../track/tracked.js";
import type { Answer } from "../gather/answer.js";
import type { CauseProbability, CellVerdict, Forecast } from "../verdict.js";
import { changeOf } from "./change.js";
import { dataQuality } from "./dataQuality.js";

/** Everything that is said of one cell but the advice. */
export interface CellContext {
  readonly layout: Layout;
  readonly cell: CellName;
  readonly tracked: TrackedCast;
  /** Of this cast, lines that speak of this cell and of others. */
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
  const { layout, cell, tracked, target_ppm, water } = context;
  const view = cellView(layout, tracked.hypotheses, cell);
  const now = cellView(layout, tracked.now, cell);
  const gains = [view.gain("down"), view.gain("up")] as const;
  const up = estimate(gains[1]);
  const pressure = moments(view.pressureResponse());
  return {
    gainError: { down: estimate(gains[0]), up, now: estimate(now.gain("up")) },
    cleanGain: estimate(view.cleanGain()),
    pressureResponse: {
      ppmPer1000dbar: pressure.value,
      standardUncertainty: pressure.standardUncertainty,
    },
    salinityError: {
      at35: salinityError(up.ppm),
      standardUncertainty: Math.abs(salinityError(up.standardUncertainty)),
      ...(water === undefined ? {} : { inSitu: inSituError(up, pressure.value, water) }),
    },
    ...besideTheGain(context, view),
    change: changeOf(view),
    causes: causesOf(context, view),
    forecast: forecastOf(context),
    advice,
    data: dataQuality(gains, target_ppm, context.everObserved),
  };
}

/** A thermometer that is off is told of from this probability (judgement). */
const worthTelling = 0.1;

/** Thermometer and offset, where anything speaks of them. */
function besideTheGain(
  { cell, evidence }: CellContext,
  view: CellView,
): Pick<CellVerdict, "temperatureError" | "additiveOffset"> {
  const off = view.probabilityOf(({ events }) => events?.["temperature-error"] !== undefined);
  const thermometer = moments(view.thermometer());
  const offset = moments(view.offset());
  const readInAir = evidence.some((line) => line.line === "air-zero" && line.cell === cell);
  return {
    ...(off < worthTelling
      ? {}
      : {
          temperatureError: {
            millikelvin: thermometer.value,
            standardUncertainty: thermometer.standardUncertainty,
          },
        }),
    ...(readInAir
      ? {
          additiveOffset: {
            microsiemens_cm: offset.value,
            standardUncertainty: offset.standardUncertainty,
          },
        }
      : {}),
  };
}

function inSituError(up: Estimate, perThousandDbar: number, water: Water): number {
  return salinityError(up.ppm + (perThousandDbar * water.pressure_dbar) / 1000, water);
}

/** Causes with their probabilities and sentences, most probable first. */
export function causesOf(
  context: CellContext,
  view: CellView = cellView(context.layout, context.tracked.hypotheses, context.cell),
): readonly CauseProbability[] {
  if (!context.everObserved) {
    const sentence = causeNamed("undetermined").sentence({
      ...grounds(context, view),
      evidence: [],
    });
    return [{ cause: "undetermined", probability: 1, because: sentence }];
  }
  return [...view.causes()].map(([cause, probability]) => ({
    cause,
    probability,
    because: causeNamed(cause).sentence(grounds(context, view.given(cause) ?? view)),
  }));
}

/** The numbers of a view. */
function grounds(
  { cell, evidence, castsSeen, target, answer }: CellContext,
  view: CellView,
): Grounds {
  return {
    cell,
    up: estimate(view.gain("up")),
    cleanGain: estimate(view.cleanGain()),
    film: estimate(view.film()),
    pressure: moments(view.pressureResponse()),
    thermometer: moments(view.thermometer()),
    offset: moments(view.offset()),
    change: changeOf(view),
    evidence: evidence.filter((summary) => summary.cell === cell || summary.cell === "both"),
    target,
    castsSeen,
    ...(answer === undefined ? {} : { signs: answer.signs }),
  };
}

function forecastOf({ layout, tracked, cell, hoursToNext, target_ppm }: CellContext): Forecast {
  const { now, noise } = tracked;
  const gain = forecastGain(layout, now, cell, hoursToNext / 24, noise);
  return {
    hours: hoursToNext,
    gainError: estimate(gain),
    probabilityBeyondTarget: mixtureBeyond(gain, target_ppm),
  };
}
