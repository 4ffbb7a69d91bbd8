// A cast of the figures' data by its id.
import type { FigureCast, FigureData } from "./figureData.js";

/** @throws RangeError if there is no such cast */
export function castNamed({ casts }: FigureData, cast: string): FigureCast {
  const found = casts.find(({ id }) => id === cast);
  if (found === undefined) {
    const ids = casts.map(({ id }) => id).join(", ");
    throw new RangeError(`no cast ${cast}; there are ${ids}`);
  }
  return found;
}
