// npm run proof [-- CRUISES], or -- worlds [CRUISES [WORLD ...]] for that section alone: prints how well the whole does, with fixed seeds. Takes most of an hour; with
// fewer than 40 cruises a few minutes, without the lines by themselves and the stations left out.

import { worldNames } from "../../src/simulate/worlds/worlds.js";
import { lookAlikesReport } from "./causes.js";
import { correctionsReport } from "./corrections.js";
import { decisionsReport } from "./decisions.js";
import { forecastReport } from "./forecast.js";
import { leaveOneOutReport } from "./leaveOneOut.js";
import { linesReport } from "./lines.js";
import { onsetsReport } from "./onsets.js";
import { onTheDayReport } from "./onTheDay.js";
import { openCruisesReport } from "./openCruises.js";
import { recoveryPriorsReport } from "./recoveryPriors.js";
import { simulatedReport } from "./simulated.js";
import { worldsFromArguments, worldsReport } from "./worlds.js";

const watched = process.stderr.isTTY === true;
if (process.argv[2] === "worlds") {
  printWorlds(worldsFromArguments(process.argv.slice(3)));
  process.exit();
}
const cruises = Number(process.argv[2] ?? 1000);
console.log("== simulated cruises, truth known\n");
console.log(
  simulatedReport(cruises, (done) => {
    if (watched) process.stderr.write(`\r\u001b[K${done} of ${cruises}`);
  }),
);
const looked = Math.min(cruises, 400);
console.log("\n== simulated cruises with the rarer look-alikes too, truth known\n");
console.log(
  lookAlikesReport(looked, (done) => {
    if (watched) process.stderr.write(`\r\u001b[K${done} of ${looked}`);
  }),
);
printWorlds({ cruises: Math.min(cruises, 8), worlds: worldNames });
console.log("\n== onset of films within a cast, truth known\n");
console.log(
  onsetsReport(cruises, (done) => {
    if (watched) process.stderr.write(`\r\u001b[K${done} of ${cruises}`);
  }),
);
console.log("\n== cleaning decisions on simulated cruises, truth known\n");
const decided = Math.min(cruises, 40);
console.log(
  decisionsReport(decided, (done) => {
    if (watched) process.stderr.write(`\r\u001b[K${done} of ${decided}`);
  }),
);
console.log("\n== sensitivity of the advice to the recovery priors\n");
console.log(recoveryPriorsReport());
const sampled = Math.min(cruises, 120);
console.log("\n== corrections after the cruise, truth known\n");
console.log(
  correctionsReport(sampled, (done) => {
    if (watched) process.stderr.write(`\r\u001b[K${done} of ${sampled}`);
  }),
);
console.log("\n== forecasts of the next cast on simulated cruises, truth known\n");
console.log(
  forecastReport(sampled, (done) => {
    if (watched) process.stderr.write(`\r\u001b[K${done} of ${sampled}`);
  }),
);
// The slow parts that do not grow with the number of cruises belong to the whole proof.
const whole = cruises >= 40;
if (whole) {
  console.log("\n== each line of evidence by itself, truth known\n");
  console.log(
    linesReport((done, of) => {
      if (watched) process.stderr.write(`\r\u001b[K${done} of ${of}`);
    }),
  );
}
console.log("\n== open cruises\n");
console.log(await openCruisesReport());
console.log("\n== open cruises as on the day\n");
console.log(await onTheDayReport());
if (whole) {
  console.log("\n== stations of open cruises left out\n");
  console.log(await leaveOneOutReport());
}

function printWorlds({ cruises, worlds }: ReturnType<typeof worldsFromArguments>): void {
  console.log("\n== cruises by other physics, truth known\n");
  for (const line of worldsReport(cruises, worlds)) console.log(line);
}
