// A series of numbers as one line of text.

const bars = "▁▂▃▄▅▆▇█";

/** From the lower to the upper end of the WOCE accuracy, 0.002 in salinity either way, ppm. */
export const usualSpan_ppm = 102;

/**
 * @param values    oldest first; the last `most` are shown, the lowest as the lowest bar; a blank if not finite
 * @param leastSpan least range from lowest to highest bar, so that small changes do not look large
 * @example sparkline([0, -50, -100]) // "█▅▁"
 */
export function sparkline(values: readonly number[], leastSpan = 0, most = 40): string {
  const shown = values.slice(-most);
  const finite = shown.filter(Number.isFinite);
  if (finite.length === 0) return "";
  const room = Math.max(0, leastSpan - (Math.max(...finite) - Math.min(...finite))) / 2;
  const [low, high] = [Math.min(...finite) - room, Math.max(...finite) + room];
  const step = (high - low) / (bars.length - 1);
  return shown
    .map((value) => {
      if (!Number.isFinite(value)) return " ";
      return bars[step > 0 ? Math.round((value - low) / step) : 3]!;
    })
    .join("");
}
