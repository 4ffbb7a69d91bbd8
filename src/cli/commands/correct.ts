// foulcast correct: after the cruise, every cast in the light of all of it, and a cast with its gain errors taken out.
import { readCruise } from "../../node/index.js";
import { correctionTable } from "../../report/terminal/correctionTable.js";
import { correctCast } from "../../verdict/correctCast.js";
import { correctCruise } from "../../verdict/correctCruise.js";
import { correctedCsv, correctedMark } from "../../write/correctedCsv.js";
import { oneArgument } from "../oneArgument.js";
import { progressLine } from "../progress.js";
import { UsageError } from "../usageError.js";
import { writeJson } from "../writeJson.js";
import { writeOurs } from "../writeOurs.js";
import type { Command } from "./command.js";

const help = `Usage: foulcast correct <cruise folder | cruise.json | hy1 file | bottles.csv> [options]

For after the cruise: the gain error of every cast, and its cause, as all casts together tell them, later ones and late
bottles included.
The files of the cruise stay as they are; what is corrected is written beside them where it is asked for.

  --cast ID --csv FILE  write this cast with its gain errors taken out: pressure, temperature, corrected conductivity,
                        salinity and its standard uncertainty, by cell; needs the cast's scans
  --json FILE           write all corrections (foulcast-correction/1); - writes them to standard output
  --help                this text
`;

export const correct: Command = {
  name: "correct",
  summary: "after the cruise: gain errors with all casts seen, and a corrected cast",
  help,
  async run(words) {
    const { values, path } = oneArgument(
      "correct",
      words,
      { cast: { type: "string" }, csv: { type: "string" }, json: { type: "string" } },
      "a cruise folder or a file",
      "one folder or file",
    );
    if ((values.cast === undefined) !== (values.csv === undefined)) {
      throw new UsageError("--cast and --csv go together: which cast, and where to write it");
    }
    const reading = progressLine("reading");
    const cruise = await readCruise(path, reading.show);
    reading.end();
    const scans = cruise.casts.find(({ id }) => id === values.cast)?.data;
    if (values.cast !== undefined && scans === undefined) {
      const ids = cruise.casts.flatMap(({ id, data }) => (data === undefined ? [] : [id]));
      const there = ids.length === 0 ? "there are none" : `there are ${ids.join(", ")}`;
      throw new UsageError(`--cast ${values.cast}: no such cast with scans; ${there}`);
    }
    const correcting = progressLine("correcting");
    const correction = correctCruise(cruise, correcting.show);
    correcting.end();
    const own = correction.casts.find(({ cast }) => cast === values.cast);
    if (scans !== undefined && own !== undefined && values.csv !== undefined) {
      const table = correctedCsv(correctCast(scans, own));
      await writeOurs("--csv", values.csv, table, correctedMark);
    }
    if (values.json === "-") process.stdout.write(`${JSON.stringify(correction, null, 2)}\n`);
    else {
      if (values.json !== undefined) {
        await writeJson("--json", values.json, correction, "foulcast-correction");
      }
      process.stdout.write(correctionTable(correction));
    }
    return 0;
  },
};
