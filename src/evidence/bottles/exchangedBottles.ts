// Two bottles of one cast with their labels exchanged: the salinity of each follows the CTD at the other. With few bottles
// no majority would show which of them are wrong.
import { spFromC } from "../../seawater/index.js";
import { type BottleResiduals, bottleLabel, type CellComparisons } from "./bottleResiduals.js";

/** Lower salinities are outside the scale [UNESCO1983]: a cell in air, or a zero that stands for a missing value. */
const leastSalinity = 2;
/** Bottles in more similar water do not show it, PSS-78 (judgement: fifty times the laboratory's error). */
const leastApart = 0.05;
/**
 * A salinity follows the CTD at a bottle if it is off by at most this share of the difference between the two bottles. At
 * least half of the other bottles must follow their own CTD as well: in a spoilt batch two may fit by chance (judgement).
 */
const followsWithin = 0.1;

/** A bottle with its salinities beside the first cell that was read. */
export interface SalinityBesideCtd {
  readonly laboratory: number;
  readonly ctd: number;
}

export function besideCtd([one]: CellComparisons): SalinityBesideCtd {
  const { bottle, water } = one!;
  const ctd = spFromC(water.conductivity_mS_cm, water.temperature_C, bottle.pressure_dbar);
  return { laboratory: bottle.salinity, ctd };
}

/** Without the bottles whose labels were exchanged. */
export function withoutExchangedBottles(all: BottleResiduals): BottleResiduals {
  const read = all.residuals.map(besideCtd);
  return read.reduce((left, one, i) => {
    const j = read.findIndex((other, j) => j > i && areExchanged(one, other, read));
    const pair = [all.residuals[i]!, all.residuals[j]];
    if (!pair.every((own) => own !== undefined && left.residuals.includes(own))) return left;
    const labels = pair.map((own) => bottleLabel(own![0]!.bottle));
    const why = `${labels.join(" and ")}: each salinity follows the CTD at the other, so their labels were exchanged. Exchange them in the bottle file`;
    return {
      residuals: left.residuals.filter((own) => !pair.includes(own)),
      leftOut: [...left.leftOut, ...labels.map((what) => ({ what, why }))],
      notes: [...left.notes, `not used: ${why}, and assess again`],
    };
  }, all);
}

function areExchanged(
  one: SalinityBesideCtd,
  other: SalinityBesideCtd,
  all: readonly SalinityBesideCtd[],
): boolean {
  const apart = Math.abs(one.ctd - other.ctd);
  const follows = (salinity: SalinityBesideCtd, { ctd }: SalinityBesideCtd) =>
    Math.abs(salinity.laboratory - ctd) < followsWithin * apart;
  const isSea = ({ ctd, laboratory }: SalinityBesideCtd) =>
    Math.min(ctd, laboratory) > leastSalinity;
  if (!(apart >= leastApart && isSea(one) && isSea(other))) return false;
  if (!(follows(one, other) && follows(other, one))) return false;
  const rest = all.filter((each) => each !== one && each !== other);
  return 2 * rest.filter((each) => follows(each, each)).length >= rest.length;
}
