// The corrections of a cruise as a table for a person.

import { salinityError } from "../../model/salinityError.js";
import type { CruiseCorrection, LegCorrection } from "../../verdict/correctCruise.js";
import { percent } from "../../words/percent.js";
import { plainLine } from "../../words/plainText.js";

export function correctionTable({ cruise, casts, notes = [] }: CruiseCorrection): string {
  const rows = casts.flatMap(({ cast, cells }) =>
    Object.entries(cells).map(([cell, { down, up, causes }]) => [
      plainLine(cast),
      cell,
      ppm(down),
      ppm(up),
      salinityError(up.surface.ppm).toFixed(4),
      causes[0] === undefined ? "" : `${causes[0].cause} ${percent(causes[0].probability)}`,
    ]),
  );
  const table = [["cast", "cell", "down, ppm", "up, ppm", "in salinity", "cause"], ...rows];
  const widths = table[0]!.map((_, column) => Math.max(...table.map((row) => row[column]!.length)));
  return [
    `${plainLine(cruise)}: gain errors from all casts, at atmospheric pressure`,
    "",
    ...table.map((row) =>
      row
        .map((text, i) => text.padEnd(widths[i]!))
        .join("  ")
        .trimEnd(),
    ),
    ...notes.map((note) => `\n${plainLine(note)}`),
    "",
  ].join("\n");
}

function ppm({ surface }: LegCorrection): string {
  return `${surface.ppm.toFixed(0).padStart(5)} ± ${surface.standardUncertainty.toFixed(0).padStart(2)}`;
}
