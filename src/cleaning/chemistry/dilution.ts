// From the stock on the shelf to the solution wanted: amounts that a person can measure, in the right order.
import { cautionsFor } from "../cautions.js";
import { DilutionRefused } from "./dilutionRefused.js";
import { checkMixing, type Substance } from "./mixing.js";
import { chlorinePercent, type Stock, stockStrength, unitOf } from "./stock.js";

/** One mixing: C1 V1 = C2 V2, exactly. */
export interface DilutionStage {
  /** `stock`, or the bottle of the stage before. */
  readonly from: "stock" | "first bottle";
  readonly take_ml: number;
  readonly water_ml: number;
  readonly makes_ml: number;
  /** Of what it makes, in the unit of the dilution. */
  readonly concentration: number;
}

export interface Dilution {
  readonly kind: Stock["kind"];
  /** One, or two where the stock's amount would be too small to measure. */
  readonly stages: readonly DilutionStage[];
  readonly makes_ml: number;
  /** What comes out, which measurable amounts round from what was wanted by 5 % at most. */
  readonly concentration: number;
  readonly unit: (typeof unitOf)[Stock["kind"]];
  /** Strength of the stock that was reckoned with. */
  readonly stockStrength: number;
  readonly steps: readonly string[];
  readonly cautions: readonly string[];
}

/** Below half of its label, hypochlorite is too uncertain to reckon with (judgement). */
const oldest = 0.5;
const firstBottleFactors = [10, 100, 1000];

/**
 * @param wanted      concentration in the unit of the stock's kind (`unitOf`), volume in ml
 * @param vessel      what the bottle holds or was not rinsed of, in the order it went in; empty where clean
 * @param smallest_ml least volume that can be measured; a 1 ml syringe or pipette by default
 * @throws DilutionRefused for a dangerous mixture or order, and a stock that is too weak or too old
 * @throws RangeError for amounts that are not above zero
 * @example dilute({ kind: "hypochlorite", percent: 5, meaning: "available chlorine by volume" }, { concentration: 500, volume_ml: 1000 }).stages[0].take_ml // 10
 */
export function dilute(
  stock: Stock,
  wanted: { readonly concentration: number; readonly volume_ml: number },
  vessel: readonly Substance[] = [],
  smallest_ml = 1,
): Dilution {
  const { concentration, volume_ml } = wanted;
  if (!(smallest_ml >= 0.1)) {
    throw new RangeError(
      `the least volume that can be measured is 0.1 ml or more, found ${smallest_ml}`,
    );
  }
  for (const amount of [stock.percent, concentration, volume_ml]) {
    if (!(amount > 0 && Number.isFinite(amount))) {
      throw new RangeError(`amounts and strengths are above 0, found ${amount}`);
    }
  }
  const pours: readonly Substance[] =
    stock.kind === "acid" ? ["water", "acid"] : [stock.kind, "water"];
  pours.forEach((pour, i) => {
    checkMixing([...vessel, ...pours.slice(0, i)], pour);
  });
  const strength = strengthOf(stock);
  const unit = unitOf[stock.kind];
  if (strength < concentration) {
    throw new DilutionRefused(
      "stock too weak",
      `The stock holds ${round(strength)} ${unit}, less than the ${concentration} wanted. Use a stronger or fresher stock.`,
      "C1 V1 = C2 V2",
    );
  }
  const exact_ml = (volume_ml * concentration) / strength;
  const stages =
    exact_ml >= smallest_ml
      ? [stage("stock", strength, exact_ml, volume_ml)]
      : twoStages(strength, concentration, volume_ml, smallest_ml);
  const last = stages.at(-1)!;
  return {
    kind: stock.kind,
    stages,
    makes_ml: volume_ml,
    concentration: last.concentration,
    unit,
    stockStrength: strength,
    steps: [
      ...stages.map((made, i) => sentence(made, i, stages.length, stock.kind, unit)),
      ...after[stock.kind],
    ],
    cautions: cautionsFor([stock.kind]),
  };
}

function strengthOf(stock: Stock): number {
  const strength = stockStrength(stock);
  if (stock.kind === "hypochlorite" && strength < oldest * 10_000 * chlorinePercent(stock)) {
    throw new DilutionRefused(
      "stock too old",
      `By its age the stock has lost more than half of its strength: ${round(strength)} ppm would be left, too uncertain to reckon with. Use a fresh one, or measure it with test strips and state what they say.`,
      "judgement",
    );
  }
  return strength;
}

function twoStages(
  strength: number,
  concentration: number,
  volume_ml: number,
  smallest_ml: number,
): readonly DilutionStage[] {
  const exact_ml = (volume_ml * concentration) / strength;
  const factor = firstBottleFactors.find((times) => exact_ml * times >= smallest_ml);
  if (factor === undefined) {
    throw new DilutionRefused(
      "too little",
      `${exact_ml.toPrecision(2)} ml of the stock are needed, and ${smallest_ml} ml is the least that can be measured. Start from a weaker stock or make up more.`,
      "C1 V1 = C2 V2",
    );
  }
  const first = stage("stock", strength, smallest_ml, smallest_ml * factor);
  const second_ml = Math.min(first.makes_ml, (volume_ml * concentration) / first.concentration);
  return [first, stage("first bottle", first.concentration, second_ml, volume_ml)];
}

function stage(
  from: DilutionStage["from"],
  strength: number,
  exact_ml: number,
  makes_ml: number,
): DilutionStage {
  const take_ml = Math.min(makes_ml, measurable(exact_ml));
  return {
    from,
    take_ml,
    water_ml: makes_ml - take_ml,
    makes_ml,
    concentration: (strength * take_ml) / makes_ml,
  };
}

/** To the marks of a syringe or cylinder of fitting size: within 5 % from 1 ml on. */
function measurable(ml: number): number {
  const mark = [
    [1, 0.01],
    [10, 0.1],
    [25, 0.5],
    [100, 1],
    [1000, 5],
    [Number.POSITIVE_INFINITY, 10],
  ].find(([below]) => ml < below!)![1]!;
  // By whole marks, so that 0.1 x 3 reads 0.3.
  return Number((Math.round(ml / mark) * mark).toFixed(2));
}

function sentence(
  made: DilutionStage,
  index: number,
  of: number,
  kind: Stock["kind"],
  unit: string,
): string {
  const bottle = of === 2 && index === 0 ? "first bottle" : "bottle";
  const source = made.from === "stock" ? `${kind} stock` : "first bottle's solution";
  const gives = `this gives ${round(made.makes_ml)} ml of ${round(made.concentration)} ${unit}`;
  return kind === "acid"
    ? `Pour ${round(made.water_ml)} ml of deionised water into the ${bottle}, then add ${round(made.take_ml)} ml of the ${source} to it, slowly; ${gives}.`
    : `Measure ${round(made.take_ml)} ml of the ${source} into the ${bottle} and add ${round(made.water_ml)} ml of deionised water; ${gives}.`;
}

const label = "Label the bottle with what it holds, its strength, the date and your name.";
const after: Readonly<Record<Stock["kind"], readonly string[]>> = {
  hypochlorite: [
    label,
    "Keep it closed, cool and dark, and throw it away after a day: dilute hypochlorite does not keep.",
  ],
  detergent: [label],
  acid: [label],
};

/** For people: at most four digits. */
function round(value: number): number {
  return Number(value.toPrecision(4));
}
