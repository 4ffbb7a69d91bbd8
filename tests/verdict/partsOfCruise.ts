// Cruises with something taken away.
import type { Cast } from "../../src/cast/cast.js";
import type { Cruise, CruiseCast } from "../../src/cast/cruise.js";

/** What was known as the cast of this number came up. */
export const cutAfter = (cruise: Cruise, count: number): Cruise => {
  const casts = cruise.casts.slice(0, count);
  const before = new Set(casts.slice(0, -1).map(({ id }) => id));
  const time = cruise.casts[count]?.start;
  const { nextStation: _, ...rest } = cruise;
  return {
    ...rest,
    casts,
    maintenance: cruise.maintenance.filter(({ afterCast }) => before.has(afterCast ?? "")),
    ...(time === undefined ? {} : { nextStation: { time } }),
  };
};

/** A cast without its times. */
export const untimed = ({ start: _, data, ...cast }: CruiseCast): CruiseCast => {
  if (data === undefined) return cast;
  const { start: __, ...rest } = data;
  return { ...cast, data: rest };
};

export function firstCellOnly(cast: Cast): Cast {
  const { secondary: _, ...columns } = cast.columns;
  return { ...cast, columns };
}
