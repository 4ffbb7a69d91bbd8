// foulcast correct: after the cruise, the gain errors of every cast from all casts, and a corrected copy of a cast.
import { readCruise } from "../../node/index.js";
import { correctionTable } from "../../report/terminal/correctionTable.js";
import { correctCast } from "../../verdict/correctCast.js";
import { correctCruise } from "../../verdict/correctCruise.js";
import { correctedCsv, correctedMark } from "../../write/correctedCsv.js";
import { findCast } from "../findCast.js";
import { inputPaths } from "../inputPaths.js";
import { oneArgument } from "../oneArgument.js";
import { progressLine } from "../progress.js";
import { readCruiseOptions, readingHelp, readingOptions } from "../readingOptions.js";
import { UsageError } from "../usageError.js";
import { writeJson } from "../writeJson.js";
import { writeOwnFile } from "../writeOwnFile.js";
import type { Command } from "./command.js";

const help = `Usage: foulcast correct <cruise folder | cruise.json | cast.csv | hy1 file | bottles.csv> [options]

For after the cruise: the gain error of every cast and its cause, from all casts together.
The files of the cruise are not changed. A corrected cast is written to a new file on request.

${readingHelp}
  --cast ID --csv FILE  write this cast with its gain errors taken out: pressure, temperature, corrected conductivity,
                        salinity and its standard uncertainty, by cell. Needs the cast's scans
  --history PLACE       start from the cell histories of earlier cruises, as foulcast history stores them
  --json FILE           write all corrections (foulcast-correction/1); - writes them to standard output
  --help                this text
`;

export const correct: Command = {
  name: "correct",
  summary: "after the cruise: gain errors from all casts, and a corrected cast",
  help,
  async run(words) {
    const { values, path } = oneArgument(
      "correct",
      words,
      {
        ...readingOptions,
        cast: { type: "string" },
        history: { type: "string" },
        csv: { type: "string" },
        json: { type: "string" },
      },
      "a cruise folder or a file",
      "one folder or file",
    );
    if ((values.cast === undefined) !== (values.csv === undefined)) {
      throw new UsageError("--cast and --csv go together: which cast, and where to write it");
    }
    const history = await historyFrom(values.history);
    const reading = progressLine("reading");
    const options = await readCruiseOptions(values, values.cast, reading.show);
    const cruise = await readCruise(path, options);
    reading.end();
    const inputs = await inputPaths(path, cruise, [values.bottles, values.record, values.columns]);
    const withScans = cruise.casts.flatMap(({ id, data }) => (data === undefined ? [] : [id]));
    const id =
      values.cast === undefined
        ? undefined
        : findCast(withScans, values.cast, "no such cast with scans");
    const scans = cruise.casts.find((cast) => cast.id === id)?.data;
    const correcting = progressLine("correcting");
    const correction = correctCruise(cruise, { history, onCast: correcting.show });
    correcting.end();
    const own = correction.casts.find(({ cast }) => cast === id);
    if (scans !== undefined && own !== undefined && values.csv !== undefined) {
      const table = correctedCsv(correctCast(scans, own));
      await writeOwnFile("--csv", values.csv, table, correctedMark, inputs);
    }
    if (values.json === "-") process.stdout.write(`${JSON.stringify(correction, null, 2)}\n`);
    else {
      if (values.json !== undefined) {
        await writeJson("--json", values.json, correction, "foulcast-correction", inputs);
      }
      process.stdout.write(correctionTable(correction));
    }
    return 0;
  },
};

async function historyFrom(place: string | undefined) {
  // Loaded by those who ask for it: it costs others their start.
  return place === undefined ? [] : (await import("../historyOption.js")).readHistory(place);
}
