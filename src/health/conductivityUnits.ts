// Conductivity in another unit than mS/cm: a factor of ten or a thousand is beyond any fouling. The readers check the units
// of files. This is for columns from other sources, and for two cells in different units, which one cell alone cannot show.
import type { CellName } from "../cast/cast.js";
import { spFromC } from "../seawater/index.js";
import { median } from "../statistics/robustCentre.js";
import { digits, ofCell, placeOf } from "./describe.js";
import type { HealthFinding } from "./finding.js";
import type { WaterPart } from "./waterPart.js";

const otherUnits = [
  // To mS/cm, by definition.
  { unit: "S/m", factor: 10 },
  { unit: "S/cm", factor: 1000 },
  { unit: "uS/cm", factor: 0.001 },
] as const;

/** Number of readings examined, evenly spread (judgement: speed). */
const sample = 500;
/** Two cells in the same water and the same unit agree within this factor, unless one is broken or blocked (judgement). */
const agree = 1.1;
/** Salinities of natural sea water, PSS-78, salt lakes apart, and of oceans (common practice, no source). */
const natural = (sp: number) => sp >= 0.05 && sp <= 46;
const oceanic = (sp: number) => sp >= 28 && sp <= 42;
/** No sea has fresher water below `freshEnds_dbar`: the Bothnian Bay ends at about 150 m (from memory). */
const fresh = 5;
const freshEnds_dbar = 160;
/** No sea water has a higher conductivity, mS/cm: SP 46 at 50 degree C has less (derived). */
const mostConductive = 110;

export function conductivityUnits(part: WaterPart, cell: CellName): readonly HealthFinding[] {
  const readings = part.columns[cell]!;
  const { pressure_dbar: pressure } = part.columns;
  const twin = part.columns[cell === "primary" ? "secondary" : "primary"];
  const stride = Math.max(1, Math.floor((part.to - part.from) / sample));
  const conductivity: number[] = [];
  const ratio: number[] = [];
  const salinities = otherUnits.map(() => [] as number[]);
  const asGiven: number[] = [];
  let deepest = Number.NEGATIVE_INFINITY;
  for (let i = part.from; i < part.to; i += stride) {
    const c = readings.conductivity_mS_cm[i]!;
    const t = readings.temperature_C[i]!;
    const p = pressure[i]!;
    conductivity.push(c);
    asGiven.push(spFromC(c, t, p));
    // Deeper than any trench, dbar (common practice, no source).
    if (p > deepest && p < 12000) deepest = p;
    if (twin !== undefined) ratio.push(c / twin.conductivity_mS_cm[i]!);
    for (const [k, { factor }] of otherUnits.entries())
      salinities[k]!.push(spFromC(factor * c, t, p));
  }
  const usual = median(conductivity);
  const given = median(asGiven);
  const toTwin = median(ratio);
  for (const [k, { unit, factor }] of otherUnits.entries()) {
    const converted = median(salinities[k]!);
    // If no water has such a conductivity, or the other cell has it in other units, any natural salinity confirms the unit.
    const tooMuch = usual > mostConductive && natural(converted);
    const unlikeTwin = toTwin * factor > 1 / agree && toTwin * factor < agree && natural(converted);
    const tooFresh = given < fresh && deepest > freshEnds_dbar && oceanic(converted) && factor > 1;
    if (!(tooMuch || unlikeTwin || tooFresh)) continue;
    const beside = unlikeTwin ? `, ${digits(toTwin)} times those of the other cell` : "";
    return [
      {
        kind: "units",
        cell,
        sensor: "conductivity",
        ...placeOf(part, part.from, part.to - 1),
        size: { value: factor, unit: "times" },
        what: `The ${ofCell(cell, "conductivity")} has readings about ${digits(usual)} mS/cm${beside}: in ${unit} they would be sea water.`,
        mend: `Convert from ${unit}: multiply by ${factor}.`,
        serious: true,
      },
    ];
  }
  return [];
}
