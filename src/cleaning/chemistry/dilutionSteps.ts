// A dilution in words: the steps of pouring, and the assumptions.
import type { Dilution, DilutionStage } from "./dilution.js";
import { storeTemperatures_C } from "./hypochloriteAge.js";
import type { Stock } from "./stock.js";

type Made = Omit<Dilution, "steps" | "cautions" | "notes">;

export function dilutionSteps(made: Made): readonly string[] {
  const { kind, stages } = made;
  const two = stages.length === 2;
  return [
    ...stages.map((stage, i) => pouring(stage, two && i === 0 ? "first bottle" : "bottle", made)),
    `Label ${two ? "both bottles" : "the bottle"} with the contents, the strength, the date and your name.`,
    ...(two ? ["Do not keep the rest of the first bottle. Dispose of it like the solution."] : []),
    ...(kind === "hypochlorite"
      ? [
          "Keep it closed, cool and dark. Discard it after a day: dilute hypochlorite does not keep.",
        ]
      : []),
  ];
}

function pouring(
  { from, take_ml, water_ml, makes_ml, concentration }: DilutionStage,
  bottle: string,
  { kind, unit, ...made }: Made,
): string {
  const source = from === "stock" ? `${kind} stock` : "solution in the first bottle";
  const atLeast = made.stockStrengthAtMost > made.stockStrength ? "at least " : "";
  const gives = `This gives ${digits(makes_ml)} ml of ${atLeast}${digits(concentration)} ${unit}.`;
  return kind === "acid"
    ? `Pour ${digits(water_ml)} ml of deionised water into the ${bottle}. Then add ${digits(take_ml)} ml of the ${source} to it, slowly. ${gives}`
    : `Measure ${digits(take_ml)} ml of the ${source} into the ${bottle}. Add ${digits(water_ml)} ml of deionised water. ${gives}`;
}

export function dilutionNotes(stock: Stock, made: Made): readonly string[] {
  if (stock.kind !== "hypochlorite") return [];
  if (stock.age_days === undefined) {
    return [
      "No age was given, so the stock is taken to be as strong as its label. An older stock is weaker. Test strips tell.",
    ];
  }
  if (stock.age_days === 0) return [];
  const { stockStrength: least, stockStrengthAtMost: most, concentrationAtMost, unit } = made;
  const { cold, warm } = storeTemperatures_C;
  return [
    `By its age the stock holds between ${roughly(least)} and ${roughly(most)} ${unit}, if kept closed and dark. The amounts follow from the lower figure, so that the solution is not too weak. It holds ${roughly(concentrationAtMost)} ${unit} at most. Test strips tell.`,
    ...(stock.kept_C === undefined
      ? [`No temperature was given. It is assumed to have been ${cold} to ${warm} degree C.`]
      : []),
  ];
}

/** An estimated number: at most two digits. */
export function roughly(value: number): number {
  return Number(value.toPrecision(2));
}

/** For people: at most four digits. */
export function digits(value: number): number {
  return Number(value.toPrecision(4));
}
