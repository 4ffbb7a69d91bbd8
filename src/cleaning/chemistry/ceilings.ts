// The strongest solution that is computed, or allowed in a ship's own procedure.

/**
 * Hypochlorite in ppm of available chlorine, detergent in % by volume, acid in mol/l. All judgement:
 * - hypochlorite: twice the ladder's 1000 ppm, which is ten times the concentration that reliably killed three test
 *   bacteria [RutalaEtAl1998]. Stronger solutions corrode metal and release more chlorine in an accident.
 * - detergent: five times the ladder's strongest. Stronger solutions foam and do not rinse out.
 * - acid: five times the ladder's. Stronger acid attacks metal and seals, and burns people.
 */
export const ceilings = { hypochlorite: 2000, detergent: 5, acid: 0.5 } as const;
