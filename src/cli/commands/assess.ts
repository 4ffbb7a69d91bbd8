// foulcast assess: files in, a verdict out.

import type { Cruise } from "../../cast/cruise.js";
import { figureData } from "../../figures/figureData.js";
import { readCruise } from "../../node/readCruise.js";
import { report, reportMark } from "../../report/html/report.js";
import { markdownMark, markdownReport } from "../../report/markdown/markdownReport.js";
import { type SummaryStyle, terminalSummary } from "../../report/terminal/terminalSummary.js";
import { assessCruise } from "../../verdict/assessCruise.js";
import { assessWithCache } from "../assessWithCache.js";
import { confidenceFrom } from "../confidence.js";
import { limitNames, limitsFrom, limitsMet } from "../failOn.js";
import { findCast } from "../findCast.js";
import { inputPaths } from "../inputPaths.js";
import { oneArgument } from "../oneArgument.js";
import { progressLine } from "../progress.js";
import { readCruiseOptions, readingHelp, readingOptions } from "../readingOptions.js";
import { readProcedure } from "../readProcedure.js";
import { UsageError } from "../usageError.js";
import { writeJson } from "../writeJson.js";
import { writeOwnFile } from "../writeOwnFile.js";
import type { Command } from "./command.js";

const help = `Usage: foulcast assess <cast.csv | cruise folder | cruise.json | hy1 file | bottles.csv> [options]

Reads a cast, or a cruise in any state of completeness, and gives a verdict on every cast.
The latest is shown in full.

  foulcast assess cast-001.csv --bottles bottles.csv --minutes 45

${readingHelp}
  --cast ID             show this cast instead of the latest (8 means 008). For a single cast file: its id
  --report FILE.html    write a page to view, print and keep: verdict, figures, casts, excluded data
  --markdown FILE       write the verdict as Markdown, for the cruise log
  --json FILE           write the verdicts as JSON (foulcast-verdict/1); - writes them to standard output
  --confidence P        confidence with which a cleaning must meet the target, 0.5 to 0.999 (0.9)
  --procedure FILE      the ship's own cleaning procedure, as docs/cleaning.md describes it
  --trained-hands       people trained in acid and in opening the instrument are aboard
  --history PLACE       start from the cell histories of earlier cruises, as foulcast history stores them:
                        a folder, or a file that ends in .sqlite
  --add-to-history      add the cells of this cruise to the history, which is created if absent
  --fail-on NAME[,..]  exit status 3 if the cast shown meets one: ${limitNames}
  --brief               three lines: the cast with its cells, what to do, whose salinity to use
  --full                also alternatives, intervals, notes, what was left out, and every cast
  --no-cache            read all files again, and store nothing in .foulcast/ beside the cruise
  --help                this text

The contents of the casts are stored in .foulcast/ beside the cruise. So a new cast costs the work of one cast. The folder can be deleted.

  foulcast assess --many [options] < names      reads names of cruises, one a line, and writes a line of JSON for each
  --cores N             processes at once (those of the machine); the lines are the same for any number
  --append FILE         add the lines to a file; names that have a line there are skipped, so that a stopped run can be continued
  docs/archive.md has more; exit status 0 every cruise has a verdict, 10 + N where N have a fault (110: 100 or more)

Colour only in a terminal; NO_COLOR in the environment turns it off.
`;

export const assess: Command = {
  name: "assess",
  summary: "read a cruise and give a verdict on its conductivity cells",
  help,
  async run(words) {
    // Each of these is loaded only if needed, because loading delays the start.
    if (words.includes("--many")) return (await import("./many.js")).many(words);
    const { values, path } = parseOptions(words);
    const confidence = confidenceFrom(values.confidence);
    const detail = detailFrom(values);
    const limits = limitsFrom(values["fail-on"] ?? []);
    const ladder = await readProcedure(values.procedure);
    const folder = values.history;
    const adds = values["add-to-history"] === true;
    if (adds && folder === undefined)
      throw new UsageError("--add-to-history: name the place with --history");
    const history = folder === undefined ? [] : await historyFrom(folder, adds);
    const reading = progressLine("reading");
    const options = await readCruiseOptions(values, values.cast, reading.show);
    const assessing = progressLine("assessing");
    const settings = {
      onCast: assessing.show,
      history,
      ...(confidence === undefined ? {} : { confidence }),
      ...(ladder === undefined ? {} : { ladder }),
      ...(values["trained-hands"] === true ? { trainedHands: true } : {}),
    };
    let id: string | undefined;
    const onRead = ({ casts }: Cruise) => {
      reading.end();
      const ids = casts.map((cast) => cast.id);
      id = values.cast === undefined ? ids.at(-1) : findCast(ids, values.cast);
    };
    // Figures, and the record of a cell, need the scans of every cast.
    const anew = values["no-cache"] === true || values.report !== undefined || adds;
    const assessed = anew ? assessAnew : assessWithCache;
    const { cruise, document } = await assessed(path, options, settings, onRead);
    assessing.end();
    const { bottles, record, columns, procedure } = values;
    const inputs = await inputPaths(path, cruise, [bottles, record, columns, procedure]);
    if (adds && folder !== undefined) {
      const { addCruise } = await import("../historyOption.js");
      await addCruise("--history", folder, cruise, document);
    }
    const shown = document.casts.find(({ cast }) => cast === id)!;
    const met = limitsMet(limits, shown);
    if (values.json === "-") process.stdout.write(`${JSON.stringify(document, null, 2)}\n`);
    else if (values.json !== undefined) {
      await writeJson("--json", values.json, document, "foulcast-verdict", inputs);
    }
    if (values.report !== undefined) {
      const page = report(document, figureData(cruise, document), shown.cast);
      await writeOwnFile("--report", values.report, page, reportMark, inputs);
    }
    if (values.markdown !== undefined) {
      const page = markdownReport(document, shown.cast);
      await writeOwnFile("--markdown", values.markdown, page, markdownMark, inputs);
    }
    if (values.json !== "-") {
      const style = {
        colour: process.stdout.isTTY === true && process.env.NO_COLOR === undefined,
        width: process.stdout.columns ?? 80,
        cast: shown.cast,
        detail,
      };
      process.stdout.write(terminalSummary(document, style));
    }
    return met ? 3 : 0;
  },
};

const assessAnew: typeof assessWithCache = async (path, options, settings, onRead) => {
  const cruise = await readCruise(path, options);
  onRead(cruise);
  return { cruise, document: assessCruise(cruise, settings) };
};

async function historyFrom(folder: string, mayBeNew: boolean) {
  const { historyIfThere, readHistory } = await import("../historyOption.js");
  return (mayBeNew ? historyIfThere : readHistory)(folder);
}

function parseOptions(words: readonly string[]) {
  return oneArgument(
    "assess",
    words,
    {
      ...readingOptions,
      cast: { type: "string" },
      json: { type: "string" },
      report: { type: "string" },
      markdown: { type: "string" },
      confidence: { type: "string" },
      procedure: { type: "string" },
      "trained-hands": { type: "boolean" },
      brief: { type: "boolean" },
      full: { type: "boolean" },
      "no-cache": { type: "boolean" },
      history: { type: "string" },
      "add-to-history": { type: "boolean" },
      "fail-on": { type: "string", multiple: true },
    },
    "a cruise folder or a file",
    "one folder or file",
  );
}

type Detail = NonNullable<SummaryStyle["detail"]>;

function detailFrom({ brief, full }: { brief?: boolean; full?: boolean }): Detail {
  if (brief === true && full === true) throw new UsageError("--brief and --full: choose one");
  if (brief === true) return "brief";
  return full === true ? "full" : "usual";
}
