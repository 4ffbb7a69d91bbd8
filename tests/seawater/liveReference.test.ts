import { spawnSync } from "node:child_process";
import { describe, expect, it } from "vitest";
import * as seawater from "../../src/seawater/index.js";
import { largestDifference } from "./gridFile.js";

// Debian's python3-gsw, the TEOS-10 reference code. The system's own Python is the one that the package serves.
const python = "/usr/bin/python3";
const available = spawnSync(python, ["-c", "import gsw"]).status === 0;

const script = `
import sys, json, gsw, numpy as np
sp, t, p = (np.array(column) for column in json.load(sys.stdin))
sr = gsw.SR_from_SP(sp)
ct = gsw.CT_from_t(sr, t, p)
columns = dict(c=gsw.C_from_SP(sp, t, p), sr=sr, ct=ct, pt0=gsw.pt0_from_t(sr, t, p), pt2000=gsw.pt_from_t(sr, t, p, 2000.0),
  sigma0=gsw.sigma0(sr, ct), rho=gsw.rho(sr, ct, p), freezing=gsw.t_freezing(sr, p, 0.5), ctFreezing=gsw.CT_freezing(sr, p, 0.5),
  bath=gsw.SP_salinometer(sp / 35, t))
json.dump({name: column.tolist() for name, column in columns.items()}, sys.stdout)
`;

/** Numbers from 0 to 1 that repeat for a seed (a linear congruential generator of Numerical Recipes). */
function uniform(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

describe.skipIf(!available)(
  "the TEOS-10 reference code, run now at 2000 random points (skipped where python3-gsw is not installed)",
  () => {
    const next = uniform(20);
    const n = 2000;
    const column = (low: number, high: number) =>
      Float64Array.from({ length: n }, () => low + (high - low) * next());
    const sp = column(0.1, 42);
    const [t, p] = [column(-2, 35), column(0, 10000)];
    // A tenth of them fresh; none so close to 2 that rounding decides on the side of the kink.
    for (let i = 0; i < n; i += 10) sp[i] = 0.1 + 2.4 * next();
    for (let i = 0; i < n; i++) if (Math.abs(sp[i]! - 2) < 1e-6) sp[i] = 2.1;

    const reference = ((): Record<string, number[]> => {
      if (!available) return {};
      const input = JSON.stringify([sp, t, p].map((values) => Array.from(values)));
      const { stdout } = spawnSync(python, ["-c", script], {
        input,
        encoding: "utf8",
        maxBuffer: 2 ** 26,
      });
      return JSON.parse(stdout);
    })();
    const from = (name: string) => Float64Array.from(reference[name]!);
    const each = (value: (i: number) => number) =>
      Float64Array.from({ length: n }, (_, i) => value(i));

    const facts: [
      fact: string,
      found: () => Float64Array,
      expected: () => ArrayLike<number>,
      tolerance: number,
    ][] = [
      ["SP from C", () => seawater.spFromCColumn(from("c"), t, p), () => sp, 1e-12],
      ["C from SP", () => seawater.cFromSpColumn(sp, t, p), () => from("c"), 1e-12],
      [
        "SP from a salinometer",
        () => each((i) => seawater.spSalinometer(sp[i]! / 35, t[i]!)),
        () => from("bath"),
        1e-12,
      ],
      ["SR from SP", () => seawater.srFromSpColumn(sp), () => from("sr"), 1e-13],
      ["CT from t", () => seawater.ctFromTColumn(from("sr"), t, p), () => from("ct"), 1e-10],
      ["pt0 from t", () => seawater.pt0FromTColumn(from("sr"), t, p), () => from("pt0"), 1e-10],
      [
        "pt at 2000 dbar",
        () => each((i) => seawater.ptFromT(reference.sr![i]!, t[i]!, p[i]!, 2000)),
        () => from("pt2000"),
        1e-10,
      ],
      ["sigma0", () => seawater.sigma0Column(from("sr"), from("ct")), () => from("sigma0"), 1e-10],
      ["rho", () => seawater.rhoColumn(from("sr"), from("ct"), p), () => from("rho"), 1e-10],
      [
        "the freezing temperature",
        () => each((i) => seawater.tFreezing(reference.sr![i]!, p[i]!, 0.5)),
        () => from("freezing"),
        1e-10,
      ],
      [
        "the freezing CT",
        () => each((i) => seawater.ctFreezing(reference.sr![i]!, p[i]!, 0.5)),
        () => from("ctFreezing"),
        1e-10,
      ],
    ];
    for (const [fact, found, expected, tolerance] of facts)
      it(`${fact} agrees within ${tolerance}`, () => {
        expect(largestDifference(found(), expected())).toBeLessThan(tolerance);
      });
  },
);
