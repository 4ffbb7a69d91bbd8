/** "−125", "+12", with a true minus sign. */
export function signed(value: number, digits = 0): string {
  const text = Math.abs(value).toFixed(digits);
  if (Number(text) === 0) return text;
  return `${value < 0 ? "\u2212" : "+"}${text}`;
}
