// One cast as it was read: salinity and potential temperature against pressure, both cells, both legs.
import type { CellName, LegName } from "../cast/cast.js";
import { bottomAxis, type Frame, leftAxis } from "./axes.js";
import { castNamed } from "./castNamed.js";
import type { FigureData, Profile } from "./figureData.js";
import { key } from "./key.js";
import { type Point, polyline } from "./marks.js";
import { extentOf, roundTicks, type Scale, scaleOver } from "./scales.js";
import { type Attributes, drawing, element, hint, label } from "./svg.js";

const panelHeight = 360;
const margin = { left: 50, right: 16, top: 44, between: 40, foot: 46 };

const panels = [
  { of: "salinity", caption: "salinity read, PSS-78" },
  { of: "potentialTemperature_C", caption: "potential temperature, \u00b0C" },
] as const;

interface LegCurve {
  readonly words: string;
  readonly cell: CellName;
  readonly profile: Profile;
  readonly look: Attributes;
}

/** The down leg is solid, the up leg dashed. Cells differ in colour, and the secondary is thinner. */
function lookOf(cell: CellName, leg: LegName): Attributes {
  return {
    "stroke-width": cell === "primary" ? 2 : 1.1,
    ...(leg === "up" ? { "stroke-dasharray": "6 3" } : {}),
  };
}

/**
 * One cast as it was read: salinity and potential temperature against pressure, every cell and leg.
 * @param width px; from about 320
 * @returns SVG text; "" if the cast has no legs
 * @throws RangeError if there is no such cast
 */
export function profiles(data: FigureData, cast: string, width = 720): string {
  const found = castNamed(data, cast);
  const curves = data.cells.flatMap((cell) =>
    (["down", "up"] as const).flatMap((leg): readonly LegCurve[] => {
      const profile = found.legs[cell]?.profiles[leg];
      if (profile === undefined || profile.pressure_dbar.length < 2) return [];
      return [{ words: `${cell} cell, ${leg} leg`, cell, profile, look: lookOf(cell, leg) }];
    }),
  );
  if (curves.length === 0) return "";
  const deepest = Math.max(...curves.map(({ profile }) => profile.pressure_dbar.at(-1)!));
  const each = (width - margin.left - margin.right - margin.between) / panels.length;
  const [top, bottom] = [margin.top, margin.top + panelHeight];
  const y = scaleOver([0, 1.02 * deepest], [top, bottom]);
  const drawn = panels.map(({ of, caption }, i) => {
    const left = margin.left + i * (each + margin.between);
    const frame: Frame = { left, right: left + each, top, bottom };
    const x = scaleOver(
      extentOf(
        curves.flatMap(({ profile }) => [...profile[of]]),
        0.04,
      ),
      [frame.left, frame.right],
    );
    const ticks = roundTicks(y, 44).map((tick) => (i === 0 ? tick : { ...tick, words: "" }));
    return [
      leftAxis(frame, ticks, i === 0 ? "pressure, dbar" : ""),
      bottomAxis(frame, roundTicks(x, 64), width < 500 ? caption.split(",")[0]! : caption),
      ...curves.map(({ words, cell, profile, look }) => {
        const places = [...profile.pressure_dbar].flatMap((pressure, k): Point[] => {
          const value = profile[of][k]!;
          return Number.isFinite(value + pressure) ? [[x(value), y(pressure)]] : [];
        });
        return element("g", {}, hint(words), polyline(places, cell, look));
      }),
      ...strips(curves, of, deepest, frame, y),
    ].join("");
  });
  const keyed = key(
    curves.map(({ words, cell, look }) => ({
      words,
      sample: ([cx, cy]: Point) =>
        polyline(
          [
            [cx - 9, cy],
            [cx + 9, cy],
          ],
          cell,
          look,
        ),
    })),
    margin.left,
    bottom + margin.foot,
    width - 60,
  );
  const spoken = curves.map(
    ({ words, profile }) =>
      `${words}: salinity ${profile.salinity.at(-1)!.toFixed(3)} at ${profile.pressure_dbar.at(-1)!.toFixed(0)} dbar.`,
  );
  return drawing(
    { width, height: bottom + margin.foot + keyed.height + 10 },
    `Cast ${cast} against pressure, every cell and leg`,
    spoken.join(" "),
    `${label(`cast ${cast}`, margin.left, 18, { "font-weight": 600, "font-size": 13 })}${drawn.join("")}${keyed.content}`,
  );
}

/** Levels with a hint that gives the value of every line. */
const levels = 36;

/** Invisible strips across a panel, each with the values of all lines at its middle. */
function strips(
  curves: readonly LegCurve[],
  of: (typeof panels)[number]["of"],
  deepest_dbar: number,
  { left, right }: Frame,
  y: Scale,
): readonly string[] {
  const thick = deepest_dbar / levels;
  return Array.from({ length: levels }, (_, i) => {
    const middle = (i + 0.5) * thick;
    const values = curves.flatMap(({ words, profile }) => {
      const k = profile.pressure_dbar.findIndex((pressure) => pressure >= middle);
      const value = profile[of][k];
      return value === undefined || !Number.isFinite(value)
        ? []
        : [`${words}: ${value.toFixed(of === "salinity" ? 4 : 3)}`];
    });
    if (values.length === 0) return "";
    const [top, bottom] = [y(i * thick), y((i + 1) * thick)];
    return element(
      "rect",
      {
        x: left,
        y: top,
        width: right - left,
        height: bottom - top,
        fill: "none",
        "pointer-events": "all",
      },
      hint([`${middle.toFixed(0)} dbar`, ...values].join("\n")),
    );
  });
}
