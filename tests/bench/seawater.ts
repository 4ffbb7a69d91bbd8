/**
 * How long seawater columns take beside the TEOS-10 reference code (python3-gsw): the same 290,000 scans, in turns, in the
 * same run; the best of several counts, since the machine may be shared.
 *
 *     npx tsc -p tests/bench && node build/bench/tests/bench/seawater.js
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import {
  cFromSpColumn,
  ctFromTColumn,
  sigma0Column,
  spFromCColumn,
  srFromSpColumn,
} from "../../src/seawater/index.js";

const SCANS = 290_000;
const ROUNDS = 7;
const REPEATS = 15;
const python = "/usr/bin/python3";

const script = `
import sys, json, time, numpy as np, gsw
c, t, p = np.fromfile(sys.argv[1]).reshape(3, -1)
def best(work):
    times = []
    for _ in range(${REPEATS}):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return 1e3 * min(times)
def chain():
    sr = gsw.SR_from_SP(gsw.SP_from_C(c, t, p))
    gsw.sigma0(sr, gsw.CT_from_t(sr, t, p))
print(json.dumps([best(lambda: gsw.SP_from_C(c, t, p)), best(chain)]))
`;

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

function best(work: () => void): number {
  const times = Array.from({ length: REPEATS }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  });
  return Math.min(...times);
}

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

if (spawnSync(python, ["-c", "import gsw"]).status !== 0) {
  console.log(`no comparison: python3-gsw is not installed for ${python}`);
  console.log(`SP from C, ${SCANS} scans: ${best(ours.salinity).toFixed(2)} ms`);
  console.log(`SP, SR, CT and sigma0: ${best(ours.chain).toFixed(2)} ms`);
} else {
  const folder = mkdtempSync(join(tmpdir(), "seawater-bench-"));
  try {
    const file = join(folder, "columns.f64");
    const columns = new Float64Array(3 * SCANS);
    [conductivity, temperature, pressure].forEach((column, k) => {
      columns.set(column, k * SCANS);
    });
    writeFileSync(file, columns);
    const rounds = Array.from({ length: ROUNDS }, () => {
      const { stdout } = spawnSync(python, ["-c", script, file], { encoding: "utf8" });
      const [salinityReference, chainReference] = JSON.parse(stdout) as [number, number];
      return {
        salinityReference,
        chainReference,
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
  } finally {
    rmSync(folder, { recursive: true });
  }
}
