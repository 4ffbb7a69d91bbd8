// A probability as text for people.

export function percent(probability: number): string {
  if (probability > 0.99) return "over 99 %";
  if (probability < 0.01) return "under 1 %";
  return `${(100 * probability).toFixed(0)} %`;
}
