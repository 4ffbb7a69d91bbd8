// From the stock to the required solution: amounts that a person can measure, in the right order.
import { cautionsFor } from "../cautions.js";
import { ceilings } from "./ceilings.js";
import type { Dilution, DilutionStage } from "./dilution.js";
import { DilutionRefused } from "./dilutionRefused.js";
import { digits, dilutionNotes, dilutionSteps, roughly } from "./dilutionSteps.js";
import type { StrengthBounds } from "./hypochloriteAge.js";
import { measurable_ml, type Rounding } from "./measurable.js";
import { checkMixing, type Substance } from "./mixing.js";
import { type Stock, unitOf } from "./stock.js";
import { chlorinePercent, stockStrength } from "./stockStrength.js";

/** Refuse hypochlorite as too uncertain if it may be below half of its label (judgement). */
const oldest = 0.5;
/**
 * With a stock of uncertain strength, the ceiling may be exceeded by this share, because nobody measures better
 * (judgement).
 */
const allowance = 1.1;
const firstBottleFactors = [10, 100, 1000];
/** A disinfectant must not be weaker than required; an acid must not be stronger. */
const roundingOf: Readonly<Record<Stock["kind"], Rounding>> = {
  hypochlorite: "up",
  detergent: "nearest",
  acid: "down",
};

/**
 * The amounts of stock and water for a solution. They follow from the least strength of the stock, so that the solution is
 * not weaker than required.
 * @param wanted      concentration in the unit of the stock's kind (`unitOf`), volume in ml
 * @param vessel      content of the bottle, or what it was not rinsed of, in the order of pouring; empty if clean
 * @param smallest_ml least volume that can be measured; a 1 ml syringe or pipette by default
 * @throws DilutionRefused for a dangerous mixture, order or strength, and a stock that is not plausible, too weak, too old
 *   or already of that strength
 * @throws RangeError for amounts that are not above zero
 * @example dilute({ kind: "hypochlorite", percent: 5, meaning: "available chlorine by volume" }, { concentration: 500,
 *   volume_ml: 1000 }).stages[0].take_ml // 10
 */
export function dilute(
  stock: Stock,
  wanted: { readonly concentration: number; readonly volume_ml: number },
  vessel: readonly Substance[] = [],
  smallest_ml = 1,
): Dilution {
  const { concentration, volume_ml } = wanted;
  if (!(smallest_ml >= 0.1)) {
    throw new RangeError(`the least volume to measure is 0.1 ml or more, found ${smallest_ml}`);
  }
  for (const amount of [concentration, volume_ml]) {
    if (!(amount > 0 && Number.isFinite(amount))) {
      throw new RangeError(`amounts and strengths are above 0, found ${amount}`);
    }
  }
  const pours: readonly Substance[] =
    stock.kind === "acid" ? ["water", "acid"] : [stock.kind, "water"];
  pours.forEach((pour, i) => {
    checkMixing([...vessel, ...pours.slice(0, i)], pour);
  });
  const strength = stockStrength(stock);
  checkStrengths(stock, strength, concentration);
  const exact_ml = (volume_ml * concentration) / strength.least;
  const rounding = roundingOf[stock.kind];
  const stages =
    exact_ml >= smallest_ml
      ? [stage("stock", strength.least, exact_ml, volume_ml, rounding)]
      : twoStages(strength.least, wanted, smallest_ml, rounding);
  for (const { water_ml, from } of stages) {
    if (water_ml >= smallest_ml) continue;
    throw new DilutionRefused(
      "nothing to dilute",
      `The ${from} already has the strength wanted: no water would be added. Use it as it is, or start from a stronger stock.`,
      "C1 V1 = C2 V2",
    );
  }
  const last = stages.at(-1)!;
  const made = {
    kind: stock.kind,
    stages,
    makes_ml: volume_ml,
    concentration: last.concentration,
    concentrationAtMost: (last.concentration * strength.most) / strength.least,
    unit: unitOf[stock.kind],
    stockStrength: strength.least,
    stockStrengthAtMost: strength.most,
  };
  return {
    ...made,
    steps: dilutionSteps(made),
    cautions: cautionsFor([stock.kind]),
    notes: dilutionNotes(stock, made),
  };
}

function checkStrengths(stock: Stock, { least, most }: StrengthBounds, wanted: number): void {
  const unit = unitOf[stock.kind];
  const ceiling = ceilings[stock.kind];
  if (wanted > ceiling) {
    throw new DilutionRefused(
      "too strong",
      `${digits(wanted)} ${unit} is more than a cell is ever cleaned with. The limit is ${ceiling} ${unit}.`,
      "judgement",
    );
  }
  // 1 % is 10 000 ppm, by definition.
  const aged = stock.kind === "hypochlorite" && least < oldest * 10_000 * chlorinePercent(stock);
  if (aged || (wanted * most) / least > allowance * ceiling) {
    throw new DilutionRefused(
      "stock too old",
      `By its age the stock holds between ${roughly(least)} and ${roughly(most)} ${unit}. That is too uncertain. Use a fresh one, or measure it with test strips and enter what they say.`,
      "judgement",
    );
  }
  if (least < wanted) {
    throw new DilutionRefused(
      "stock too weak",
      `The stock holds ${digits(least)} ${unit}, less than the ${digits(wanted)} wanted. Use a stronger or fresher stock.`,
      "C1 V1 = C2 V2",
    );
  }
}

function twoStages(
  strength: number,
  { concentration, volume_ml }: { readonly concentration: number; readonly volume_ml: number },
  smallest_ml: number,
  rounding: Rounding,
): readonly DilutionStage[] {
  const exact_ml = (volume_ml * concentration) / strength;
  const factor = firstBottleFactors.find((times) => exact_ml * times >= smallest_ml);
  if (factor === undefined) {
    throw new DilutionRefused(
      "too little",
      `${exact_ml.toPrecision(2)} ml of the stock are needed. The least that can be measured is ${smallest_ml} ml. Start from a weaker stock or make up more.`,
      "C1 V1 = C2 V2",
    );
  }
  const taken_ml = measurable_ml(smallest_ml, "up");
  const first = stage("stock", strength, taken_ml, taken_ml * factor, "nearest");
  const second_ml = (volume_ml * concentration) / first.concentration;
  const most_ml = Math.min(first.makes_ml, volume_ml);
  return [
    first,
    stage("first bottle", first.concentration, Math.min(most_ml, second_ml), volume_ml, rounding),
  ];
}

function stage(
  from: DilutionStage["from"],
  strength: number,
  exact_ml: number,
  makes_ml: number,
  rounding: Rounding,
): DilutionStage {
  const take_ml = Math.min(makes_ml, measurable_ml(exact_ml, rounding));
  return {
    from,
    take_ml,
    water_ml: makes_ml - take_ml,
    makes_ml,
    concentration: (strength * take_ml) / makes_ml,
  };
}
