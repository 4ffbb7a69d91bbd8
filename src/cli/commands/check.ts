// foulcast check: input is a maintenance record; output is its faults and the work due.

import { basename } from "node:path";
import type { Cruise } from "../../cast/cruise.js";
import { batteryTrend } from "../../cleaning/record/battery.js";
import type { NextCastSettings } from "../../cleaning/record/beforeNextCast.js";
import { checkRecord } from "../../cleaning/record/checkRecord.js";
import { cautionsOfDue } from "../../cleaning/record/due.js";
import { dueList } from "../../cleaning/record/dueList.js";
import { recordAlone } from "../../cleaning/record/recordAlone.js";
import { recordOfCruise } from "../../cleaning/record/recordOfCruise.js";
import { type Severity, severities } from "../../cleaning/record/recordRule.js";
import { type MaintenanceRecord, timelineOf } from "../../cleaning/record/recordTimeline.js";
import { readCruise } from "../../node/index.js";
import { isFolder, readHead, readText } from "../../node/readText.js";
import { BadInput } from "../../read/badInput.js";
import { readMaintenance } from "../../read/maintenanceRecord.js";
import { type FileKind, refuseForeign, sniff } from "../../read/sniff.js";
import { timeCell } from "../../read/timeCell.js";
import { type CheckedRecord, recordSummary } from "../../report/terminal/recordSummary.js";
import { cellsOf } from "../../verdict/gather/knownCruise.js";
import { inputPaths } from "../inputPaths.js";
import { oneArgument } from "../oneArgument.js";
import { progressLine } from "../progress.js";
import { readProcedure } from "../readProcedure.js";
import { UsageError } from "../usageError.js";
import { writeJson } from "../writeJson.js";
import type { Command } from "./command.js";

const limits = severities.filter((severity) => severity !== "note");

const help = `Usage: foulcast check <maintenance.csv | maintenance.json | cruise folder | cruise.json> [options]

Reads the maintenance record. Says what is wrong with it, by rule, with line, reason and source. Then says what is due
before the next cast, at the end of the leg, before a transit. With the cruise the record is checked against its casts.

  --json FILE        write what was found as JSON (foulcast-record/1); - writes it to standard output
  --now TIME         the time to check for, as 2031-05-07T16:00:00Z (default: the clock of this machine)
  --air-celsius=T    lowest air temperature on deck until the next cast, as --air-celsius=-5: can a cell freeze?
  --casts-to-come N  casts that the battery is to last (3)
  --procedure FILE   the ship's own cleaning procedure, which says how strong is too strong
  --fail-on LIMIT    exit status 3 if something this bad or worse is found: ${limits.join(", ")}; an error is the worst
  --help             this text

Exit status: 0 the record was checked, 2 bad input or usage, 3 the limit was met.
`;

export const check: Command = {
  name: "check",
  summary: "read a maintenance record, find what is wrong with it, list what is due",
  help,
  async run(words) {
    const { values, path } = options(words);
    const limit = limitFrom(values["fail-on"]);
    const now = nowFrom(values.now);
    const ladder = await readProcedure(values.procedure);
    const read = await readRecord(path, now);
    const record = { ...read.record, ...(ladder === undefined ? {} : { ladder }) };
    const due = dueList(record, nextCastFrom(values));
    const battery = batteryTrend(timelineOf(record));
    const checked: CheckedRecord = {
      format: "foulcast-record/1",
      record: read.name,
      now,
      entries: record.maintenance.length,
      findings: checkRecord(record),
      due,
      ...(battery === undefined ? {} : { battery }),
      cautions: cautionsOfDue(due),
      notes: read.notes,
    };
    if (values.json === "-") process.stdout.write(`${JSON.stringify(checked, null, 2)}\n`);
    else if (values.json !== undefined) {
      const inputs = [...read.files, ...(values.procedure === undefined ? [] : [values.procedure])];
      await writeJson("--json", values.json, checked, "foulcast-record", inputs);
    }
    if (values.json !== "-") {
      const colour = process.stdout.isTTY === true && process.env.NO_COLOR === undefined;
      const width = process.stdout.columns ?? 100;
      process.stdout.write(recordSummary(checked, { colour, width }));
    }
    const met = checked.findings.some(({ severity }) => isAsBad(severity, limit));
    return met ? 3 : 0;
  },
};

interface Read {
  readonly name: string;
  readonly record: MaintenanceRecord;
  /** Paths of the files that were read. */
  readonly files: readonly string[];
  readonly notes: readonly string[];
}

const ofACruise: readonly FileKind[] = [
  "description",
  "bottles",
  "cast",
  "exchange-bottles",
  "exchange-cast",
];

async function readRecord(path: string, now: string): Promise<Read> {
  const folder = await isFolder(path, path);
  const kind = folder ? "description" : sniff(await readHead(path, path));
  const file = basename(path);
  refuseForeign(kind, file);
  if (ofACruise.includes(kind)) {
    const reading = progressLine("reading");
    const cruise = await readCruise(path, reading.show);
    reading.end();
    const files = await inputPaths(path, cruise, []);
    return { name: cruise.name, record: recordOf(cruise, path, now), files, notes: [] };
  }
  const { text, notes } = await readText(path, file);
  const { events, input } = readMaintenance(text, { file });
  return {
    name: file,
    record: recordAlone(events, now),
    files: [path],
    notes: [
      ...notes,
      ...input.notes,
      "The record was read without its cruise. Only the casts that it names are known, without times and lengths.",
    ],
  };
}

function recordOf(cruise: Cruise, path: string, now: string): MaintenanceRecord {
  if (!cruise.inputs.some(({ role }) => role === "maintenance")) {
    throw new BadInput([
      {
        file: basename(path),
        line: 0,
        found: "a cruise without a maintenance record",
        expected: "one that names its record",
        mend: 'Name the file in cruise.json: "maintenance": "maintenance.csv".',
      },
    ]);
  }
  return recordOfCruise(cruise, cellsOf(cruise), now);
}

function options(words: readonly string[]) {
  return oneArgument(
    "check",
    words,
    {
      json: { type: "string" },
      now: { type: "string" },
      procedure: { type: "string" },
      "fail-on": { type: "string" },
      "air-celsius": { type: "string" },
      "casts-to-come": { type: "string" },
    },
    "a maintenance record or a cruise",
    "one record or cruise",
  );
}

function nextCastFrom(values: ReturnType<typeof options>["values"]): NextCastSettings {
  const number = (name: "air-celsius" | "casts-to-come", least: number) => {
    const text = values[name];
    if (text === undefined) return undefined;
    const value = text.trim() === "" ? Number.NaN : Number(text);
    if (value >= least && Number.isFinite(value)) return value;
    throw new UsageError(`--${name} ${text}: expected a number from ${least} up`);
  };
  // Colder than any deck.
  const air_C = number("air-celsius", -90);
  const castsToCome = number("casts-to-come", 1);
  return {
    ...(air_C === undefined ? {} : { air_C }),
    ...(castsToCome === undefined ? {} : { castsToCome }),
  };
}

function limitFrom(text: string | undefined): Severity | undefined {
  if (text === undefined) return undefined;
  const limit = limits.find((severity) => severity === text);
  if (limit !== undefined) return limit;
  throw new UsageError(`--fail-on ${text}: expected one of ${limits.join(", ")}`);
}

function isAsBad(severity: Severity, limit: Severity | undefined): boolean {
  return limit !== undefined && severities.indexOf(severity) <= severities.indexOf(limit);
}

function nowFrom(text: string | undefined): string {
  if (text === undefined) return new Date().toISOString();
  const time = timeCell(text);
  if (typeof time === "string") return time;
  throw new UsageError(`--now ${text}: expected a time such as 2031-05-07T16:00:00Z`);
}
