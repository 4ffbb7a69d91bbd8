// How each cell answered on a cast: delay, lag, noise, beside how it answered on the casts before.
import type { Cast, CellName } from "../../cast/cast.js";
import type { Legs } from "../../cast/splitLegs.js";
import type { WithinCast } from "../../evidence/path/withinCast.js";
import type { CastHealth } from "../../health/castHealth.js";
import type { ResponseSigns } from "../../model/responseSigns.js";
import { type ResponseChange, responseChanges } from "../../response/acrossCruise.js";
import type { CellLagFit } from "../../response/lag/cellLag.js";
import { type SensorResponse, sensorResponse } from "../../response/sensorResponse.js";
import { type Measured, signsOfResponse } from "./signsOfResponse.js";

export interface Answer {
  readonly response: SensorResponse;
  /** Against the casts before. */
  readonly changes: readonly ResponseChange[];
  readonly measured: Measured;
  readonly signs: ResponseSigns;
}

/** By cell. */
export type CarriedResponse = Readonly<Partial<Record<CellName, Measured>>>;

const measuredIn = ({ measured }: Answer) => measured;

/** A noise that is told from so many scans is told to about this, as a share (judgement). */
const noiseKnownTo = 0.1;

/**
 * @param carried how the cells usually answered on an earlier cruise: it counts as one cast before
 * @returns by cell; nothing without scans
 */
export function answersOf(
  cast: Cast | undefined,
  legs: Legs | undefined,
  cells: readonly CellName[],
  within: WithinCast | undefined,
  health: CastHealth | undefined,
  before: ReadonlyMap<CellName, readonly Answer[]>,
  carried: CarriedResponse = {},
): Readonly<Partial<Record<CellName, Answer>>> {
  const answers: Partial<Record<CellName, Answer>> = {};
  if (cast === undefined || legs === undefined) return answers;
  for (const cell of cells) {
    if (cast.columns[cell] === undefined) continue;
    const earlier = before.get(cell) ?? [];
    const lag = within?.compared[cell]?.found.lag;
    const response = sensorResponse(cast, legs, cell, lag);
    const noise = health?.cells[cell]?.conductivityNoise_mS_cm ?? Number.NaN;
    const measured = measuredOf(response, lag, noise);
    answers[cell] = {
      response,
      changes: responseChanges(
        earlier.map((answer) => answer.response),
        response,
      ),
      measured,
      signs: signsOfResponse(
        [...(carried[cell] === undefined ? [] : [carried[cell]]), ...earlier.map(measuredIn)],
        measured,
      ),
    };
  }
  return answers;
}

function measuredOf(
  { alignment }: SensorResponse,
  lag: CellLagFit | undefined,
  noise: number,
): Measured {
  return {
    ...(lag === undefined
      ? {}
      : { lag: { value: lag.timesUsual, standardUncertainty: lag.timesUsualUncertainty } }),
    ...(alignment === undefined
      ? {}
      : {
          delay: {
            value: alignment.seconds,
            standardUncertainty: alignment.standardUncertainty,
          },
        }),
    ...(noise > 0 ? { noise: { value: Math.log(noise), standardUncertainty: noiseKnownTo } } : {}),
  };
}
