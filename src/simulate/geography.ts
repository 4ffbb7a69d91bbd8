// Slow differences of the stations along the cruise track.
import type { Station } from "./oceans.js";
import type { RandomStream } from "./random.js";

/** Each number is two waves along the track, of these lengths in stations (judgement). */
const lengths = [
  { least: 9, most: 16 },
  { least: 25, most: 60 },
];

/** @param stream the same for all stations of a cruise */
export function geography(stream: RandomStream, cast: number): Station {
  const along = (k: number) => {
    const own = stream.split(k);
    // Two waves of unit amplitude have unit variance together.
    return lengths.reduce((sum, { least, most }) => {
      const length = least + (most - least) * own.uniform();
      return sum + Math.sin(2 * Math.PI * (cast / length + own.uniform()));
    }, 0);
  };
  return [along(0), along(1), along(2), along(3)];
}
