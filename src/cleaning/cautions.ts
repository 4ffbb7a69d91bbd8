// The usual cautions, by hazard. Every result that tells someone to do something carries them.
// Facts behind them: docs/cleaning.md.

export const hazards = [
  "detergent",
  "hypochlorite",
  "acid",
  "pressure-housing",
  "battery",
] as const;
export type Hazard = (typeof hazards)[number];

/** With every work on the instrument, a rinse too. */
export const generalCautions: readonly string[] = [
  "This is advice: the label, the safety data sheet, the maker's instructions and local rules come first, and the work is for people trained in it.",
  "Work in good ventilation or on the open deck, with gloves and sealed goggles on, and clean water to rinse eyes and skin within reach.",
  "Never mix one cleaning solution with another, in the cell, the tubing or the waste bottle; flush with plenty of fresh water between them.",
  "A leaking battery pack, or a housing that may be under pressure, is not opened by reading this: keep clear of it and call those who are trained for it.",
];

export const cautionsByHazard: Readonly<Record<Hazard, readonly string[]>> = {
  detergent: [
    "Detergent irritates the eyes and makes a wet deck slippery; wipe up what is spilt.",
    "Use a phenol-free nonionic detergent without dye or perfume; no detergent goes overboard without the ship's permission.",
  ],
  hypochlorite: [
    "Hypochlorite with any acid gives off chlorine, with ammonia or urine chloramines: both are poisonous, even from dilute solutions. Keep them apart, in work, tubing and waste.",
    "Hypochlorite burns eyes and skin, bleaches cloth and eats metal: rinse splashes at once, keep it off frames and connectors, make it up fresh and label and date the bottle.",
  ],
  acid: [
    "Acid is poured into water, slowly; water is never poured into acid: it boils and spatters.",
    "Acid is for trained hands, in a fume hood or upwind on the open deck, with a face shield over the goggles, an apron, and gloves that the safety data sheet names.",
    "Never on the same day as hypochlorite, nor in a line that held it, unless rinsed until pH paper reads neutral; leave the line open, for gas must get out.",
    "Acid on skin or in the eyes: rinse with water for 15 to 20 minutes and get medical advice.",
  ],
  "pressure-housing": [
    "A housing that has flooded or leaked can hold pressure and throw its end cap: point it away from people, do not open it, and leave it to those who are trained for it.",
    "Disconnect power first; inspect every seal and end cap that was opened before the next cast.",
  ],
  battery: [
    "A pack that is hot, swollen, leaking or smells is left alone, in the open, away from people: it can vent gas, burn or burst.",
    "Do not short, charge or open cells that are not made for it; dispose of them by local rules.",
  ],
};

/** The cautions of some work: the general ones, then those of its hazards. */
export function cautionsFor(found: readonly Hazard[]): readonly string[] {
  const own = hazards.filter((hazard) => found.includes(hazard));
  return [...generalCautions, ...own.flatMap((hazard) => cautionsByHazard[hazard])];
}
