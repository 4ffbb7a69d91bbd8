// The history of cells in a terminal: the fleet as a table, or one cell cruise by cruise.
import type { CellRecord } from "../../history/cellRecord.js";
import {
  type CleaningTried,
  calibrationInterval_days,
  type Fleet,
  type FleetCell,
} from "../../history/fleet.js";
import { percent } from "../../words/percent.js";
import { plainLine } from "../../words/plainText.js";
import { signed } from "../../words/signed.js";
import { paintFor } from "./paint.js";

interface Style {
  readonly colour: boolean;
}

/** A fleet as text: which cells are due, then the table of cells, then the cleanings. */
export function fleetSummary({ cells, cleanings }: Fleet, { colour }: Style): string {
  const paint = paintFor(colour);
  const due = cells.filter((cell) => cell.due.length > 0);
  const head = [
    "cell",
    "cruises",
    "casts",
    "films",
    "per 100 casts",
    "per 100 h",
    "clean gain, ppm",
    "beyond target",
    "calibrated",
    "due",
  ];
  const rows = cells.map((cell) => [
    plainLine(cell.serial),
    String(cell.cruises),
    String(cell.casts),
    String(cell.films),
    cell.filmsPer100Casts.toFixed(1),
    cell.filmsPer100Hours?.toFixed(1) ?? "",
    gain(cell.cleanGain),
    percent(cell.probabilityBeyondTarget),
    cell.calibrated ?? "not written",
    cell.due.join(", "),
  ]);
  const lines = table([head, ...rows]);
  return `${[
    ...(due.length === 0
      ? [paint.good("No cell is due for calibration.")]
      : due.map((cell) => paint.warn(dueSentence(cell)))),
    "",
    paint.dim(lines[0]!),
    ...lines.slice(1).map((line, i) => (cells[i]!.due.length > 0 ? paint.warn(line) : line)),
    ...cleaningLines(cleanings),
  ].join("\n")}\n`;
}

function dueSentence({
  serial,
  due,
  daysSinceCalibration = 0,
  cleanGain,
  probabilityBeyondTarget,
}: FleetCell) {
  const reasons = due.map((why) =>
    why === "by date"
      ? `${daysSinceCalibration.toFixed(0)} days since its calibration (${calibrationInterval_days} is common practice)`
      : `clean gain ${gain(cleanGain)} ppm, beyond the target with ${percent(probabilityBeyondTarget)}`,
  );
  return `Cell ${plainLine(serial)} is due for calibration: ${reasons.join("; ")}.`;
}

function cleaningLines(cleanings: readonly CleaningTried[]): readonly string[] {
  if (cleanings.length === 0) return ["", "No cleaning of a film is on record."];
  const films = { step: "film that came as a step", drift: "growing film", unknown: "film" };
  return [
    "",
    "Cleanings (worked: less than half of the film was left)",
    ...table(
      cleanings.map(({ intensity, film, tried, worked, retained }) => [
        `  ${intensity}`,
        films[film],
        `worked ${worked} of ${tried}`,
        `left ${percent(retained)} on average`,
      ]),
    ),
  ];
}

/**
 * The history of one cell as text, cruise by cruise.
 * @param records of one cell, in order of time
 */
export function cellSummary(records: readonly CellRecord[], { colour }: Style): string {
  const paint = paintFor(colour);
  const [first] = records;
  if (first === undefined) return "There is no record of this cell.\n";
  return `${[paint.strong(`Cell ${plainLine(first.serial)}`), ...records.flatMap((record) => ofCruise(record, paint.strong))].join("\n")}\n`;
}

function ofCruise(record: CellRecord, strong: (text: string) => string): readonly string[] {
  const { cruise, from, to, casts, cleanGain, gainError, pressureResponse: p, response } = record;
  const days = [from, to].map(({ start }) => start?.slice(0, 10) ?? "no date").join(" to ");
  const lag =
    response.lag === undefined
      ? ""
      : `, thermal lag ${response.lag.value.toFixed(1)} times that of a usual cell`;
  return [
    "",
    strong(
      plainLine(`${cruise}, ${days}, ${record.cell}, ${casts} ${casts === 1 ? "cast" : "casts"}`),
    ),
    `  calibrated ${record.calibrated ?? "on an unknown day"}`,
    `  reading ${gain(gainError.first)} to ${gain(gainError.last)} ppm, clean ${gain(cleanGain.first)} to ${gain(cleanGain.last)} ppm`,
    `  response to pressure ${signed(p.ppmPer1000dbar)} \u00b1 ${p.standardUncertainty.toFixed(0)} ppm per 1000 dbar${lag}`,
    ...record.films.map(
      ({ cast, sinceCast, kind, largest }) =>
        `  film (${kind}) ${plainLine(sinceCast === undefined ? `seen on cast ${cast}` : `since cast ${sinceCast}`)}: largest effect ${gain(largest)} ppm`,
    ),
    ...record.cleanings.map(
      ({ afterCast, intensity, retained, standardUncertainty: u }) =>
        `  ${intensity} after cast ${plainLine(afterCast)} left ${percent(retained)} \u00b1 ${percent(u)} of the film`,
    ),
    ...record.shifts.map(
      ({ sinceCast, change }) =>
        `  shift by ${gain(change)} ppm since cast ${plainLine(sinceCast)}`,
    ),
    ...record.calibrations.map(
      ({ afterCast, time }) => `  calibrated ${plainLine(time ?? `after cast ${afterCast}`)}`,
    ),
  ];
}

function gain({ ppm, standardUncertainty }: FleetCell["cleanGain"]): string {
  return `${signed(ppm)} \u00b1 ${standardUncertainty.toFixed(0)}`;
}

function table(rows: readonly (readonly string[])[]): readonly string[] {
  const widths = (rows[0] ?? []).map((_, i) => Math.max(...rows.map((row) => row[i]!.length)));
  return rows.map((row) =>
    row
      .map((text, i) => text.padEnd(widths[i]!))
      .join("  ")
      .trimEnd(),
  );
}
