// What a reader finds wrong with a text.
import { BadInput, type Fault } from "../../src/read/badInput.js";

/** The faults it throws; empty where it throws none. Any other error is passed on and fails the test. */
export function faultsOf(read: () => unknown): readonly Fault[] {
  try {
    read();
    return [];
  } catch (error) {
    if (error instanceof BadInput) return error.faults;
    throw error;
  }
}
