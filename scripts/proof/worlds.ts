// How well verdicts do on cruises by other physics, world by world, beside two plain yardsticks: docs/worlds.md.
// `node build/scripts/proof/worlds.js --lines [CRUISES [WORLD ...]]` prints every outcome instead, one line of JSON each.
import { pathToFileURL } from "node:url";
import { type WorldName, worldNames } from "../../src/simulate/worlds/worlds.js";
import { outcomesOfWorld, outcomesOnTheDay, type WorldOutcome } from "./worldsOutcome.js";
import { worldsHead, worldsRow } from "./worldsTable.js";

const firstSeed = 1;

type Outcomes = (world: WorldName, seed: number) => readonly WorldOutcome[];

/** Both tables, as text. */
export function worldsReport(
  cruises: number,
  worlds: readonly WorldName[],
  onCruise: (done: number, of: number) => void,
): string {
  let done = 0;
  const table = (title: string, outcomesOf: Outcomes) => {
    const byWorld = worlds.map((world) => ({
      world,
      outcomes: seeds(cruises).flatMap((seed) => {
        const own = outcomesOf(world, seed);
        onCruise(++done, 2 * cruises * worlds.length);
        return own;
      }),
    }));
    return [
      title,
      worldsHead,
      ...byWorld.map(({ world, outcomes }) => worldsRow(world, outcomes)),
      worldsRow(
        "all",
        byWorld.flatMap(({ outcomes }) => outcomes),
      ),
    ].join("\n");
  };
  return [
    `${cruises} cruises a world (seeds ${firstSeed} to ${firstSeed + cruises - 1}); gains in ppm as the up leg ends`,
    "A: median of the cast's deep residuals at closure. B: median of the last five A. ratio: to the better of them.",
    "needless: deep cleans without a film worth it; outlive: again advised on the next cast with bottles;",
    "only rinsed: of cells fouled beyond the target; runs > 2: such that lasted for more than two casts",
    "",
    table("all bottles known", outcomesOfWorld),
    "",
    table("as on the day: the newest one to three casts, not yet measured", outcomesOnTheDay),
  ].join("\n");
}

function seeds(cruises: number): readonly number[] {
  return Array.from({ length: cruises }, (_, k) => firstSeed + k);
}

function printLines(cruises: number, worlds: readonly WorldName[]): void {
  for (const world of worlds) {
    for (const seed of seeds(cruises)) {
      for (const outcome of outcomesOfWorld(world, seed)) console.log(JSON.stringify(outcome));
    }
  }
}

function namedWorlds(words: readonly string[]): readonly WorldName[] {
  const chosen = worldNames.filter((name) => words.includes(name));
  return chosen.length > 0 ? chosen : worldNames;
}

/** Of the arguments: how many cruises a world, and which worlds; all where none is named. */
export function worldsFromArguments(words: readonly string[]) {
  const cruises = Number(words.find((word) => /^\d+$/.test(word)) ?? 8);
  return { cruises, worlds: namedWorlds(words) };
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  const words = process.argv.slice(2);
  const { cruises, worlds } = worldsFromArguments(words);
  if (words.includes("--lines")) printLines(cruises, worlds);
  else console.log(worldsReport(cruises, worlds, () => {}));
}
