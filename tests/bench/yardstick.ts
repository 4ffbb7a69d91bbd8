// The yardstick: native TEOS-10 (GSW-C through Debian's python3-gsw) on the same columns, in its own process.
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { REPEATS } from "./best.js";

const python = "/usr/bin/python3";

/**
 * What it times: Practical Salinity alone, and the chain SP, reference salinity, CT, sigma0, best of the repeats; and the
 * chain in processor time, the median.
 */
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
def middle(work):
    times = []
    for _ in range(${REPEATS}):
        start = time.process_time()
        work()
        times.append(time.process_time() - start)
    return 1e3 * sorted(times)[${REPEATS >> 1}]
print(json.dumps([best(lambda: gsw.SP_from_C(c, t, p)), best(chain), middle(chain)]))
`;

/** Milliseconds. */
export interface YardstickTimes {
  readonly salinity: number;
  readonly chain: number;
  readonly chainUsed: number;
}

/**
 * Give `measure` the yardstick for these columns: a function that times it anew at each call.
 * Undefined in its place where python3-gsw is not installed, which is said.
 */
export function withYardstick<Result>(
  columns: {
    readonly conductivity: Float64Array;
    readonly temperature: Float64Array;
    readonly pressure: Float64Array;
  },
  measure: (yardstick: (() => YardstickTimes) | undefined) => Result,
): Result {
  if (spawnSync(python, ["-c", "import gsw"]).status !== 0) {
    console.log(`no comparison: python3-gsw is not installed for ${python}`);
    return measure(undefined);
  }
  const folder = mkdtempSync(join(tmpdir(), "bench-"));
  try {
    const file = join(folder, "columns.f64");
    const { conductivity, temperature, pressure } = columns;
    const all = new Float64Array(3 * pressure.length);
    for (const [k, column] of [conductivity, temperature, pressure].entries()) {
      all.set(column, k * pressure.length);
    }
    writeFileSync(file, all);
    return measure(() => {
      const { stdout } = spawnSync(python, ["-c", script, file], { encoding: "utf8" });
      const [salinity, chain, chainUsed] = JSON.parse(stdout) as [number, number, number];
      return { salinity, chain, chainUsed };
    });
  } finally {
    rmSync(folder, { recursive: true });
  }
}
