// How long seawater columns take beside the yardstick: the same 290,000 scans, in turns, in the same run; the
// best of several counts, since the machine may be shared.
import {
  cFromSpColumn,
  ctFromTColumn,
  sigma0Column,
  spFromCColumn,
  srFromSpColumn,
} from "../../src/seawater/index.js";
import { best, REPEATS } from "./best.js";
import { withYardstick } from "./yardstick.js";

const SCANS = 290_000;
const ROUNDS = 7;

/** An invented cast to 6000 dbar and back: a warm surface layer, a thermocline, a cold deep layer, a little noise. */
const pressure = Float64Array.from(
  { length: SCANS },
  (_, i) => 6000 * (1 - Math.abs(1 - (2 * i) / SCANS)),
);
const temperature = pressure.map((p, i) => 1.5 + 25 * Math.exp(-p / 700) + 0.001 * Math.sin(i));
const salinity = pressure.map((p, i) => 34.7 + 1.2 * Math.exp(-p / 400) + 0.001 * Math.cos(i));
const conductivity = cFromSpColumn(salinity, temperature, pressure);

const [sp, sr, ct, sigma] = [0, 1, 2, 3].map(() => new Float64Array(SCANS)) as [
  Float64Array,
  Float64Array,
  Float64Array,
  Float64Array,
];

const ours = {
  salinity: () => spFromCColumn(conductivity, temperature, pressure, sp),
  salinityNewColumn: () => spFromCColumn(conductivity, temperature, pressure),
  chain: () => {
    spFromCColumn(conductivity, temperature, pressure, sp);
    srFromSpColumn(sp, sr);
    ctFromTColumn(sr, temperature, pressure, ct);
    sigma0Column(sr, ct, sigma);
  },
};

/** Print the times of our columns and their ratios to the yardstick's. */
export function benchSeawater(): void {
  withYardstick({ conductivity, temperature, pressure }, (yardstick) => {
    if (yardstick === undefined) {
      console.log(`SP from C, ${SCANS} scans: ${best(ours.salinity).toFixed(2)} ms`);
      console.log(`SP, SR, CT and sigma0: ${best(ours.chain).toFixed(2)} ms`);
      return;
    }
    const rounds = Array.from({ length: ROUNDS }, () => {
      const reference = yardstick();
      return {
        salinityReference: reference.salinity,
        chainReference: reference.chain,
        salinity: best(ours.salinity),
        salinityNewColumn: best(ours.salinityNewColumn),
        chain: best(ours.chain),
      };
    });
    const least = (key: keyof (typeof rounds)[number]) =>
      Math.min(...rounds.map((round) => round[key]));
    const line = (name: string, own: number, reference: number) =>
      console.log(
        `${name}: ${own.toFixed(2)} ms, reference ${reference.toFixed(2)} ms, ratio ${(own / reference).toFixed(2)}`,
      );
    console.log(`${SCANS} scans, best of ${ROUNDS} rounds of ${REPEATS}`);
    line("SP from C", least("salinity"), least("salinityReference"));
    line("SP from C into a new column", least("salinityNewColumn"), least("salinityReference"));
    line("SP, SR, CT and sigma0", least("chain"), least("chainReference"));
    console.log(
      `ratio of SP from C by round: ${rounds.map((r) => (r.salinity / r.salinityReference).toFixed(2)).join(" ")}`,
    );
  });
}
