// Events of a cell during a cruise, as marks on its track.
import type { CellName } from "../cast/cast.js";
import { intensityNames } from "../cast/maintenance.js";
import type { CellVerdict } from "../verdict/verdict.js";
import type { Frame } from "./axes.js";
import type { FigureData } from "./figureData.js";
import { mark } from "./marks.js";
import type { Scale } from "./scales.js";
import { element, hint, label, letter_px, rule } from "./svg.js";

/** Horizontal places of the legs within the space of one cast. */
export const place = { down: 0.2, up: 0.7, work: 0.97, next: 0.45 };
/** One cell on one cast; `at` counts the casts from 0. */
export interface CellCast {
  readonly at: number;
  readonly id: string;
  readonly verdict: CellVerdict;
}

/** Work on the cell between two casts: a line down the panel with its word, or a tick for a rinse alone. */
export function cleanings(
  events: FigureData["casts"][number]["maintenanceAfter"],
  cell: CellName,
  at: number,
  { top, bottom }: Frame,
): string {
  const done = events.filter(
    (event) =>
      (event.cell ?? cell) === cell &&
      (event.action === "calibration" || intensityNames.some((name) => name === event.action)),
  );
  if (done.length === 0) return "";
  const words = done.map(({ action }) => action).join(", ");
  if (done.every(({ action }) => action === "rinse")) {
    const tick = rule([at, bottom - 7], [at, bottom], "ink", { "stroke-width": 2 });
    return element("g", {}, hint(words), tick);
  }
  return element(
    "g",
    {},
    hint(words),
    rule([at, top], [at, bottom], "ink", { "stroke-dasharray": "4 3", "stroke-width": 1.2 }),
    label(words, at + 4, bottom - 12, { "font-style": "italic" }),
  );
}

/** A notch at the top of the panel at the onset of the change that still persists. */
export function changeMark(
  last: CellCast | undefined,
  casts: FigureData["casts"],
  { top, right }: Frame,
  x: Scale,
): string {
  const change = last?.verdict.change;
  if (change === undefined || change.kind === "none" || change.sinceCast === undefined) return "";
  const cast = casts.findIndex(({ id }) => id === change.sinceCast);
  if (cast < 0) return "";
  const within = change.leg === undefined ? 0.45 : place[change.leg];
  const offset = change.when === "within" ? within : change.when === "after" ? place.work : 0;
  const at = x(cast + offset);
  const words = change.kind === "drift" ? "growing since" : "there since";
  const told = `${words} ${change.sinceCast.slice(0, 8)}`;
  const fits = at + 8 + letter_px * told.length < right;
  return element(
    "g",
    {},
    hint(
      `${words} ${change.when ?? ""} cast ${change.sinceCast}, probability ${change.probability.toFixed(2)}`,
    ),
    mark([at, top + 4], { shape: "triangle", colour: "alarm", area: 48 }),
    label(
      told,
      at + (fits ? 8 : -8),
      top + 10,
      { "font-style": "italic", "text-anchor": fits ? "start" : "end" },
      "alarm",
    ),
  );
}
