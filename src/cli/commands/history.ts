// foulcast history: results of earlier cruises for each cell.
import { cellYears } from "../../figures/cellYears.js";
import { fleetOf } from "../../history/fleet.js";
import { readCruise, readHistory } from "../../node/index.js";
import { timeCell } from "../../read/timeCell.js";
import { cellSummary, fleetSummary } from "../../report/terminal/historySummary.js";
import { assessCruise } from "../../verdict/assessCruise.js";
import { addCruise, historyIfThere } from "../historyOption.js";
import { oneArgument } from "../oneArgument.js";
import { progressLine } from "../progress.js";
import { UsageError } from "../usageError.js";
import { writeOwnFile } from "../writeOwnFile.js";
import type { Command } from "./command.js";

const help = `Usage: foulcast history <folder | FILE.sqlite> [options]

Shows the histories of cells: which cell fouls, which cleaning works on what, which is due for calibration.
foulcast keeps them in a folder of your choice, a line of JSON for each cell and cruise.
It keeps them in an SQLite file instead where the name ends in .sqlite; that needs Node 22.13 or later.

  --add CRUISE     assess a cruise with the results of earlier ones, and add its own
  --serial S       one cell, cruise by cruise, instead of the table
  --figure FILE    the cell over the years as an SVG file; with --serial
  --now TIME       date for the list of what is due, such as 2031-05-07 (default: the clock of this machine)
  --json           the records as JSON lines instead of words
  --help           this text

A cell is identified by its serial number in cruise.json: instrument.sensors.primary.cell. foulcast assess CRUISE --history
PLACE begins with what is known of its cells.
`;

export const history: Command = {
  name: "history",
  summary: "show the results of earlier cruises for each cell; which is due for calibration",
  help,
  async run(words) {
    const { values, path } = oneArgument(
      "history",
      words,
      {
        add: { type: "string", multiple: true },
        serial: { type: "string" },
        figure: { type: "string" },
        now: { type: "string" },
        json: { type: "boolean" },
      },
      "the folder or .sqlite file that the histories are in",
      "one folder or file",
    );
    const { serial, figure } = values;
    const now = nowFrom(values.now);
    if (figure !== undefined && serial === undefined) {
      throw new UsageError("--figure shows one cell: name it with --serial");
    }
    for (const cruise of values.add ?? []) await add(path, cruise);
    const records = await readHistory(path);
    const own = serial === undefined ? records : records.filter((one) => one.serial === serial);
    if (serial !== undefined && own.length === 0) {
      const known = [...new Set(records.map((one) => one.serial))].join(", ");
      throw new UsageError(`--serial ${serial}: no such cell in ${path}; known are ${known}`);
    }
    if (figure !== undefined) {
      const drawn = cellYears(own);
      if (drawn === "") throw new UsageError("--figure: no cruise of this cell has a time");
      await writeOwnFile("--figure", figure, `${drawn}\n`, "<title>Cell ");
    }
    const colour = process.stdout.isTTY === true && process.env.NO_COLOR === undefined;
    process.stdout.write(
      values.json === true
        ? own.map((one) => `${JSON.stringify(one)}\n`).join("")
        : serial === undefined
          ? fleetSummary(fleetOf(own, { now }), { colour })
          : cellSummary(own, { colour }),
    );
    return 0;
  },
};

async function add(place: string, path: string): Promise<void> {
  const before = await historyIfThere(place);
  const reading = progressLine("reading");
  const cruise = await readCruise(path, reading.show);
  reading.end();
  const assessing = progressLine("assessing");
  const document = assessCruise(cruise, { history: before, onCast: assessing.show });
  assessing.end();
  if ((await addCruise("history", place, cruise, document)) === 0) {
    process.stderr.write(
      "No cell of this cruise has a serial number, so nothing was added: name it in cruise.json, instrument.sensors.primary.cell.\n",
    );
  }
}

function nowFrom(text: string | undefined): string {
  if (text === undefined) return new Date().toISOString();
  const time = timeCell(text);
  if (typeof time === "string") return time;
  throw new UsageError(`--now ${text}: expected a time such as 2031-05-07T16:00:00Z`);
}
