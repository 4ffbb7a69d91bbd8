// Statements of a verdict on the sensors: the response of each cell, and faults of the readings.
import type { CellName } from "../../cast/cast.js";
import type { LagParts } from "../../response/lag/thermalLagOnCast.js";
import type { ResponseChange } from "../../response/responseChanges.js";
import type { ResponseSeen, Verdict } from "../verdict.js";
import type { CellResponse } from "./cellResponse.js";
import type { CastEvidence } from "./observeCast.js";

export function sensorsSeen({
  responses,
  health,
}: CastEvidence): Pick<Verdict, "response" | "health"> {
  const response: Partial<Record<CellName, ResponseSeen>> = {};
  for (const [cell, cellResponse] of Object.entries(responses) as [CellName, CellResponse][]) {
    const seen = responseSeen(cellResponse);
    if (seen !== undefined) response[cell] = seen;
  }
  const findings = health?.findings ?? [];
  return {
    ...(Object.keys(response).length === 0 ? {} : { response }),
    ...(findings.length === 0 ? {} : { health: findings }),
  };
}

function responseSeen({
  response: { alignment, thermalLag },
  changes,
}: CellResponse): ResponseSeen | undefined {
  if (alignment === undefined && thermalLag === undefined) return undefined;
  return {
    ...(alignment === undefined
      ? {}
      : {
          alignment: {
            seconds: alignment.seconds,
            standardUncertainty: alignment.standardUncertainty,
            ...comparedWithUsual(changes, "alignment"),
          },
        }),
    ...(thermalLag === undefined
      ? {}
      : {
          thermalLag: {
            timesUsual: thermalLag.timesUsual,
            standardUncertainty: thermalLag.timesUsualUncertainty,
            ...partsOf(thermalLag.parts),
            ...comparedWithUsual(changes, "thermal-lag"),
          },
        }),
    changes: changes.filter(({ differs }) => differs).map(({ sentence }) => sentence),
  };
}

function partsOf(parts: LagParts | undefined) {
  if (parts === undefined) return {};
  const { alpha, tau_s, standardUncertainty } = parts;
  return {
    alpha,
    alphaStandardUncertainty: standardUncertainty.alpha,
    tau_s,
    tauStandardUncertainty_s: standardUncertainty.tau_s,
  };
}

function comparedWithUsual(changes: CellResponse["changes"], which: ResponseChange["of"]) {
  const change = changes.find(({ of }) => of === which);
  return change === undefined ? {} : { usual: change.usual.value, differs: change.differs };
}
