// The required confidence of a cleaning, as given on the command line.
import { UsageError } from "./usageError.js";

export function confidenceFrom(text: string | undefined): number | undefined {
  if (text === undefined) return undefined;
  const confidence = Number(text);
  if (confidence >= 0.5 && confidence <= 0.999) return confidence;
  throw new UsageError(`--confidence ${text}: expected a number from 0.5 to 0.999`);
}
