// The variables with the readings of each sensor: by their standard names [CFStandardNames2023], a second sensor by the
// names of the variables.
import { BadInput, type Fault } from "../badInput.js";
import type { CastColumnName, CastMapping } from "../castColumnNames.js";
import {
  type Conversion,
  conductivityFrom,
  pressureFrom,
  salinityFrom,
  temperatureFrom,
} from "../quantityUnits.js";
import { type NetcdfFile, type NetcdfVariable, textOf } from "./netcdfFile.js";
import { absent, noSuch, unknownUnit } from "./sensorFaults.js";

interface NetcdfQuantity {
  /** The first that is present is used. */
  readonly standardNames: readonly string[];
  readonly from: (unit: string) => Conversion | undefined;
  readonly unit: string;
  /** Our columns for it: of the first sensor, and of the second. */
  readonly columns: readonly [CastColumnName, CastColumnName?];
  /** Our columns that a user may map; units are those of the file. */
  readonly told: readonly (readonly CastColumnName[])[];
}

const quantities = {
  pressure: {
    standardNames: ["sea_water_pressure_due_to_sea_water", "sea_water_pressure"],
    from: pressureFrom,
    unit: "dbar, Pa or bar",
    columns: ["pressure_dbar"],
    told: [["pressure_dbar"]],
  },
  temperature: {
    standardNames: ["sea_water_temperature"],
    from: temperatureFrom,
    unit: "degree_C or K",
    columns: ["temperature_C", "temperature2_C"],
    told: [["temperature_C"], ["temperature2_C"]],
  },
  conductivity: {
    standardNames: ["sea_water_electrical_conductivity"],
    from: conductivityFrom,
    unit: "S m-1 or mS cm-1",
    columns: ["conductivity_mS_cm", "conductivity2_mS_cm"],
    told: [
      ["conductivity_mS_cm", "conductivity_S_m"],
      ["conductivity2_mS_cm", "conductivity2_S_m"],
    ],
  },
  salinity: {
    standardNames: ["sea_water_practical_salinity", "sea_water_salinity"],
    from: salinityFrom,
    unit: "1, 1e-3 or PSS-78",
    columns: ["salinity", "salinity2"],
    told: [["salinity"], ["salinity2"]],
  },
} as const satisfies Record<string, NetcdfQuantity>;

export interface NetcdfSensor {
  readonly column: CastColumnName;
  readonly variable: NetcdfVariable;
  readonly conversion: Conversion;
}

/**
 * @param mapping from our column names to names of variables; it has priority over their standard names
 * @returns pressure and temperature, and conductivity or salinity, of one cell or of two
 * @throws BadInput if variables are missing, in unknown units, or of more sensors than can be distinguished
 */
export function sensorsOf(
  file: NetcdfFile,
  mapping: CastMapping,
  name: string,
): { readonly sensors: readonly NetcdfSensor[]; readonly notes: readonly string[] } {
  const faults: Fault[] = [];
  const notes: string[] = [];
  const find = (quantity: NetcdfQuantity): readonly NetcdfSensor[] => {
    const variables = variablesOf(file, quantity, mapping);
    if (typeof variables[0] === "object" && "found" in variables[0]) {
      faults.push({ file: name, line: 0, ...(variables[0] as Omit<Fault, "file" | "line">) });
      return [];
    }
    const found = variables as readonly NetcdfVariable[];
    if (found.length > 1) {
      const [a, b] = found.map((variable) => variable.name);
      notes.push(`${a} was taken for the first sensor, ${b} for the second, by their names`);
    }
    return found.flatMap((variable, k) => {
      const unit = textOf(variable, "units") ?? "";
      const conversion = quantity.from(unit);
      if (conversion === undefined) {
        faults.push(unknownUnit(name, variable.name, unit, quantity.unit));
        return [];
      }
      if (conversion.factor !== 1 || conversion.offset !== 0) {
        notes.push(`${variable.name} was converted from ${unit}`);
      }
      return [{ column: quantity.columns[k]!, variable, conversion }];
    });
  };
  const pressure = find(quantities.pressure);
  const temperature = find(quantities.temperature);
  const conductivity = find(quantities.conductivity);
  const cells =
    conductivity.length > 0 || faults.length > 0 ? conductivity : find(quantities.salinity);
  if (faults.length > 0) throw new BadInput(faults);
  const missing = [
    ...(pressure.length === 0 ? [quantities.pressure] : []),
    ...(temperature.length === 0 ? [quantities.temperature] : []),
    ...(cells.length === 0 ? [quantities.conductivity] : []),
  ];
  if (missing.length > 0) {
    throw new BadInput(
      missing.map((quantity) =>
        absent(file, quantity.standardNames.at(-1)!, quantity.columns[0], name),
      ),
    );
  }
  const pairs = Math.min(temperature.length, cells.length);
  for (const { variable } of [...temperature.slice(pairs), ...cells.slice(pairs)]) {
    notes.push(
      `${variable.name} has no other sensor beside it: no second cell was taken from the file`,
    );
  }
  return {
    sensors: [...pressure, ...temperature.slice(0, pairs), ...cells.slice(0, pairs)],
    notes,
  };
}

/** The variables of a quantity, first sensor first; or a fault if they cannot be distinguished. */
function variablesOf(
  { variables }: NetcdfFile,
  { standardNames, told, columns }: NetcdfQuantity,
  mapping: CastMapping,
): readonly (NetcdfVariable | Omit<Fault, "file" | "line">)[] {
  const named = told.map((names) => names.map((column) => mapping[column]).find(Boolean));
  if (named[0] !== undefined) {
    return named.flatMap((wanted) => {
      if (wanted === undefined) return [];
      return [variables.find((variable) => variable.name === wanted) ?? noSuch(wanted, variables)];
    });
  }
  const all = standardNames
    .map((standard) => variables.filter((v) => textOf(v, "standard_name") === standard))
    .find((list) => list.length > 0);
  if (all === undefined || all.length === 1) return all ?? [];
  const ranked = all.map((variable) => ({ variable, rank: rankOf(variable.name) }));
  const first = ranked.filter(({ rank }) => rank === 1);
  const second = ranked.filter(({ rank }) => rank === 2);
  const plain = ranked.filter(({ rank }) => rank === undefined);
  const [one, other] = [first[0] ?? plain[0], second[0]];
  if (all.length === 2 && columns.length === 2 && one !== undefined && other !== undefined) {
    return [one.variable, other.variable];
  }
  const names = all.map(({ name }) => name).join(", ");
  return [
    {
      column: names.slice(0, 200),
      found: `${all.length} variables with the standard name ${textOf(all[0]!, "standard_name")}`,
      expected: `${columns.length === 2 ? "one for each cell, distinguished by 1 and 2 at the end of their names" : "one"}`,
      mend: `Name the one to be taken with --column ${told[0]![0]}=${all[0]!.name}, or under \`mapping\` in cruise.json.`,
    },
  ];
}

/** Which of two sensors the name of a variable means; undefined if neither. */
function rankOf(name: string): 1 | 2 | undefined {
  if (/(^|[^0-9])2$|(^|_)(secondary|second|sec)(_|$)/i.test(name)) return 2;
  return /(^|[^0-9])1$|(^|_)(primary|first|pri)(_|$)/i.test(name) ? 1 : undefined;
}
