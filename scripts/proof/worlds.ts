// How well verdicts do on cruises by other physics, world by world, beside two plain yardsticks: docs/worlds.md.
// `node build/scripts/proof/worlds.js --lines [CRUISES [WORLD ...]]` prints every outcome instead, one line of JSON each.
import { pathToFileURL } from "node:url";
import { type WorldName, worldNames } from "../../src/simulate/worlds/worlds.js";
import { outcomesOfWorld, type WorldOutcome } from "./worldsOutcome.js";
import { worldsHead, worldsRow } from "./worldsTable.js";

const firstSeed = 1;

/** Both tables, line by line as they are known. */
export function* worldsReport(cruises: number, worlds: readonly WorldName[]): Generator<string> {
  yield `${cruises} cruises a world (seeds ${firstSeed} to ${firstSeed + cruises - 1}); gains in ppm as the up leg ends`;
  yield "A: median of the cast's deep residuals at closure. B: median of the last five A. ratio: rms to the better of them.";
  yield "needless: deep cleans without a film worth it; outlive: advised again on the next cast with bottles;";
  yield "only rinsed: of cells fouled beyond the target that nobody cleaned after the cast; runs > 2: such runs of more than two casts";
  yield "";
  yield "all bottles known";
  yield worldsHead;
  const known: WorldOutcome[] = [];
  const onTheDay: { world: WorldName; outcomes: readonly WorldOutcome[] }[] = [];
  for (const world of worlds) {
    const own = seeds(cruises).map((seed) => outcomesOfWorld(world, seed));
    const outcomes = own.flatMap((one) => one.known);
    known.push(...outcomes);
    onTheDay.push({ world, outcomes: own.flatMap((one) => one.onTheDay) });
    yield worldsRow(world, outcomes);
  }
  yield worldsRow("all", known);
  yield "";
  yield "as on the day: the newest one to three casts, their salinities not yet measured";
  yield worldsHead;
  for (const { world, outcomes } of onTheDay) yield worldsRow(world, outcomes);
  yield worldsRow(
    "all",
    onTheDay.flatMap(({ outcomes }) => outcomes),
  );
}

function seeds(cruises: number): readonly number[] {
  return Array.from({ length: cruises }, (_, k) => firstSeed + k);
}

function* outcomeLines(cruises: number, worlds: readonly WorldName[]): Generator<string> {
  for (const world of worlds) {
    for (const seed of seeds(cruises)) {
      const { known, onTheDay } = outcomesOfWorld(world, seed);
      for (const outcome of known) yield JSON.stringify({ ...outcome, onTheDay: false });
      for (const outcome of onTheDay) yield JSON.stringify({ ...outcome, onTheDay: true });
    }
  }
}

function namedWorlds(words: readonly string[]): readonly WorldName[] {
  const chosen = worldNames.filter((name) => words.includes(name));
  return chosen.length > 0 ? chosen : worldNames;
}

/** From the arguments: how many cruises a world, and which worlds; 8 and all are the default. */
export function worldsFromArguments(words: readonly string[]) {
  const cruises = Number(words.find((word) => /^\d+$/.test(word)) ?? 8);
  return { cruises, worlds: namedWorlds(words) };
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  const words = process.argv.slice(2);
  const { cruises, worlds } = worldsFromArguments(words);
  const print = words.includes("--lines") ? outcomeLines : worldsReport;
  for (const line of print(cruises, worlds)) console.log(line);
}
