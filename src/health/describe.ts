// The place of a finding, and the format of its numbers.
import type { CellName } from "../cast/cast.js";
import type { HealthFinding, Sensor } from "./finding.js";
import { legOf, type WaterPart } from "./waterPart.js";

/** Unit of noise and spikes, by sensor. */
export const unitOf: Readonly<Record<Sensor, string>> = {
  conductivity: "mS/cm",
  temperature: "K",
  pressure: "dbar",
};

type FindingPlace = Pick<HealthFinding, "leg" | "scans" | "pressure_dbar">;

/** @param to the last scan, included */
export function placeOf(part: WaterPart, from: number, to: number): FindingPlace {
  const pressure = part.columns.pressure_dbar;
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = from; i <= to; i++) {
    const p = pressure[i]!;
    // From the zero of any gauge in air to below any trench, dbar (judgement).
    if (p > -20 && p < 12000) {
      if (p < least) least = p;
      if (p > most) most = p;
    }
  }
  const leg = legOf(part, from, to);
  return {
    ...(leg === undefined ? {} : { leg }),
    scans: { from, to },
    ...(least > most ? {} : { pressure_dbar: { from: least, to: most } }),
  };
}

/** "between 12 and 340 dbar on the down leg", for a sentence. */
export function placeWords({ leg, pressure_dbar }: FindingPlace): string {
  const way = leg === undefined ? "" : ` on the ${leg} leg`;
  if (pressure_dbar === undefined) return leg === undefined ? "in the cast" : way.trim();
  const from = pressure_dbar.from.toFixed(0);
  const to = pressure_dbar.to.toFixed(0);
  return from === to ? `at ${from} dbar${way}` : `between ${from} and ${to} dbar${way}`;
}

export function ofCell(cell: CellName, sensor: Sensor): string {
  const name = sensor === "conductivity" ? "conductivity" : "temperature";
  return `${name} of the ${cell} cell`;
}

/** Three significant digits, without exponent. */
export function digits(value: number): string {
  return String(Number(value.toPrecision(3)));
}
