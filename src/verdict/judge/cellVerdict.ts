// The verdict on one cell, from the hypotheses after a cast.
import type { CellName } from "../../cast/cast.js";
import { causeNamed } from "../../causes/index.js";
import type { Advice } from "../../cleaning/decision/advice.js";
import type { UnreadSensor } from "../../health/castHealth.js";
import type { CauseEstimates, EarlierCast } from "../../model/causeEstimates.js";
import { estimate, moments } from "../../model/estimate.js";
import type { EvidenceSummary } from "../../model/evidenceSummary.js";
import type { GrowthTime } from "../../model/filmGrowth.js";
import type { Layout } from "../../model/layout.js";
import { salinityError, standardWater, type Water, waterRead } from "../../model/salinityError.js";
import { type Mixture, mixtureBeyond } from "../../statistics/mixture.js";
import { type CellView, cellView } from "../../track/cellView.js";
import { forecastGain } from "../../track/forecast.js";
import type { TrackedCast } from "../../track/tracked.js";
import type { CellResponse } from "../gather/cellResponse.js";
import type { CauseProbability, CellVerdict, Forecast } from "../verdict.js";
import { changeOf } from "./change.js";
import { contradicts, type LineResidual } from "./contradictions.js";
import { dataQuality, worstQuality } from "./dataQuality.js";
import { noInformationSentence, undeterminedForSound, unreadQuality } from "./unread.js";

/** The verdict on one cell without the advice. */
export interface CellContext {
  readonly layout: Layout;
  readonly cell: CellName;
  readonly tracked: TrackedCast;
  /** Summaries of this cast, of lines that observe this cell and of others. */
  readonly evidence: readonly EvidenceSummary[];
  /** In order of time. */
  readonly earlier: readonly EarlierCast[];
  /** Whether this cell was ever observed. */
  readonly everObserved: boolean;
  readonly target: number;
  readonly target_ppm: number;
  readonly hoursToNext: number;
  /** Time of this cast in the water, taken for that of the next; 0 if unknown. */
  readonly inWater_days: number;
  readonly water?: Water;
  /** Serial number of the cell on this cast, if known. */
  readonly serial?: string;
  /** The response of the cell on this cast; absent without scans. */
  readonly response?: CellResponse;
  /** A sensor of this cell that gives no information. */
  readonly unread?: UnreadSensor;
}

/** @param residuals of the lines that see the gain of this cell */
export function cellVerdict(
  context: CellContext,
  advice: Advice,
  residuals: readonly LineResidual[],
): CellVerdict {
  const { layout, cell, tracked, target_ppm, water } = context;
  const view = cellView(layout, tracked.hypotheses, cell);
  const now = cellView(layout, tracked.afterMaintenance, cell);
  const up = estimate(view.gain("up"));
  const inSitu = water && inSituError(view, water);
  const pressure = moments(view.pressureResponse());
  const contradictions = residuals.filter(
    ({ standardised }) => Math.abs(standardised) > contradicts,
  );
  return {
    ...(context.serial === undefined ? {} : { serial: context.serial }),
    gainError: { down: estimate(view.gain("down")), up, now: estimate(now.gain("up")) },
    cleanGain: estimate(view.cleanGain()),
    pressureResponse: {
      ppmPer1000dbar: pressure.value,
      standardUncertainty: pressure.standardUncertainty,
    },
    salinityError: {
      at35: salinityError(up.ppm),
      standardUncertainty: Math.abs(salinityError(up.standardUncertainty)),
      ...(inSitu ?? {}),
    },
    ...besideTheGain(context, view),
    change: changeOf(view),
    causes: causesOf(context, view),
    forecast: forecastOf(context),
    advice,
    data: worstQuality([
      dataQuality(errorsOf(view, water), target_ppm, context.everObserved),
      ...(context.unread === undefined ? [] : [unreadQuality(context.unread)]),
      ...(contradictions.length > 0 ? (["questionable"] as const) : []),
    ]),
    ...(contradictions.length > 0 ? { contradictions } : {}),
  };
}

/** Smallest probability at which a thermometer error is reported (judgement). */
const worthTelling = 0.1;

/** Thermometer and offset, if there is evidence on them. */
function besideTheGain(
  { cell, evidence }: CellContext,
  view: CellView,
): Pick<CellVerdict, "temperatureError" | "additiveOffset"> {
  const off = view.probabilityOf(
    ({ onsetByCause }) => onsetByCause?.["temperature-error"] !== undefined,
  );
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

/** The total error of the reading, at the surface and in the deepest water, on both legs. */
function errorsOf(view: CellView, water: Water | undefined): readonly Mixture[] {
  const waters = [standardWater, ...(water === undefined ? [] : [water])].map(waterRead);
  return waters.flatMap((one) => (["down", "up"] as const).map((leg) => view.errorIn(leg, one)));
}

/**
 * The effect of gain, pressure response, offset and thermometer together on salinity in the deepest water, at the start of
 * the up leg.
 */
function inSituError(view: CellView, water: Water) {
  const { ppm, standardUncertainty } = estimate(view.errorIn("up", waterRead(water)));
  return {
    inSitu: salinityError(ppm, water),
    inSituStandardUncertainty: Math.abs(salinityError(standardUncertainty, water)),
  };
}

/** Causes with their probabilities and sentences, most probable first. */
function causesOf(
  context: CellContext,
  view: CellView = cellView(context.layout, context.tracked.hypotheses, context.cell),
): readonly CauseProbability[] {
  if (!context.everObserved) {
    const sentence = causeNamed("undetermined").sentence({
      ...grounds(context, view),
      evidence: [],
    });
    const because = context.unread === undefined ? sentence : noInformationSentence(context.unread);
    return [{ cause: "undetermined", probability: 1, because }];
  }
  const causes = [...view.causes()].map(([cause, probability]) => ({
    cause,
    probability,
    because: causeNamed(cause).sentence(grounds(context, view.given(cause) ?? view)),
  }));
  return context.unread === undefined ? causes : undeterminedForSound(causes, context.unread);
}

/** The numbers of a view, for its sentences. */
function grounds(
  { cell, evidence, earlier, target, response }: CellContext,
  view: CellView,
): CauseEstimates {
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
    earlier,
    ...(response === undefined ? {} : { signs: response.signs }),
  };
}

/** Time until the next cast for the growth of a film. */
export function timeToNext({ hoursToNext, inWater_days }: CellContext): GrowthTime {
  return { days: hoursToNext / 24, inWater_days };
}

function forecastOf(context: CellContext): Forecast {
  const { layout, tracked, cell, hoursToNext, target_ppm } = context;
  const { afterMaintenance, noise } = tracked;
  const gain = forecastGain(layout, afterMaintenance, cell, timeToNext(context), noise);
  return {
    hours: hoursToNext,
    gainError: estimate(gain),
    probabilityBeyondTarget: mixtureBeyond(gain, target_ppm),
  };
}
