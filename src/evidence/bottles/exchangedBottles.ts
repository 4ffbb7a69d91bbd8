// Two bottles of one cast with their labels exchanged: the salinity of each follows the CTD at the other. With few bottles
// no majority would show which of them are wrong.
import { spFromC } from "../../seawater/index.js";
import { median } from "../../statistics/robustCentre.js";
import { type BottleResiduals, bottleLabel, type CellComparisons } from "./bottleResiduals.js";

/** Lower salinities are outside the scale [UNESCO1983]: a cell in air, or a zero that stands for a missing value. */
const leastSalinity = 2;
/** Bottles in more similar water do not show it, PSS-78 (judgement: fifty times the laboratory's error). */
const leastApart = 0.05;
/**
 * A salinity follows the CTD at a bottle if it is off by at most this share of the difference between the two bottles. The
 * other bottles of the cast must follow their own CTD as well: in a spoilt batch two salinities may fit by chance (judgement).
 */
const followsWithin = 0.1;

/** Without the bottles whose labels were exchanged. */
export function withoutExchangedBottles({
  residuals,
  leftOut,
  notes,
}: BottleResiduals): BottleResiduals {
  const exchanged = exchangedPairs(residuals);
  if (exchanged.length === 0) return { residuals, leftOut, notes };
  const all = new Set(exchanged.flat());
  const labelOf = ([one]: CellComparisons) => bottleLabel(one!.bottle);
  const whyOf = (other: CellComparisons) =>
    `its salinity follows the CTD at ${labelOf(other)}, and the other way round: labels exchanged. Exchange them in the bottle file`;
  return {
    residuals: residuals.filter((one) => !all.has(one)),
    leftOut: [
      ...leftOut,
      ...exchanged.flatMap(([one, other]) => [
        { what: labelOf(one), why: whyOf(other) },
        { what: labelOf(other), why: whyOf(one) },
      ]),
    ],
    notes: [
      ...notes,
      ...exchanged.map(
        ([one, other]) =>
          `${labelOf(one)} and ${labelOf(other)} excluded: each salinity follows the CTD at the other bottle. Exchange the labels in the bottle file, and assess again`,
      ),
    ],
  };
}

/** Each bottle is in one pair at most. */
function exchangedPairs(
  residuals: readonly CellComparisons[],
): readonly (readonly [CellComparisons, CellComparisons])[] {
  const read = residuals.map((own) => {
    const { bottle, water } = own[0]!;
    const ctd = spFromC(water.conductivity_mS_cm, water.temperature_C, bottle.pressure_dbar);
    return { own, ctd, laboratory: bottle.salinity };
  });
  const pairs: (readonly [CellComparisons, CellComparisons])[] = [];
  const taken = new Set<CellComparisons>();
  for (const [i, one] of read.entries()) {
    if (!isSeaWater(one)) continue;
    const other = read
      .slice(i + 1)
      .filter(isSeaWater)
      .find((other) => {
        const within = followsWithin * Math.abs(one.ctd - other.ctd);
        return (
          within >= followsWithin * leastApart &&
          Math.abs(one.laboratory - other.ctd) < within &&
          Math.abs(other.laboratory - one.ctd) < within &&
          !(median(othersOff(read, one, other)) > within)
        );
      });
    if (other === undefined || taken.has(one.own) || taken.has(other.own)) continue;
    taken.add(one.own).add(other.own);
    pairs.push([one.own, other.own]);
  }
  return pairs;
}

interface SalinityRead {
  readonly ctd: number;
  readonly laboratory: number;
}

function isSeaWater({ ctd, laboratory }: SalinityRead): boolean {
  return Math.min(ctd, laboratory) > leastSalinity;
}

/** How far the salinities of the other bottles are from their own CTD. */
function othersOff(
  all: readonly SalinityRead[],
  one: SalinityRead,
  other: SalinityRead,
): readonly number[] {
  return all
    .filter((each) => each !== one && each !== other)
    .map(({ ctd, laboratory }) => Math.abs(laboratory - ctd));
}
