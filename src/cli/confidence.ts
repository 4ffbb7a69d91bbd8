// The confidence that is required of a cleaning, as it is given in words.
import { UsageError } from "./usageError.js";

export function confidenceFrom(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const confidence = Number(text);
  if (confidence >= 0.5 && confidence <= 0.999) return confidence;
  throw new UsageError(`--confidence ${text}: expected a number from 0.5 to 0.999`);
}
