// Plausible ranges of the properties of a stock; a value outside is a typing error or in another unit.
import { DilutionRefused } from "./dilutionRefused.js";
import type { HypochloriteStock, Stock } from "./stock.js";

type Range = readonly [least: number, most: number];
interface StockQuantity {
  readonly name: string;
  readonly mend: string;
}

const quantities = {
  percent: { name: "strength in per cent", mend: "Write 5 for 5 %, not 0.05." },
  density_kg_l: { name: "density in kg/l", mend: "Write 1.07, not 1070." },
  undilutedDensity_kg_l: {
    name: "density of the undiluted detergent in kg/l",
    mend: "Write 1.07, not 1070.",
  },
  age_days: { name: "age in days", mend: "Count from the day it was made." },
  kept_C: {
    name: "temperature it was kept at, in degree C",
    mend: "Write degree C.",
  },
} as const satisfies Record<string, StockQuantity>;
type QuantityName = keyof typeof quantities;

/**
 * Judgement, with room to spare around what is sold. Hypochlorite is sold up to about 16 % by mass at 1.25 kg/l (from
 * memory); weaker than 1 % it is a working solution, which does not keep [RutalaEtAl1998]. Hydrochloric acid in water
 * ends near 40 % and 1.2 kg/l; acetic acid is densest near 80 %, at 1.07 kg/l (handbook values, from memory).
 */
const rangesOf = {
  hypochlorite: {
    percent: [1, 20],
    density_kg_l: [1, 1.3],
    age_days: [0, 3650],
    kept_C: [-20, 50],
  },
  detergent: { percent: [1, 100], density_kg_l: [0.9, 1.3], undilutedDensity_kg_l: [0.9, 1.3] },
  hydrochloric: { percent: [1, 40], density_kg_l: [1, 1.21] },
  acetic: { percent: [1, 100], density_kg_l: [0.99, 1.08] },
} as const satisfies Record<string, Partial<Record<QuantityName, Range>>>;

const meanings: readonly HypochloriteStock["meaning"][] = [
  "NaOCl by mass",
  "available chlorine by mass",
  "available chlorine by volume",
];

/** Required quantities of a stock. */
function neededOf(stock: Stock): readonly QuantityName[] {
  const byVolume =
    stock.kind === "detergent" ||
    (stock.kind === "hypochlorite" && stock.meaning === "available chlorine by volume");
  return byVolume ? ["percent"] : ["percent", "density_kg_l"];
}

/**
 * @throws DilutionRefused with the first property that is missing or not plausible
 * @throws RangeError for a stock of unknown kind
 */
export function checkStock(stock: Stock): void {
  const kind = stock.kind === "acid" ? stock.acid : stock.kind;
  const ranges: Partial<Record<QuantityName, Range>> | undefined = rangesOf[kind];
  if (ranges === undefined) throw new RangeError(`no stock is known by the name ${kind}`);
  if (stock.kind === "hypochlorite" && !meanings.includes(stock.meaning)) {
    throw new RangeError(`expected one of ${meanings.join(", ")}, found ${stock.meaning}`);
  }
  const given: Partial<Record<QuantityName, number>> = stock;
  const needed = neededOf(stock);
  for (const name of Object.keys(ranges) as QuantityName[]) {
    const [least, most] = ranges[name]!;
    const value = given[name];
    if (value === undefined ? !needed.includes(name) : value >= least && value <= most) continue;
    const { name: words, mend } = quantities[name];
    throw new DilutionRefused(
      "implausible stock",
      value === undefined
        ? `The ${words} of the ${stock.kind} stock is missing. Read it from the label or the safety data sheet.`
        : `The ${words} of the ${stock.kind} stock cannot be ${value}: expected ${least} to ${most}. ${mend}`,
      "judgement",
    );
  }
}
