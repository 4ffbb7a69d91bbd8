// A row of figures as one line of text.

const bars = "▁▂▃▄▅▆▇█";

/**
 * @param values oldest first; the last `most` are shown, the lowest as the lowest bar; a blank where not finite
 * @example sparkline([0, -50, -100]) // "█▅▁"
 */
export function sparkline(values: readonly number[], most = 40): string {
  const shown = values.slice(-most);
  const finite = shown.filter(Number.isFinite);
  if (finite.length === 0) return "";
  const [low, high] = [Math.min(...finite), Math.max(...finite)];
  const step = (high - low) / (bars.length - 1);
  return shown
    .map((value) => {
      if (!Number.isFinite(value)) return " ";
      return bars[step > 0 ? Math.round((value - low) / step) : 3]!;
    })
    .join("");
}
