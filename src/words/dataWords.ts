// What the data of a cast can be used for, in words.
import type { DataQuality } from "../verdict/verdict.js";

export const dataWords: Readonly<Record<DataQuality, string>> = {
  sound: "sound: usable as it is",
  "usable-after-correction": "usable after the gain error is removed",
  questionable: "questionable: the gain error is not known well enough to correct to the target",
  bad: "bad: the error is too large to correct",
};
