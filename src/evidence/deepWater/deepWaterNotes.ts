// What a person should know about the deep water of a cast.
import type { CalmLayer } from "./calmLayer.js";
import type { DeepProfile } from "./deepProfile.js";
import type { DeepWaterStep } from "./deepWaterNoise.js";

/** @param begins the curve starts with this cast */
export function notesOf(
  { coldest_C, warmest_C, pressure_dbar }: CalmLayer,
  { doubleValued }: DeepProfile,
  begins: boolean,
  { restart }: DeepWaterStep,
): readonly string[] {
  const notes = [
    `calm layer of ${coldest_C.toFixed(2)} to ${warmest_C.toFixed(2)} degC, about ${pressure_dbar.toFixed(0)} dbar`,
  ];
  if (begins) notes.push("the curve begins with this cast, so deep water gives no gain yet");
  else if (restart) notes.push("the water differs from that of earlier casts, or is not yet known");
  if (doubleValued > 0) {
    notes.push(
      `${doubleValued} levels left out, because their temperature is not that of one steady layer`,
    );
  }
  return notes;
}
