// Columns in other units than their headings say, or swapped: seen from the salinity that they imply.
import { max } from "d3-array";
import type { CastColumns, CellColumns } from "../cast/cast.js";
import { spFromC } from "../seawater/index.js";
import { median } from "../statistics/robustCentre.js";
import type { Fault } from "./badInput.js";
import type { CastColumnName, ColumnPlaces } from "./castHeadings.js";

interface Where {
  readonly file: string;
  readonly line: number;
  readonly heading: (name: CastColumnName) => string;
  readonly places: ColumnPlaces;
}

/** Salinities of natural sea water, PSS-78; the Dead Sea apart. */
const natural = (sp: number) => sp >= 0.05 && sp <= 46;
/** Salinities of the open ocean: water below this pressure is hardly ever fresher. */
const oceanic = (sp: number) => sp >= 28 && sp <= 42;
const brackishEnds_dbar = 500;

/** @returns the faults of both cells' columns; empty where they can be what they say */
export function unitFaults(columns: CastColumns, where: Where): readonly Fault[] {
  const deepest = max(columns.pressure_dbar) ?? Number.NaN;
  if (!(deepest > 0) && Number.isFinite(deepest)) {
    return [
      {
        ...at(where, "pressure_dbar"),
        found: `no pressure above ${deepest.toFixed(1)}`,
        expected: "sea pressure in dbar, growing downward",
        mend: "Give pressure, not height; dbar is 10 kPa.",
      },
    ];
  }
  return (["", "2"] as const).flatMap((suffix) => {
    const cell = suffix === "" ? columns.primary : columns.secondary;
    return cell === undefined
      ? []
      : cellFaults(cell, columns.pressure_dbar, deepest, suffix, where);
  });
}

function cellFaults(
  { temperature_C: t, conductivity_mS_cm: c }: CellColumns,
  p: Float64Array,
  deepest: number,
  suffix: "" | "2",
  where: Where,
): readonly Fault[] {
  const implied = (conductivity: (i: number) => number, temperature: (i: number) => number) => {
    const step = Math.max(1, Math.floor(p.length / 2000));
    const values: number[] = [];
    for (let i = 0; i < p.length; i += step) {
      // In air the cell reads near zero and says nothing of units.
      if (c[i]! > 0.2 && p[i]! > 0) values.push(spFromC(conductivity(i), temperature(i), p[i]!));
    }
    return median(values);
  };
  const asGiven = implied(
    (i) => c[i]!,
    (i) => t[i]!,
  );
  if (Number.isNaN(asGiven) && median(c) <= 0.2) return [];
  const siemens = where.places[`conductivity${suffix}_S_m`] !== undefined;
  const name = siemens
    ? (`conductivity${suffix}_S_m` as const)
    : (`conductivity${suffix}_mS_cm` as const);
  if (where.places[name] === undefined) return [];
  const told = `values whose median implies salinity ${asGiven.toFixed(1)}`;
  const tenfold = implied(
    (i) => 10 * c[i]!,
    (i) => t[i]!,
  );
  const deepAndFresh = deepest > brackishEnds_dbar && asGiven < 5;
  if (!siemens && oceanic(tenfold) && (asGiven < 0.05 || deepAndFresh)) {
    return [
      {
        ...at(where, name),
        found: told,
        expected: "mS/cm: 20 to 65 in the ocean",
        mend: `These look like S/m: name the column conductivity${suffix}_S_m, or map that name to it.`,
      },
    ];
  }
  if (natural(asGiven)) return [];
  const tenth = implied(
    (i) => c[i]! / 10,
    (i) => t[i]!,
  );
  if (siemens && natural(tenth)) {
    return [
      {
        ...at(where, name),
        found: told,
        expected: "S/m: 2 to 6.5 in the ocean",
        mend: `These look like mS/cm: name the column conductivity${suffix}_mS_cm, or map that name to it.`,
      },
    ];
  }
  const swapped = implied(
    (i) => t[i]!,
    (i) => c[i]!,
  );
  if (oceanic(swapped)) {
    return [
      {
        ...at(where, name),
        found: told,
        expected: "conductivity here and temperature in its own column",
        mend: `Temperature and conductivity look swapped: exchange the headings ${where.heading(name)} and ${where.heading(`temperature${suffix}_C`)}.`,
      },
    ];
  }
  return [
    {
      ...at(where, name),
      found: told,
      expected: "conductivity of sea water, salinity 0.05 to 46",
      mend: "Check the units of conductivity, temperature (ITS-90 degree C) and pressure (dbar).",
    },
  ];
}

function at({ file, line, heading }: Where, name: CastColumnName) {
  return { file, line, column: heading(name) };
}
