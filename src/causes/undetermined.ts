// Undetermined: none of the other patterns fits. Every observation of the cast may be off by far more than its stated
// uncertainty, and the cast carries little information.

import type { Cause } from "../model/cause.js";
import { evidenceSentence } from "./sentences.js";

/** Per cast (judgement: so low that any pattern that fits comes first). */
const chance = 0.002;
/**
 * Off by some hundredths in salinity; by units, as in a wrong cast or place; or no reading of sea water at all, as in a transmission
 * with errors (judgement).
 */
const sizes = [
  { share: 0.7, extraVariance: () => 500 ** 2 },
  { share: 0.25, extraVariance: () => 20_000 ** 2 },
  { share: 0.05, extraVariance: () => 10_000_000 ** 2 },
];

export const undetermined: Cause<"undetermined"> = {
  name: "undetermined",
  isTemporary: true,
  propose: () =>
    sizes.map(({ share, extraVariance }) => ({
      prior: chance * share,
      coefficients: [],
      extraVariance,
      doubts: [{ cause: "undetermined" }],
    })),
  matches: ({ isDoubted }) => isDoubted("undetermined"),
  sentence: (grounds) =>
    grounds.evidence.length === 0
      ? "There is no evidence on this cell yet."
      : `No known cause fits the evidence. ${evidenceSentence(grounds)}`,
  action: 'The evidence does not settle the cause. See "would decide".',
};
