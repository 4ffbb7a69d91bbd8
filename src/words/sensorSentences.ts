// Response and faults of the sensors, as sentences for the terminal, the page and the log.
import type { CellName } from "../cast/cast.js";
import type { CellVerdict, ResponseSeen, Verdict } from "../verdict/verdict.js";

interface SensorSentences {
  /** Faults, with the action for each. */
  readonly faults: readonly string[];
  /** Response of each cell, in numbers; empty without usable scans. */
  readonly response: readonly string[];
}

export function sensorSentences({ health = [], response = {}, cells }: Verdict): SensorSentences {
  const responses = Object.entries(response) as [CellName, ResponseSeen][];
  const judged = Object.entries(cells) as [CellName, CellVerdict][];
  return {
    faults: [
      ...health.map(({ what, mend, serious }) =>
        [what, serious ? "Do not use this part of the cast." : "", mend]
          .filter((part) => part !== "")
          .join(" "),
      ),
      ...responses.flatMap(([cell, { changes }]) =>
        changes.map((sentence) => `${cell} cell: ${sentence}.`),
      ),
    ],
    response: [
      ...responses.flatMap(([cell, seen]) => {
        const parts = inNumbers(seen);
        return parts.length === 0 ? [] : [`${cell} cell: ${parts.join("; ")}`];
      }),
      ...judged.flatMap(([cell, { temperatureError: off, additiveOffset: air }]) => [
        ...(off === undefined
          ? []
          : [
              `thermometer of the ${cell} cell: ${off.millikelvin.toFixed(1)} ± ${off.standardUncertainty.toFixed(1)} mK`,
            ]),
        ...(air === undefined
          ? []
          : [
              `${cell} cell in air: ${air.microsiemens_cm.toFixed(1)} ± ${air.standardUncertainty.toFixed(1)} uS/cm`,
            ]),
      ]),
    ],
  };
}

function inNumbers({ alignment, thermalLag }: ResponseSeen): readonly string[] {
  return [
    ...(alignment === undefined
      ? []
      : [
          `conductivity ${alignment.seconds.toFixed(3)} ± ${alignment.standardUncertainty.toFixed(3)} s after temperature`,
        ]),
    ...(thermalLag === undefined
      ? []
      : [
          `thermal lag ${thermalLag.timesUsual.toFixed(1)} ± ${thermalLag.standardUncertainty.toFixed(1)} times the usual` +
            partsOf(thermalLag),
        ]),
  ];
}

function partsOf(lag: NonNullable<ResponseSeen["thermalLag"]>): string {
  const { alpha, alphaStandardUncertainty: ofAlpha, tau_s, tauStandardUncertainty_s: ofTau } = lag;
  if (alpha === undefined || ofAlpha === undefined) return "";
  if (tau_s === undefined || ofTau === undefined) return "";
  return ` (amplitude ${alpha.toFixed(3)} ± ${ofAlpha.toFixed(3)}, ${tau_s.toFixed(0)} ± ${ofTau.toFixed(0)} s)`;
}
