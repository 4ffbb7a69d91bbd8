// Reference bottles: y = ln(C_ctd / C_ref). C_ref is the conductivity of the laboratory salinity at the CTD's temperature
// and pressure. Observes the gain of the up leg. The error of a bottle is the same for every cell. A bottle is therefore
// used once, for the first cell that was read at closure; the pair relates the other cell to it. The bottle is checked
// against both cells, so that the error of an erratic cell is not taken for one of the bottle.
import type { Bottle } from "../../cast/bottle.js";
import type { Cast, CellName } from "../../cast/cast.js";
import { splitLegs } from "../../cast/splitLegs.js";
import { thinLayers } from "../../cast/thinLayers.js";
import {
  type LeftOut,
  type LineResult,
  type Observation,
  observesGainOf,
} from "../../model/observation.js";
import { bottleDesign } from "./bottleDesign.js";
import { type BottleNoise, type Departure, limited } from "./bottleNoise.js";
import {
  type BottleResiduals,
  type BottleSettings,
  bottleLabel,
  bottleResiduals,
} from "./bottleResiduals.js";
import { ofBottle, ofCell, scatterNotes } from "./bottleSentences.js";
import {
  agreesWith,
  type CellComparison,
  calmFirst,
  compareWithCell,
  type Judged,
} from "./cellComparison.js";
import { closureReader } from "./closureReadings.js";
import { withoutExchangedBottles } from "./exchangedBottles.js";
import { salinityGradients } from "./salinityGradients.js";

/** The evidence of the bottles of one cast. */
interface BottlesOfCast {
  /** Each bottle once. */
  readonly evidence: LineResult;
  /** The bottles compared with each cell separately, with the excluded ones and the reasons; the model uses `evidence`. */
  readonly byCell: readonly LineResult[];
  /** Departures within the cast, from which the cruise's noise is estimated. */
  readonly departures: readonly Departure[];
  /**
   * The error that the cast's bottles share because they scatter more than laboratory and water allow, ppm; otherwise 0.
   * The variances of the observations already contain it, so that their weighted mean has it.
   */
  readonly shared_ppm: number;
  /** Weighted mean of the observations of the reference cell, and its standard uncertainty. */
  readonly centre?: Centre;
}

interface Centre {
  readonly cell: CellName;
  readonly ppm: number;
  readonly standardUncertainty_ppm: number;
}

/**
 * Bottles of one cast as observations of the gain error.
 * @param bottles  those closed on this cast
 * @param cells    cells of the package, the reference cell first
 * @param cast     its scans, for bottles without CTD readings of their own
 * @param noise    of the cruise's bottles, from `bottleNoise`
 * @param settings start of the cast, fitted thermal lag of the cells, copied salinities
 */
export function bottlesEvidence(
  castId: string,
  bottles: readonly Bottle[],
  cells: readonly CellName[],
  cast: Cast | undefined,
  noise: BottleNoise,
  settings: BottleSettings = {},
): BottlesOfCast {
  const legs = settings.legs ?? (cast && splitLegs(cast));
  const thin = cast && legs && thinLayers(cast, legs);
  const gradients = salinityGradients(bottles, cells, thin);
  const own = { ...settings, ...(legs === undefined ? {} : { legs }) };
  const reader = closureReader(cast, bottles, own);
  const residuals = bottleResiduals(bottles, cells, reader, gradients, settings.copied);
  return judgeBottles(castId, withoutExchangedBottles(residuals), cells, noise);
}

/** The second half of `bottlesEvidence`: exclude strays, and give the others their variances. */
export function judgeBottles(
  castId: string,
  { residuals, leftOut: unusable, notes }: BottleResiduals,
  cells: readonly CellName[],
  noise: BottleNoise,
): BottlesOfCast {
  const beside = cells.map((cell) => compareWithCell(residuals, cell, noise));
  const judges = calmFirst(beside);
  const [first] = judges;
  const used: Judged[] = [];
  const strays: LeftOut[] = [];
  const blamed: string[] = [];
  for (const { bottle } of residuals.map((one) => one[0]!)) {
    const own = judges.find(({ judged }) => judged.has(bottle))!;
    const judged = own.judged.get(bottle)!;
    const better = judged.stray === undefined ? undefined : agreesWith(bottle, judged, own, judges);
    if (judged.stray === undefined) used.push(judged);
    else if (better === undefined)
      strays.push({ what: bottleLabel(bottle), why: ofBottle(judged) });
    else {
      used.push(better.judged.get(bottle)!);
      blamed.push(`${own.cell} cell, ${bottleLabel(bottle)}: ${ofCell(judged, own, better)}`);
    }
  }
  const shared_ppm = first?.fit.shared_ppm ?? 0;
  const observations = observationsOf(castId, used, shared_ppm);
  const line = { line: "bottles", cast: castId } as const;
  const scattered = first === undefined ? [] : scatterNotes(first, beside);
  return {
    evidence: {
      ...line,
      cell: "both",
      observations,
      leftOut: [...unusable, ...strays],
      notes: [...notes, ...scattered, ...blamed],
    },
    byCell: beside.map((own) => {
      const judged = [...own.judged.values()];
      const sound = judged.filter(({ stray }) => stray === undefined);
      return {
        ...line,
        cell: own.cell,
        observations: observationsOf(castId, sound, own.fit.shared_ppm),
        leftOut: [...unusable, ...judged.flatMap((one) => leftOutOf(one, own, beside))],
        notes: [],
      };
    }),
    departures: first === undefined ? [] : limited(first.fit.departures, noise),
    shared_ppm,
    ...centreOf(first?.cell, observations),
  };
}

function leftOutOf(
  judged: Judged,
  own: CellComparison,
  all: readonly CellComparison[],
): readonly LeftOut[] {
  if (judged.stray === undefined) return [];
  const { bottle } = judged.closure;
  const better = agreesWith(bottle, judged, own, all);
  const why = better === undefined ? ofBottle(judged) : ofCell(judged, own, better);
  return [{ what: bottleLabel(bottle), why }];
}

/**
 * Observations whose weighted mean has the variance of independent errors plus that of the shared error. A part of it goes
 * into each, so that the mean is not too certain if they are taken as independent.
 */
function observationsOf(
  cast: string,
  judged: readonly Judged[],
  shared_ppm: number,
): readonly Observation[] {
  const precision = judged.reduce((sum, { variance }) => sum + 1 / variance, 0);
  const share = 1 + shared_ppm ** 2 * precision;
  return judged.map(({ closure, variance }): Observation => {
    const { bottle, cell, residual, water } = closure;
    return {
      line: "bottles",
      cast,
      design: bottleDesign(cell, closure),
      unit: "ppm",
      value: residual,
      variance: variance * share,
      pressure_dbar: bottle.pressure_dbar,
      water,
      bottle: bottle.bottle,
      ...(bottle.run === undefined ? {} : { run: bottle.run }),
    };
  });
}

function centreOf(
  cell: CellName | undefined,
  observations: readonly Observation[],
): { readonly centre?: Centre } {
  const own = observations.filter((one) => cell !== undefined && observesGainOf(one, cell));
  if (cell === undefined || own.length === 0) return {};
  const precision = own.reduce((sum, { variance }) => sum + 1 / variance, 0);
  const sum = own.reduce((total, one) => total + one.value / one.variance, 0);
  return {
    centre: { cell, ppm: sum / precision, standardUncertainty_ppm: Math.sqrt(1 / precision) },
  };
}
