// The response of each cell on a cast: delay, lag and noise, compared with the casts before.
import type { ByCell, Cast, CellName } from "../../cast/cast.js";
import type { Legs } from "../../cast/splitLegs.js";
import type { WithinCast } from "../../evidence/path/withinCast.js";
import type { CastHealth } from "../../health/castHealth.js";
import type { ResponseSigns } from "../../model/responseSigns.js";
import type { CellLagFit } from "../../response/lag/cellLag.js";
import { type ResponseChange, responseChanges } from "../../response/responseChanges.js";
import { type SensorResponse, sensorResponse } from "../../response/sensorResponse.js";
import { type MeasuredSigns, signsOfResponse } from "./signsOfResponse.js";

export interface CellResponse {
  readonly response: SensorResponse;
  /** Changes relative to the casts before. */
  readonly changes: readonly ResponseChange[];
  readonly measured: MeasuredSigns;
  readonly signs: ResponseSigns;
}

/** Relative uncertainty of the noise estimate of one cast (judgement). */
const noiseKnownTo = 0.1;

/** The part that needs only the scans of this cast. */
export type MeasuredResponse = Pick<CellResponse, "response" | "measured">;
export type PriorResponse = ByCell<MeasuredSigns>;

export function measureResponses(
  cast: Cast,
  legs: Legs,
  cells: readonly CellName[],
  within: WithinCast,
  health: CastHealth,
): ByCell<MeasuredResponse> {
  const responses: Partial<Record<CellName, MeasuredResponse>> = {};
  for (const cell of cells) {
    if (cast.columns[cell] === undefined) continue;
    const lag = within.compared[cell]?.found.lag;
    const response = sensorResponse(cast, legs, cell, lag);
    const noise = health.cells[cell]?.conductivityNoise_mS_cm ?? Number.NaN;
    responses[cell] = { response, measured: measuredOf(response, lag, noise) };
  }
  return responses;
}

/**
 * @param before responses on the casts before, in order
 * @param prior usual response of the cells on earlier cruises; it counts as one cast before
 */
export function compareWithEarlier(
  own: ByCell<MeasuredResponse>,
  before: readonly ByCell<MeasuredResponse>[],
  prior: PriorResponse = {},
): ByCell<CellResponse> {
  const responses = Object.entries(own).map(([name, { response, measured }]) => {
    const cell = name as CellName;
    const earlier = before.flatMap((responses) => responses[cell] ?? []);
    const onEarlierCruise = prior[cell] === undefined ? [] : [prior[cell]];
    const changes = responseChanges(
      earlier.map((response) => response.response),
      response,
    );
    const signs = signsOfResponse(
      [...onEarlierCruise, ...earlier.map((response) => response.measured)],
      measured,
    );
    return [name, { response, changes, measured, signs }];
  });
  return Object.fromEntries(responses);
}

function measuredOf(
  { alignment }: SensorResponse,
  lag: CellLagFit | undefined,
  noise: number,
): MeasuredSigns {
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
