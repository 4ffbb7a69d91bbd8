// The usual cautions, by hazard, in the order in which a person needs them. Every result that tells someone to do
// something carries them. Facts behind them: docs/cleaning.md.

/** The most dangerous first. */
export const hazards = [
  "hypochlorite",
  "acid",
  "detergent",
  "pressure-housing",
  "battery",
] as const;
export type Hazard = (typeof hazards)[number];

/** When a person needs a caution. */
export const moments = ["before", "during", "if it goes wrong", "after"] as const;
export type Moment = (typeof moments)[number];
type Cautions = Readonly<Partial<Record<Moment, readonly string[]>>>;

const general = {
  before: [
    "This is advice. The label, the safety data sheet, the maker's instructions and local rules come first. Only people trained in this work should do it.",
    "Work on the open deck or in good ventilation. Wear gloves and sealed goggles. Keep clean water within reach for eyes and skin.",
    "Never mix cleaning solutions: not in the cell, the tubing or the waste bottle. Flush with plenty of fresh water between them.",
  ],
  "if it goes wrong": [
    "Keep clear of a leaking battery pack and of a housing that may be under pressure. Do not open them. Call people trained for it.",
  ],
} as const satisfies Cautions;

const rinse =
  "rinse with water for 15 to 20 minutes. Take contact lenses out after the first 5. Get medical advice at once.";

const byHazard = {
  hypochlorite: {
    before: [
      "Hypochlorite gives off chlorine with any acid, and chloramines with ammonia or urine. Both gases are poisonous, even from dilute solutions. Keep them apart in work, tubing and waste.",
    ],
    during: [
      "Hypochlorite burns eyes and skin, bleaches cloth and corrodes metal. Keep it off frames and connectors. Make it up fresh. Label and date the bottle.",
    ],
    "if it goes wrong": [
      "Smell of chlorine: leave at once, go upwind, warn others, do not go back, and call for help.",
      `Hypochlorite in the eyes: ${rinse} On the skin: rinse at once.`,
    ],
    after: [
      "Hypochlorite waste: collect it in its own labelled bottle, never with acid. Where local rules allow, neutralise it with thiosulfate or ascorbate. None goes overboard without the ship's permission.",
    ],
  },
  acid: {
    before: [
      "Acid is for trained people only. Follow the safety data sheet, the label and the maker's instructions.",
      "Work in a fume hood, or upwind on the open deck. Wear a face shield over the goggles, an apron, and the gloves that the safety data sheet names.",
      "Never mix acid with bleach or any other hypochlorite: it gives off poisonous chlorine. Never use both on the same day. Never use acid in a line that held hypochlorite, unless it was rinsed until pH paper reads neutral.",
    ],
    during: [
      "Pour acid into water, slowly. Never pour water into acid: it boils and spatters.",
      "Leave the line open while acid is in it: gas must be able to leave.",
    ],
    "if it goes wrong": [`Acid in the eyes or on the skin: ${rinse}`],
    after: [
      "After acid, rinse with plenty of fresh water until pH paper reads neutral.",
      "Acid waste: collect it in its own labelled bottle, never with hypochlorite. Where local rules allow, neutralise it slowly with bicarbonate in an open bottle: it foams.",
    ],
  },
  detergent: {
    before: ["Use a phenol-free nonionic detergent without dye or perfume."],
    during: ["Detergent irritates the eyes and makes a wet deck slippery. Wipe up spills at once."],
    "if it goes wrong": ["Detergent in the eyes: rinse with water for 15 minutes and get advice."],
    after: [
      "Detergent waste: collect it in its own labelled bottle. None goes overboard without the ship's permission.",
    ],
  },
  "pressure-housing": {
    before: [
      "Disconnect the power before you open a connector or a housing.",
      "A housing may be under pressure and can throw its end cap. Nobody stands in front of the end cap. Vent the housing as the maker says before you open it.",
      "Do not open a housing that has flooded or leaked. Point its end cap away from people, and leave it to people trained for it.",
    ],
    after: ["Inspect every seal and end cap that was opened before the next cast."],
  },
  battery: {
    before: [
      "Follow the label and the safety data sheet of the cells, and the maker's instructions. Lithium cells can vent gas, burn or burst. Alkaline cells can leak, and give off hydrogen in a closed housing.",
      "So a battery housing may be under pressure. Only trained people open it. They vent it first, as the maker says. Nobody stands in front of the end cap.",
    ],
    during: [
      "Do not short or open cells. Do not charge cells that are not made for charging. Do not mix old and new cells, or cells of two kinds.",
    ],
    "if it goes wrong": [
      "Do not touch a pack that is hot, swollen or leaking, or that smells. Keep people away and call people trained for it.",
    ],
    after: ["Dispose of used cells by local rules."],
  },
} as const satisfies Record<Hazard, Cautions>;

/** Cautions for any work on the instrument, even a rinse. */
export const generalCautions: readonly string[] = inOrder([general]);

/** Cautions of a hazard beside the general ones. */
export const cautionsByHazard: Readonly<Record<Hazard, readonly string[]>> = {
  hypochlorite: inOrder([byHazard.hypochlorite]),
  acid: inOrder([byHazard.acid]),
  detergent: inOrder([byHazard.detergent]),
  "pressure-housing": inOrder([byHazard["pressure-housing"]]),
  battery: inOrder([byHazard.battery]),
};

/** The cautions of some work, each once: before it, during it, if it goes wrong, after it. */
export function cautionsFor(found: readonly Hazard[]): readonly string[] {
  return inOrder([
    general,
    ...hazards.filter((one) => found.includes(one)).map((one) => byHazard[one]),
  ]);
}

/** When a person needs a caution. A caution from elsewhere, such as what must not be touched, is needed during the work. */
export function momentOf(caution: string): Moment {
  const sets: readonly Cautions[] = [general, ...Object.values(byHazard)];
  return (
    moments.find((moment) => sets.some((set) => set[moment]?.includes(caution) === true)) ??
    "during"
  );
}

function inOrder(sets: readonly Cautions[]): readonly string[] {
  return moments.flatMap((moment) => sets.flatMap((cautions) => cautions[moment] ?? []));
}
