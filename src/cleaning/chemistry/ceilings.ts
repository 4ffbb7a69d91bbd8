// The strongest solution that is worked out, or allowed in a ship's own procedure.

/**
 * Hypochlorite in ppm of available chlorine, detergent in % by volume, acid in mol/l. All judgement:
 * - hypochlorite: twice the ladder's 1000 ppm, which is ten times what reliably killed three test bacteria
 *   [RutalaEtAl1998]. More corrodes metal and gives off more chlorine by accident.
 * - detergent: five times the ladder's strongest. More foams and does not rinse out.
 * - acid: five times the ladder's. More attacks metal and seals, and burns people.
 */
export const ceilings = { hypochlorite: 2000, detergent: 5, acid: 0.5 } as const;
