// npm run sentences [-- CRUISES [MOST]]: every sentence that the program can print, hardest first, with its file.
// Sentences stand in the sources as text, and finished ones are taken from the outputs about the demonstration cruise, CRUISES
// simulated ones (4 where absent) and one of each world.
import { readCruise } from "../../src/node/index.js";
import { randomScenario, simulateCruise } from "../../src/simulate/index.js";
import { simulateWorld, worldNames } from "../../src/simulate/worlds/worlds.js";
import { sentencesInSources } from "./inSources.js";
import { printedAbout } from "./printed.js";
import { type ReadingEase, readingEase } from "./readingEase.js";

interface Measured extends ReadingEase {
  readonly text: string;
  readonly place: string;
}

const cruises = Number(process.argv[2] ?? 4);
const most = Number(process.argv[3] ?? 60);
const inSources = sentencesInSources(".");

/** The longest piece of text in the sources that a printed sentence holds tells where it comes from. */
const pieces = inSources
  .flatMap(({ text, file, line }) =>
    text.split(/\bN\b/).map((piece) => ({ piece: piece.trim(), place: `${file}:${line}` })),
  )
  .filter(({ piece }) => piece.length > 8)
  .sort((a, b) => b.piece.length - a.piece.length);
const placeOf = (sentence: string) =>
  pieces.find(({ piece }) => sentence.includes(piece))?.place ?? "printed";

const printed = new Set<string>();
const add = (sentences: ReadonlySet<string>) => {
  for (const sentence of sentences) printed.add(sentence);
};
add(printedAbout(await readCruise("fixtures/demo-cruise")));
for (let seed = 1; seed <= cruises; seed++)
  add(printedAbout(simulateCruise(randomScenario(seed, "all")).cruise));
if (cruises > 0)
  for (const world of worldNames) add(printedAbout(simulateWorld(world, 1, { casts: 6 }).cruise));

/** Sentences that differ in their numbers only are one. */
const byForm = new Map<string, Measured>();
for (const { text, file, line } of inSources)
  byForm.set(text, { text, place: `${file}:${line}`, ...readingEase([text]) });
for (const text of printed) {
  const form = text.replaceAll(/[-+−]?\d[\d.,:/-]*/g, "N");
  if (!byForm.has(form)) byForm.set(form, { text, place: placeOf(text), ...readingEase([text]) });
}
/** Sentences, and not lists of values: four words in a row. */
const all = [...byForm.values()].filter(({ text }) => /(\p{L}+ ){3}\p{L}/u.test(text));

const median = (values: readonly number[]) =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)]!;
const over = (words: number) => all.filter((sentence) => sentence.words > words).length;
const whole = readingEase(all.map(({ text }) => text));
const row = ({ words, longWords, ease, place, text }: Measured) =>
  `${String(words).padStart(5)} ${String(longWords).padStart(4)} ${ease.toFixed(0).padStart(5)}  ${place}\n${" ".repeat(18)}${text}`;
const list = (title: string, sentences: readonly Measured[]) =>
  [`\n${title}`, "words long  ease  place", ...sentences.slice(0, most).map(row)].join("\n");

console.log(
  [
    `${all.length} sentences of four words or more; reading ease by Flesch [Flesch1948], syllables by rule (scripts/sentences)`,
    `words: median ${median(all.map(({ words }) => words))}, most ${Math.max(...all.map(({ words }) => words))}; over 20: ${over(20)}, over 30: ${over(30)}`,
    `reading ease: of all as one text ${whole.ease.toFixed(0)}, median sentence ${median(all.map(({ ease }) => ease)).toFixed(0)}`,
    list(
      "longest first",
      all.toSorted((a, b) => b.words - a.words || a.ease - b.ease),
    ),
    list(
      "hardest first, of eight words or more",
      all.filter(({ words }) => words >= 8).sort((a, b) => a.ease - b.ease),
    ),
  ].join("\n"),
);
