// Alignment and thermal lag of both cells, cast by cast, as texts of a table; for the page and the log.
import type { CellName } from "../cast/cast.js";
import type { ResponseSeen, Verdict } from "../verdict/verdict.js";

export interface ResponseTable {
  readonly cells: readonly { readonly cell: CellName; readonly titles: readonly string[] }[];
  readonly rows: readonly ResponseRow[];
}

export interface ResponseRow {
  readonly cast: string;
  /** As many as the titles of all cells; empty if unknown on the cast. */
  readonly words: readonly string[];
  /** Comparison with the casts before: "no change"; empty if there are too few. */
  readonly beside: string;
  readonly differs: boolean;
}

/** Explanation of the columns, in a sentence. */
export const responseTableSays =
  "Delay of conductivity after temperature, thermal lag in times the usual, and its time constant, ± standard uncertainty";

/** The text of one column for one cell. */
interface Column {
  readonly title: string;
  readonly of: (seen: ResponseSeen) => string;
}

const columns: readonly Column[] = [
  {
    title: "delay, ms",
    of: ({ alignment }) =>
      alignment === undefined
        ? ""
        : `${signless(1e3 * alignment.seconds, 0)} \u00b1 ${(1e3 * alignment.standardUncertainty).toFixed(0)}`,
  },
  {
    title: "lag, times usual",
    of: ({ thermalLag }) =>
      thermalLag === undefined
        ? ""
        : `${signless(thermalLag.timesUsual, 2)} \u00b1 ${thermalLag.standardUncertainty.toFixed(2)}`,
  },
  {
    title: "time of lag, s",
    of: ({ thermalLag: { tau_s, tauStandardUncertainty_s: u } = {} }) =>
      tau_s === undefined || u === undefined ? "" : `${tau_s.toFixed(1)} \u00b1 ${u.toFixed(1)}`,
  },
];

/** A number that rounds to zero has no sign. */
function signless(value: number, digits: number): string {
  const words = value.toFixed(digits);
  return Number(words) === 0 ? (0).toFixed(digits) : words;
}

/** @returns undefined without any value; empty columns and casts without values are left out */
export function responseTable(casts: readonly Verdict[]): ResponseTable | undefined {
  const told = casts.flatMap(({ cast, response = {} }) =>
    Object.keys(response).length === 0 ? [] : [{ cast, response }],
  );
  const shown = (["primary", "secondary"] as const).flatMap((cell) => {
    const own = columns.flatMap((column) => {
      const words = told.map(({ response }) => wordsOf(response[cell], column));
      return words.every((word) => word === "") ? [] : [{ title: column.title, words }];
    });
    return own.length === 0 ? [] : [{ cell, own }];
  });
  if (shown.length === 0) return undefined;
  return {
    cells: shown.map(({ cell, own }) => ({ cell, titles: own.map(({ title }) => title) })),
    rows: told.map(({ cast, response }, i) => ({
      cast,
      words: shown.flatMap(({ own }) => own.map(({ words }) => words[i]!)),
      ...besideBefore(response),
    })),
  };
}

function wordsOf(seen: ResponseSeen | undefined, { of }: Column): string {
  return seen === undefined ? "" : of(seen);
}

function besideBefore(
  response: NonNullable<Verdict["response"]>,
): Pick<ResponseRow, "beside" | "differs"> {
  const all = (Object.entries(response) as [CellName, ResponseSeen][]).map(([cell, seen]) => {
    const { alignment, thermalLag } = seen;
    const words = [
      ...odd(alignment, alignment?.seconds, ["later", "sooner"]),
      ...odd(thermalLag, thermalLag?.timesUsual, ["more lag", "less lag"]),
    ];
    const held = alignment?.differs !== undefined || thermalLag?.differs !== undefined;
    return { held, words: words.length === 0 ? [] : [`${cell} ${words.join(", ")}`] };
  });
  const differing = all.flatMap(({ words }) => words);
  const usual = all.some(({ held }) => held) ? "no change" : "";
  return differing.length === 0
    ? { beside: usual, differs: false }
    : { beside: differing.join("; "), differs: true };
}

function odd(
  beside: { readonly usual?: number; readonly differs?: boolean } | undefined,
  value: number | undefined,
  [more, less]: readonly [string, string],
): readonly string[] {
  if (beside?.differs !== true || beside.usual === undefined || value === undefined) return [];
  return [value > beside.usual ? more : less];
}
