import { DilutionRefused } from "../../src/cleaning/chemistry/dilutionRefused.js";

/** The refusal that a call ends in. */
export function refusal(call: () => unknown): DilutionRefused {
  try {
    call();
  } catch (error) {
    if (error instanceof DilutionRefused) return error;
    throw error;
  }
  throw new Error("not refused");
}
