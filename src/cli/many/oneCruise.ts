// The work of a worker: input is the name of a cruise, output its line.
import { workerData } from "node:worker_threads";
import type { CellRecord } from "../../history/cellRecord.js";
import { type ReadCruiseOptions, readCruise } from "../../node/index.js";
import { BadInput } from "../../read/badInput.js";
import { assessCruise } from "../../verdict/assessCruise.js";
import type { AssessmentSettings } from "../../verdict/assessmentSettings.js";
import type { ManyLine } from "./manyLine.js";

/** The same for all cruises. */
export interface OfAll {
  readonly options: Omit<ReadCruiseOptions, "onFile">;
  readonly settings: Omit<AssessmentSettings, "onCast" | "history">;
  readonly history: readonly CellRecord[];
}

const { options, settings, history } = workerData as OfAll;

export default async function oneCruise(name: string): Promise<string> {
  return JSON.stringify(await lineOf(name));
}

async function lineOf(name: string): Promise<ManyLine> {
  try {
    const cruise = await readCruise(name, options);
    return { name, document: assessCruise(cruise, { ...settings, history }) };
  } catch (error) {
    // A cruise that cannot be assessed does not stop the others.
    if (error instanceof BadInput) return { name, faults: error.faults };
    return { name, error: String(error) };
  }
}
