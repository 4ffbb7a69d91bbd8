// Casts for the deep-water tests: simulated cruises, and two open ones where their data are at hand.

import { existsSync, readdirSync, readFileSync } from "node:fs";
import { group } from "d3-array";
import type { Cast } from "../../../src/cast/cast.js";
import type { DeepReference } from "../../../src/cast/deepReference.js";
import { splitLegs } from "../../../src/cast/splitLegs.js";
import {
  type DeepWaterMemory,
  type DeepWaterOfCast,
  deepWaterEvidence,
  noDeepWaterYet,
} from "../../../src/evidence/deepWater/deepWater.js";
import { gainTerms } from "../../../src/model/observation.js";
import { readExchangeCast } from "../../../src/read/exchangeCast.js";
import { cFromSp } from "../../../src/seawater/index.js";
import { type Scenario, simulateCruise } from "../../../src/simulate/index.js";

export const bothCells = ["primary", "secondary"] as const;

/** Evidence cast by cast, each given what the casts before left. */
export function alongTrack(
  casts: readonly Cast[],
  cells: readonly ("primary" | "secondary")[] = bothCells,
  reference?: DeepReference,
): readonly DeepWaterOfCast[] {
  let memory: DeepWaterMemory = noDeepWaterYet;
  return casts.map((cast) => {
    const found = deepWaterEvidence(cast, splitLegs(cast), cells, memory, reference);
    memory = found.memory;
    return found;
  });
}

export function castsOf(scenario: Scenario): readonly Cast[] {
  return simulateCruise(scenario).cruise.casts.map(({ data }) => data!);
}

/** The observation of a cell on a leg. */
export function seenBy({ lines }: DeepWaterOfCast, cell: "primary" | "secondary", leg = "down") {
  return lines
    .find((line) => line.cell === cell)
    ?.observations.find((one) => gainTerms(one)[0]!.gain.leg === leg);
}

const indian = "../shared/data/indian-southeast-2015/deep.csv";
export const indianIsThere = existsSync(indian);

/** Down legs of 45 casts below 1000 dbar, in order of time. */
export function indianCasts(): readonly Cast[] {
  const rows = readFileSync(indian, "utf8").trim().split("\n").slice(1);
  const byCast = group(
    rows.map((row) => row.split(",")),
    ([station, cast]) => `${station}/${cast}`,
  );
  return [...byCast].map(([id, own]) => {
    const column = (at: number) =>
      Float64Array.from(own, (row) => (row[at] === "" ? Number.NaN : Number(row[at])));
    const [pressure_dbar, temperature_C, salinity] = [column(6), column(7), column(8)];
    const conductivity_mS_cm = pressure_dbar.map((p, i) =>
      cFromSp(salinity[i]!, temperature_C[i]!, p),
    );
    return {
      id,
      latitude: Number(own[0]![4]),
      longitude: Number(own[0]![5]),
      conductivityFrom: "salinity",
      columns: { pressure_dbar, primary: { temperature_C, conductivity_mS_cm }, others: {} },
    };
  });
}

const arctic = "../shared/data/arctic-2015";
export const arcticIsThere = existsSync(arctic);

export function arcticCasts(): readonly Cast[] {
  return readdirSync(arctic)
    .filter((name) => name.endsWith("_ct1.csv"))
    .sort()
    .map(
      (file) =>
        readExchangeCast(readFileSync(`${arctic}/${file}`, "utf8"), { file, id: file }).cast,
    );
}
