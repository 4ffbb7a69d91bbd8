// Why this cleaning, in one sentence with the numbers.
import type { CauseName } from "../../causes/index.js";
import type { Asked, Choice, Outlook } from "./choose.js";
import type { Belief } from "./filmLeft.js";
import { percent } from "./sensitivity.js";

export function decisionBecause(
  belief: Belief,
  leading: { readonly cause: CauseName; readonly probability: number },
  choice: Choice,
  outlooks: readonly Outlook[],
  asked: Asked,
  target: number,
): string {
  const { chosen } = choice;
  const within = `within ${target} at the next station with probability`;
  const p = percent(chosen.probabilityWithinTarget);
  const confidence = percent(asked.confidence);
  if (choice.ground === "not mendable") {
    return (
      `Something that cleaning mends is ${percent(asked.probabilityMendable)} probable, less than the ` +
      `${percent(asked.leastMendable)} that a cleaning is given for; ${leading.cause} leads with ${percent(leading.probability)}.`
    );
  }
  const film = `A film of ${filmWords(belief)} is ${percent(asked.probabilityMendable)} probable`;
  switch (choice.ground) {
    case "meets": {
      const lighter = outlooks[outlooks.indexOf(chosen) - 1];
      const than =
        lighter === undefined || lighter.probabilityWithinTarget >= asked.confidence
          ? ""
          : `, where ${lighter.intensity} would only with ${percent(lighter.probabilityWithinTarget)}`;
      return `${film}; ${chosen.intensity} leaves what is left of it ${within} ${p}, ${confidence} being asked for${than}; an error of the clean cell itself is for calibration to correct.`;
    }
    case "time":
      return `${film}; in the ${asked.minutesAvailable} minutes there are, ${chosen.intensity} leaves it ${within} ${p}, ${choice.wanted.intensity} would with ${percent(choice.wanted.probabilityWithinTarget)} but takes ${choice.wanted.minutes}.`;
    case "too heavy":
      return `${film}; no single cleaning leaves so much ${within} ${confidence}: ${chosen.intensity} does with ${p}, so it is done and judged again on the next cast.`;
    case "record":
      return `${film}, and by this cell's record ${helpWords(outlooks)}; ${chosen.intensity} leaves it ${within} ${p}.`;
  }
}

/** Mean and standard deviation of the film, among hypotheses that hold one, ppm. */
function filmWords(belief: Belief): string {
  const held = belief.filter(
    ({ filmMean_ppm, filmVariance }) => filmMean_ppm !== 0 || filmVariance > 0,
  );
  const weight = held.reduce((sum, component) => sum + component.weight, 0);
  if (weight === 0) return "0 ppm";
  const mean = held.reduce((sum, c) => sum + c.weight * c.filmMean_ppm, 0) / weight;
  const variance =
    held.reduce((sum, c) => sum + c.weight * (c.filmVariance + (c.filmMean_ppm - mean) ** 2), 0) /
    weight;
  return `${mean.toFixed(0)} ± ${Math.sqrt(variance).toFixed(0)} ppm`;
}

function helpWords(outlooks: readonly Outlook[]): string {
  return outlooks
    .filter(({ hands, deep }) => hands === "watch" && deep)
    .map(
      ({ intensity, probabilityWorks }) => `${intensity} works with ${percent(probabilityWorks)}`,
    )
    .join(" and ");
}
