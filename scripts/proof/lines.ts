// Each line of evidence on its own against the truth of simulated casts, and against the Cramer-Rao bound of the design:
// what the bound is told and the line is not stands in linesBound.ts and linesBoundLegs.ts. A line's estimate is made of
// its observations as the tracker uses them: weighted by their variances, with the run, the wake and the pair's wander as
// unknowns of the usual spread, and nothing known of the gain beforehand. In ppm. Lines that need more than one cast, or
// none in the water, are apart: the deep water in linesDeep.ts, the readings in air, in uS/cm, in linesAir.ts.
import type { CellName } from "../../src/cast/cast.js";
import { wakeDepth_dbar } from "../../src/evidence/bottles/bottleNoise.js";
import { designRow } from "../../src/model/designRow.js";
import { certainZero, condition, projected, redraw } from "../../src/model/gaussian.js";
import { cellIndex, sharedIndex } from "../../src/model/layout.js";
import { usualNoise } from "../../src/model/noise.js";
import { gainTerms } from "../../src/model/observation.js";
import type { PlaceOnCast } from "../../src/model/placesOnCast.js";
import { completed, type Scenario, simulateCruise, waterOf } from "../../src/simulate/index.js";
import { layoutOf } from "../../src/track/layout.js";
import type { TrackedInput } from "../../src/track/tracked.js";
import { cruiseEvidence } from "../../src/verdict/gather/cruiseEvidence.js";
import { airReport } from "./linesAir.js";
import { bottlesBound, type MadeCast, pairBound } from "./linesBound.js";
import { legsBound } from "./linesBoundLegs.js";
import { deepReport } from "./linesDeep.js";
import { type Design, designs, film_ppm, withFilm } from "./linesDesigns.js";
import { type Found, tableHead, tableRow } from "./linesTable.js";

/** One line of evidence and what it is asked. */
interface LineProof {
  readonly name: string;
  readonly line: string;
  /** Of casts with a film that comes within them. */
  readonly filmWithin: boolean;
  /** The coefficient it is asked for, of the first cell, the second being taken as known. */
  readonly slot: "clean" | "filmUp";
  readonly truth_ppm: number;
  readonly bound_ppm2: (made: MadeCast, design: Design) => number;
}

const [primary, secondary] = [-40, 25];

/** A new line that observes a gain is one more entry: its bound, and the coefficient it is asked for. */
const lines: readonly LineProof[] = [
  {
    name: "bottles",
    line: "bottles",
    filmWithin: false,
    slot: "clean",
    truth_ppm: primary,
    bound_ppm2: bottlesBound,
  },
  {
    name: "pair",
    line: "pair",
    filmWithin: false,
    slot: "clean",
    truth_ppm: primary - secondary,
    bound_ppm2: (made) => pairBound(made, false),
  },
  {
    name: "pair, water known to be the same",
    line: "pair",
    filmWithin: false,
    slot: "clean",
    truth_ppm: primary - secondary,
    bound_ppm2: (made) => pairBound(made, true),
  },
  {
    name: "legs",
    line: "legs",
    filmWithin: false,
    slot: "filmUp",
    truth_ppm: 0,
    bound_ppm2: (made) => legsBound(made, false),
  },
  {
    name: "legs, thermal lag known",
    line: "legs",
    filmWithin: false,
    slot: "filmUp",
    truth_ppm: 0,
    bound_ppm2: (made) => legsBound(made, true),
  },
  {
    name: "legs, film within, where found",
    line: "legs",
    filmWithin: true,
    slot: "filmUp",
    truth_ppm: film_ppm,
    bound_ppm2: (made, { onset_dbar }) => legsBound(made, false, onset_dbar),
  },
];

const cells: readonly CellName[] = ["primary", "secondary"];
const layout = layoutOf(cells);
const noise = usualNoise(layout.sharedErrors).errors;
/** Gains are as good as unknown beforehand, ppm. */
const unknown_ppm = 1e4;
/** Seeds of these cruises. */
const firstSeed = 2001;

/** What a line says of one cast by itself; undefined where it says nothing, or finds no onset where it should. */
function saidAlone(input: TrackedInput, { line, slot, filmWithin }: LineProof) {
  const observations = input.observations.filter(
    (o) =>
      o.line === line &&
      gainTerms(o).every(({ gain }) => line === "pair" || gain.cell === "primary"),
  );
  const onset = input.onsets.primary;
  if (observations.length === 0 || (filmWithin && onset === undefined)) return undefined;
  const place: PlaceOnCast | undefined =
    onset === undefined
      ? undefined
      : { leg: onset.probabilityDown > 0.5 ? "down" : "up", pressure_dbar: onset.pressure_dbar };
  const state = certainZero(layout.size);
  const asked = cellIndex(layout, "primary", slot);
  redraw(state, asked, 0, unknown_ppm ** 2);
  redraw(state, sharedIndex(layout, "wake"), wakeDepth_dbar.mean, wakeDepth_dbar.sd ** 2);
  redraw(state, sharedIndex(layout, "run"), 0, noise.run! ** 2);
  redraw(state, sharedIndex(layout, "pairScatter"), 0, noise.pairScatter! ** 2);
  for (const observation of observations) {
    const row = designRow(
      layout,
      observation,
      place === undefined ? {} : { onsets: { primary: place } },
    );
    condition(state, row, observation.value, observation.variance);
  }
  const row = new Float64Array(layout.size);
  row[asked] = 1;
  return projected(state, row);
}

function foundOn(scenario: Scenario, design: Design, some: readonly LineProof[]) {
  const complete = completed(scenario);
  const { cruise, truth } = simulateCruise(scenario);
  const made = truth.map(
    (own, i): MadeCast => ({
      scenario: complete,
      cast: i + 1,
      water: waterOf(complete, i + 1),
      truth: own.cells.primary!,
      data: cruise.casts[i]!.data!,
    }),
  );
  const inputs = [...cruiseEvidence(cruise)].map(({ tracked }) => tracked);
  return some.map((proof) =>
    inputs.flatMap((input, i): readonly Found[] => {
      const said = saidAlone(input, proof);
      if (said === undefined) return [];
      return [
        {
          error: said.mean - proof.truth_ppm,
          standardUncertainty: Math.sqrt(said.variance),
          bound: proof.bound_ppm2(made[i]!, design),
        },
      ];
    }),
  );
}

/** The figures of all designs, as text. */
export function linesReport(onDesign: (done: number, of: number) => void): string {
  const parts = designs.map((design, d) => {
    const perLine = lines.map((): Found[] => []);
    for (let i = 0; i < design.cruises; i++) {
      const scenario = design.scenario(firstSeed + i);
      for (const filmWithin of [false, true]) {
        const some = lines.filter((proof) => proof.filmWithin === filmWithin);
        const own = filmWithin ? withFilm(scenario, design.onset_dbar) : scenario;
        for (const [k, found] of foundOn(own, design, some).entries()) {
          perLine[lines.indexOf(some[k]!)]!.push(...found);
        }
      }
    }
    onDesign(d + 1, designs.length);
    const casts = design.cruises * design.scenario(firstSeed).casts;
    return [design.name, ...lines.map(({ name }, k) => tableRow(name, casts, perLine[k]!))].join(
      "\n",
    );
  });
  return [tableHead, ...parts, deepReport(), airReport()].join("\n\n");
}
