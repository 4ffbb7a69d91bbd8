// The readings in air by themselves: the offset of a cell in uS/cm, where water is left in it on every cast and nothing
// is known of a rinse. What stays on the wall is exponential from cast to cast. The bound is told its mean, that the
// draining is over, and the noise of a scan: an exponential error on a small normal one has an edge, and an edge says
// much. The estimator is told none of it. It does not take the usual water away but doubts the reading by it, so its
// bias is that water.
import { airZeroEvidence } from "../../src/evidence/air/airZero.js";
import { type Scenario, simulateCruise } from "../../src/simulate/index.js";
import { normalLogCdf, normalPdf } from "../../src/statistics/normal.js";
import { type Found, tableRow } from "./linesTable.js";

const offset_uS_cm = 3;
/** Of a scan in air, as in src/simulate/deck.ts. */
const noise_uS_cm = 0.4;
const rate_Hz = 4;
const deck = {
  seconds: 90,
  draining_microsiemens_cm: 20,
  draining_s: 10,
  left_microsiemens_cm: 2,
} as const;
const casts = 300;

const scenario: Scenario = {
  seed: 2001,
  casts,
  cells: ["primary"],
  ocean: "shelf",
  deepest_dbar: 20,
  bottles: 1,
  sampling: { kind: "time-series", rate_Hz, soak_s: 20, deck: { before: deck, after: deck } },
  events: [
    { kind: "additive-offset", cell: "primary", fromCast: 1, microsiemens_cm: offset_uS_cm },
  ],
};

/** Both readings of each cast as one weighted mean, and how it comes out, as text. */
export function airReport(): string {
  const { cruise } = simulateCruise(scenario);
  const reading = noise_uS_cm / Math.sqrt(deck.seconds * rate_Hz);
  const bound = 1 / (2 * informationAtEdge(reading, deck.left_microsiemens_cm));
  const found = cruise.casts.flatMap(({ id, data }): readonly Found[] => {
    const { observations } = airZeroEvidence(id, "primary", data, { before: [], after: [] });
    if (observations.length === 0) return [];
    const weight = observations.reduce((sum, o) => sum + 1 / o.variance, 0);
    const value = observations.reduce((sum, o) => sum + o.value / o.variance, 0) / weight;
    return [{ error: value - offset_uS_cm, standardUncertainty: 1 / Math.sqrt(weight), bound }];
  });
  const name = "air-zero, uS/cm";
  return [
    `on deck, ${deck.seconds} s before and after each cast, water of ${deck.left_microsiemens_cm} uS/cm left in the cell on the average`,
    tableRow(name, casts, found),
  ].join("\n");
}

/** Information about the place of normal(0, sd) + exponential of that mean, by Simpson's rule over its one integral. */
function informationAtEdge(sd: number, mean: number): number {
  const ratio = sd / mean;
  const reach = 12;
  const n = 600;
  const h = (2 * reach) / n;
  let sum = 0;
  for (let i = 0; i <= n; i++) {
    const u = -reach + i * h;
    const log = 2 * Math.log(normalPdf(u)) - normalLogCdf(u) - u * ratio - ratio ** 2 / 2;
    sum += (i === 0 || i === n ? 1 : i % 2 === 1 ? 4 : 2) * Math.exp(log);
  }
  return (sum * h) / 3 / (sd * mean) - 1 / mean ** 2;
}
