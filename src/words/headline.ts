// The answer for a cast: whether each cell is clean, what to do, and whose salinity to use.
import type { CellName } from "../cast/cast.js";
import { causeNamed } from "../causes/index.js";
import { capitalised } from "../causes/sentences.js";
import { cellWords, leastToCall } from "../cleaning/decision/wording.js";
import type { CellVerdict, DataQuality, Verdict } from "../verdict/verdict.js";
import { leading } from "./words.js";

export interface CellHeadline {
  readonly cell: CellName;
  /** Absent if unknown. */
  readonly serial?: string;
  /** Whether the cell has a film; "open" if that is unknown. */
  readonly clean: "clean" | "not clean" | "open";
  /** The same in words: a cell without a film that another cause may affect is not called clean. */
  readonly state: string;
  /** "fouling, 97 %". */
  readonly cause: string;
  readonly data: DataQuality;
}

interface Headline {
  readonly cells: readonly CellHeadline[];
  /** "Disinfect the primary cell, 75 minutes". */
  readonly toDo: string;
  /** A sentence: whose salinity, and how. */
  readonly salinity: string;
}

export function headlineOf(verdict: Verdict): Headline {
  const { advice, cells } = verdict;
  const all = Object.entries(cells) as [CellName, CellVerdict][];
  const which = all.length === 1 ? "the cell" : cellWords(advice.cells);
  return {
    cells: all.map(([cell, of]) => ({
      cell,
      ...(of.serial === undefined ? {} : { serial: of.serial }),
      clean: cleanness(of),
      state: stateOf(of),
      cause: leading(of),
      data: of.data,
    })),
    toDo: `${capitalised(advice.intensity)} ${which}, ${advice.minutes.toFixed(0)} minutes`,
    salinity: salinityToUse(verdict),
  };
}

function cleanness({ causes }: CellVerdict): CellHeadline["clean"] {
  const film = causes.reduce(
    (sum, { cause, probability }) =>
      causeNamed(cause).removedByCleaning ? sum + probability : sum,
    0,
  );
  if (causes[0]?.cause === "undetermined") return "open";
  if (film >= leastToCall) return "not clean";
  return film <= 1 - leastToCall ? "clean" : "open";
}

function stateOf(cell: CellVerdict): string {
  const clean = cleanness(cell);
  const cause = cell.causes[0]?.cause;
  if (clean !== "clean" || cause === "sound") return clean;
  return cause === "calibration-shift" ? "no film, but off by a constant factor" : "no film";
}

const order: readonly DataQuality[] = ["sound", "usable-after-correction", "questionable", "bad"];

/** The cell with the better data; for equal quality the one with the better known gain. */
function salinityToUse({ cells, health = [] }: Verdict): string {
  const all = Object.entries(cells) as [CellName, CellVerdict][];
  const best = all.toSorted(
    ([, a], [, b]) =>
      order.indexOf(a.data) - order.indexOf(b.data) ||
      a.salinityError.standardUncertainty - b.salinityError.standardUncertainty,
  )[0];
  if (best === undefined) return "No cell was read.";
  const [name, { data }] = best;
  const whose = all.length === 1 ? "the salinity" : `the salinity of the ${name} cell`;
  const sentences = {
    sound: `Use ${whose} as it is.`,
    "usable-after-correction": `Use ${whose} with the gain error removed.`,
    questionable: `Use ${whose} only once bottles have settled its gain.`,
    bad: "Use no salinity of this cast.",
  } as const satisfies Record<DataQuality, string>;
  return health.some(({ serious }) => serious)
    ? `${sentences[data]} Do not use part of the cast: see the evidence.`
    : sentences[data];
}
