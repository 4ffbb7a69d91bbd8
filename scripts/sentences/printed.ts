// The sentences of finished outputs: the verdict document (its notes among them), the terminal's summaries, the log and the page.

import type { Cruise } from "../../src/cast/cruise.js";
import { checkRecord } from "../../src/cleaning/record/checkRecord.js";
import { dueList } from "../../src/cleaning/record/dueList.js";
import { recordAlone } from "../../src/cleaning/record/recordAlone.js";
import { figureData } from "../../src/figures/figureData.js";
import { assessCruise } from "../../src/index.js";
import { report } from "../../src/report/html/report.js";
import { markdownReport } from "../../src/report/markdown/markdownReport.js";
import { terminalSummary } from "../../src/report/terminal/terminalSummary.js";
import type { VerdictDocument } from "../../src/verdict/verdict.js";
import { sentencesOf, wordsOf } from "./readingEase.js";

/** All strings of a value, at any depth. */
function strings(value: unknown): readonly string[] {
  if (typeof value === "string") return [value];
  if (value === null || typeof value !== "object") return [];
  return Object.values(value).flatMap(strings);
}

/** A summary's rows, their wrapped lines joined; each numbered step is a row, materials and cautions are those of the document. */
function rowsOf(summary: string): readonly string[] {
  return summary
    .split("\n\n")
    .filter((section) => !section.startsWith("because"))
    .flatMap((section) =>
      section
        .replaceAll(/\n {16}(?=\S)/g, " ")
        .split("\n")
        .map((line) => line.slice(line.match(/^[a-z ]{15} /) ? 16 : 0)),
    )
    .filter((row) => !/\s{2,}/.test(row.trim()));
}

/** Text of a page: blocks and cells apart, drawings by their titles. */
const textsOf = (page: string): readonly string[] =>
  page
    .replaceAll(/<(style|script)[^>]*>[\s\S]*?<\/\1>/g, "")
    .replaceAll(/<\/?(?:a|em|span|code|abbr)\b[^>]*>/g, "")
    .split(/<[^>]*>/)
    .map((text) =>
      text.replaceAll(/&(?:lt|gt|amp|quot|#\d+);/g, (entity) => (entity === "&amp;" ? "&" : "'")),
    );

/** Lines of the log: bullets, table cells and paragraphs. */
const linesOf = (log: string): readonly string[] =>
  log.split(/\n|\|/).map((line) => line.replace(/^[\s>*#-]*(?:\d+\. )?(?:\[ \] )?/, ""));

function textsOfCast(cruise: Cruise, document: VerdictDocument, cast: string): readonly string[] {
  const plain = { colour: false, width: 80, cast };
  return [
    ...rowsOf(terminalSummary(document, { ...plain, detail: "full" })),
    ...rowsOf(terminalSummary(document, { ...plain, detail: "brief" })),
    ...linesOf(markdownReport(document, cast)),
    ...textsOf(report(document, figureData(cruise, document), cast)),
  ];
}

/** Every sentence of four words or more that is printed about a cruise, each once. */
export function printedAbout(cruise: Cruise): ReadonlySet<string> {
  const document = assessCruise(cruise);
  const shown = document.casts.filter((_, i, casts) => i % 4 === 3 || i === casts.length - 1);
  const record = recordAlone(
    cruise.maintenance,
    document.casts.at(-1)?.start ?? "2030-01-01T00:00Z",
  );
  const texts = [
    ...strings(document),
    ...strings([checkRecord(record), dueList(record)]),
    ...shown.flatMap(({ cast }) => textsOfCast(cruise, document, cast)),
  ];
  const sentences = texts.flatMap((text) => text.split("\n")).flatMap(sentencesOf);
  return new Set(sentences.filter((sentence) => wordsOf(sentence).length > 3));
}
