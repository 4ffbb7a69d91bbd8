// The verdict as Markdown, for the cruise log: what, how sure, what to do, cautions, why, casts, files.
import type { CellName } from "../../cast/cast.js";
import { capitalised, reportedOnset } from "../../causes/sentences.js";
import { batterySentence } from "../../cleaning/record/battery.js";
import { earlierCasts } from "../../verdict/judge/earlierCasts.js";
import type { CellVerdict, Verdict, VerdictDocument } from "../../verdict/verdict.js";
import { dataWords } from "../../words/dataWords.js";
import { leftOutWords } from "../../words/leftOut.js";
import { percent } from "../../words/percent.js";
import { plainText } from "../../words/plainText.js";
import { responseTable, responseTableSays } from "../../words/responseTable.js";
import { sensorSentences } from "../../words/sensorSentences.js";
import { beyondTarget, bottlesOf, inSalinity, leading, ppm, start } from "../../words/words.js";
import { sparkline, usualSpan_ppm } from "../terminal/sparkline.js";

/** The mark by which a Markdown report is recognised; invisible in its page. */
export const markdownMark = "<!-- foulcast report -->";

/**
 * A verdict document as Markdown, for a cruise log.
 * @param cast the cast to show in full; the latest if absent
 * @returns Markdown text: CommonMark with tables
 * @throws RangeError if the named cast is not in the document
 */
export function markdownReport(given: VerdictDocument, cast = given.latest): string {
  const document = plainText(given);
  const verdict = document.casts.find((found) => found.cast === cast);
  if (verdict === undefined) throw new RangeError(`no cast ${cast} in ${document.cruise.name}`);
  const { cruise, casts, software } = document;
  const { advice } = verdict;
  const lines = [
    markdownMark,
    `# Conductivity cells after cast ${safe(cast)}, ${safe(cruise.name)}`,
    ...(cruise.note === undefined ? [] : [safe(cruise.note)]),
    `## Verdict`,
    list(Object.entries(verdict.cells).map(([name, cell]) => cellLine(name, cell, document))),
    `Salinity of this cast: ${dataWords[verdict.data]}.`,
    `## To do: ${advice.intensity}, ${advice.minutes.toFixed(0)} minutes`,
    safe(advice.action),
    safe(advice.because),
    `### Cautions`,
    list(advice.cautions.map(safe)),
    `### Steps`,
    advice.steps.map((step, i) => `${i + 1}. ${safe(step)}`).join("\n"),
    `### Materials`,
    list(advice.materials.map(safe)),
    `## Why`,
    list(whyLines(verdict, document)),
    ...(verdict.wouldDecide.length === 0
      ? []
      : [`### What would decide`, list(verdict.wouldDecide.map(safe))]),
    ...nextChecks(document, verdict),
    ...sensorLines(verdict),
    ...answers(casts),
    `## Casts`,
    castsTable(casts, cruise.timeZone),
    ...leftOut(verdict),
    `## Trace`,
    `Target ${cruise.target} in Practical Salinity; ${software.name} ${software.version}.`,
    listOfNames(
      document.inputs.map(
        ({ name, rows, sha256 }) =>
          `${safe(name)}: ${rows} rows, SHA-256 ${sha256 ?? "not from a file"}`,
      ),
    ),
  ];
  return `${lines.filter((line) => line !== "").join("\n\n")}\n`;
}

function cellLine(name: string, cell: CellVerdict, { cruise, casts }: VerdictDocument): string {
  const { up } = cell.gainError;
  const within = beyondTarget(cell, cruise.target) ? "beyond" : "within";
  const gains = casts.flatMap(({ cells }) => cells[name as CellName]?.gainError.up.ppm ?? []);
  const serial = cell.serial === undefined ? "" : ` ${safe(cell.serial)}`;
  return (
    `**${name} cell${serial}: ${leading(cell)}**, ${ppm(up)} (${inSalinity(up)}), ${within} the target. ` +
    `Through the cruise: ${sparkline(gains, usualSpan_ppm)}`
  );
}

function whyLines(verdict: Verdict, { casts }: VerdictDocument): readonly string[] {
  const before = casts.slice(0, casts.indexOf(verdict));
  const cells = Object.entries(verdict.cells) as [CellName, CellVerdict][];
  return [
    ...cells.flatMap(([name, cell]) => {
      const { causes, change } = cell;
      const when = reportedOnset(change, earlierCasts(before, name));
      return [
        ...causes
          .slice(0, 1)
          .map(({ because }) => `${name} cell: ${leading(cell)}. ${safe(because)}`),
        ...(when === undefined
          ? []
          : [
              `Most probable change of the ${name} cell: ${safe(when)} (${percent(change.probability)})`,
            ]),
      ];
    }),
  ];
}

/** The work due according to the record: as of now, so for the latest cast. */
function nextChecks({ beforeNextCast: next, latest }: VerdictDocument, { cast }: Verdict) {
  if (next === undefined || cast !== latest) return [];
  const { due, battery, cautions } = next;
  if (due.length === 0 && battery === undefined) return [];
  return [
    `## Before the next cast`,
    list([
      ...due.map(({ what, because }) => safe(`${what} ${because}`)),
      ...(battery === undefined ? [] : [safe(batterySentence(battery))]),
      ...cautions.map((caution) => safe(`Caution: ${caution}`)),
    ]),
  ];
}

function sensorLines(verdict: Verdict): readonly string[] {
  const { faults, response } = sensorSentences(verdict);
  const all = [...faults, ...response];
  return all.length === 0 ? [] : [`## Sensors`, list(all.map(safe))];
}

function castsTable(casts: readonly Verdict[], timeZone: string | undefined): string {
  const cells = [...new Set(casts.flatMap((one) => Object.keys(one.cells) as CellName[]))];
  const head = ["cast", "start", ...cells.flatMap((cell) => [cell, "cause"]), "data", "bottles"];
  const rows = casts.map((verdict) => [
    safe(verdict.cast),
    start(verdict, timeZone),
    ...cells.flatMap((name) => {
      const cell = verdict.cells[name];
      return cell === undefined ? ["", ""] : [ppm(cell.gainError.up), leading(cell)];
    }),
    verdict.data,
    bottlesOf(verdict),
  ]);
  return table(head, rows);
}

/** Response of the cells, cast by cast, if any cast has one. */
function answers(casts: readonly Verdict[]): readonly string[] {
  const found = responseTable(casts);
  if (found === undefined) return [];
  const titles = found.cells.flatMap(({ cell, titles: own }) => own.map((one) => `${cell} ${one}`));
  return [
    `## Alignment and thermal lag`,
    `${responseTableSays}.`,
    table(
      ["cast", ...titles, "compared with earlier casts"],
      found.rows.map(({ cast, words, beside }) => [safe(cast), ...words, beside]),
    ),
  ];
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  return [head, head.map(() => "---"), ...rows].map((row) => `| ${row.join(" | ")} |`).join("\n");
}

function leftOut(verdict: Verdict): readonly string[] {
  const all = leftOutWords(verdict);
  return all.length === 0 ? [] : [`## Left out on cast ${safe(verdict.cast)}`, list(all.map(safe))];
}

function list(items: readonly string[]): string {
  return listOfNames(items.map(capitalised));
}

/** A list whose items begin as they are written: names of files. */
function listOfNames(items: readonly string[]): string {
  return items.map((item) => `- ${item}`).join("\n");
}

/** On one line, without characters that Markdown or HTML would interpret. */
function safe(text: string): string {
  return text
    .replace(/\s+/g, " ")
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/[\\`*_[\]|~!]|^[#>+-]|^\d+(?=[.)])/g, (found) =>
      /\d/.test(found) ? `${found}\\` : `\\${found}`,
    );
}
