// Potential temperature against the salinity of the cell: the two legs of one cast, and the deep water of all.
import type { CellName } from "../cast/cast.js";
import { bottomAxis, type Frame, leftAxis } from "./axes.js";
import { castNamed } from "./castNamed.js";
import type { FigureData, Profile } from "./figureData.js";
import { key } from "./key.js";
import { cellHeading, type Point, polyline } from "./marks.js";
import type { Colour } from "./palette.js";
import { extentOf, roundTicks, scaleOver } from "./scales.js";
import { type Attributes, drawing, element, hint } from "./svg.js";

const margin = { left: 50, right: 16, top: 44, between: 46, foot: 46 };
const panelHeight = 320;

/** A drawn profile. */
interface ThetaSalinityCurve {
  readonly words: string;
  readonly profile: Profile;
  readonly colour: Colour;
  readonly more: Attributes;
}

/**
 * Both legs of one cast in potential temperature and salinity, one panel for each cell: a film that came within the cast
 * separates them along salinity.
 * @param width px; from about 320
 * @returns SVG text; "" if the cast has no legs
 * @throws RangeError if there is no such cast
 */
export function thetaSalinity(data: FigureData, cast: string, width = 720): string {
  const found = castNamed(data, cast);
  const panels = data.cells.flatMap((cell) => {
    const of = found.legs[cell];
    if (of === undefined) return [];
    const curve = (leg: "down" | "up"): ThetaSalinityCurve => ({
      words: `${leg} leg`,
      profile: of.profiles[leg],
      colour: leg === "down" ? "quiet" : cell,
      more:
        leg === "down"
          ? { "stroke-width": 1.2 }
          : { "stroke-width": 1.8, "stroke-dasharray": "7 2" },
    });
    return [{ cell, curves: [curve("down"), curve("up")] }];
  });
  return sideBySide(
    panels,
    width,
    `Potential temperature and salinity of cast ${cast}, leg by leg`,
    "The down leg is solid, the up leg dashed.",
  );
}

/** In the figure, water below this share of the usual depth is deep. */
const deepFrom = 0.6;
/** Largest number of earlier casts drawn. */
const mostCasts = 24;

/**
 * The deep water of the last casts in each cell's readings on the way up: if the water is the same from station to station,
 * the curve of a fouling cell moves to the left.
 * @param width px; from about 320
 * @returns SVG text; "" if no cast has legs
 */
export function deepThetaSalinity(data: FigureData, width = 720): string {
  const panels = data.cells.flatMap((cell) => {
    const casts = data.casts.filter(
      ({ legs }) => (legs[cell]?.profiles.up.salinity.length ?? 0) > 1,
    );
    const bottoms = casts.map(({ legs }) => legs[cell]!.profiles.up.pressure_dbar.at(-1)!);
    const usual = [...bottoms].sort((a, b) => a - b)[Math.floor(bottoms.length / 2)];
    if (usual === undefined) return [];
    const shown = casts.slice(-mostCasts - 1);
    const curves = shown.map(({ id, legs }, i): ThetaSalinityCurve => {
      const latest = i === shown.length - 1;
      return {
        words: `cast ${id}`,
        profile: below(legs[cell]!.profiles.up, deepFrom * usual),
        colour: latest ? cell : "quiet",
        more: latest
          ? { "stroke-width": 2.4 }
          : { "stroke-width": 1, "stroke-opacity": 0.25 + (0.6 * i) / shown.length },
      };
    });
    return [{ cell, curves: curves.filter(({ profile }) => profile.salinity.length > 1) }];
  });
  return sideBySide(
    panels.filter(({ curves }) => curves.length > 0),
    width,
    "Deep water of the last casts, as each cell read it on the way up",
    "The latest cast is the heavy line; the older a cast, the paler its line.",
  );
}

function below(profile: Profile, pressure_dbar: number): Profile {
  const from = profile.pressure_dbar.findIndex((p) => p >= pressure_dbar);
  const start = from < 0 ? profile.pressure_dbar.length : from;
  return {
    pressure_dbar: profile.pressure_dbar.slice(start),
    salinity: profile.salinity.slice(start),
    potentialTemperature_C: profile.potentialTemperature_C.slice(start),
  };
}

function sideBySide(
  panels: readonly { readonly cell: CellName; readonly curves: readonly ThetaSalinityCurve[] }[],
  width: number,
  name: string,
  description: string,
): string {
  if (panels.length === 0) return "";
  // On a phone, panels are stacked.
  const stacked = width < 500;
  const columns = stacked ? 1 : panels.length;
  const each = (width - margin.left - margin.right - margin.between * (columns - 1)) / columns;
  const step = panelHeight + margin.top + margin.foot;
  const all = panels.flatMap(({ curves }) => curves.flatMap(({ profile }) => placesOf(profile)));
  const salinities = extentOf(
    all.map(([s]) => s),
    0.04,
  );
  const temperatures = extentOf(
    all.map(([, t]) => t),
    0.04,
  );
  const drawn = panels.map(({ cell, curves }, i) => {
    const left = stacked ? margin.left : margin.left + i * (each + margin.between);
    const top = margin.top + (stacked ? i * step : 0);
    const frame: Frame = { left, right: left + each, top, bottom: top + panelHeight };
    const x = scaleOver(salinities, [frame.left, frame.right]);
    const y = scaleOver(temperatures, [frame.bottom, frame.top]);
    return [
      leftAxis(frame, roundTicks(y, 44), "potential temperature, \u00b0C"),
      bottomAxis(frame, roundTicks(x, 74), "salinity read, PSS-78"),
      ...curves.map(({ words, profile, colour, more }) => {
        const places = placesOf(profile).map(([s, t]): Point => [x(s), y(t)]);
        return element("g", {}, hint(`${cell} cell, ${words}`), polyline(places, colour, more));
      }),
      cellHeading(cell, left, top - 26),
    ].join("");
  });
  const bottom = (stacked ? panels.length : 1) * step;
  const keyed = key(keyEntries(panels[0]!.curves), margin.left, bottom, width - 60);
  return drawing(
    { width, height: bottom + keyed.height + 10 },
    name,
    description,
    `${drawn.join("")}${keyed.content}`,
  );
}

function placesOf({ salinity, potentialTemperature_C }: Profile): readonly Point[] {
  return [...salinity].flatMap((s, i): Point[] => {
    const t = potentialTemperature_C[i]!;
    return Number.isFinite(s + t) ? [[s, t]] : [];
  });
}

/** The key shows the last two: the legs of a cast, or an earlier cast and the latest. */
function keyEntries(curves: readonly ThetaSalinityCurve[]) {
  return curves.slice(-2).map(({ words, colour, more }, i, { length }) => ({
    words: curves.length > 2 && i < length - 1 ? "earlier casts" : words,
    sample: ([x, y]: Point) =>
      polyline(
        [
          [x - 9, y],
          [x + 9, y],
        ],
        colour,
        more,
      ),
  }));
}
