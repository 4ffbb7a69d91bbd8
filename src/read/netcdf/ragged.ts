// Ragged arrays: the scans of all profiles in one sequence, and their assignment to profiles [CFConventions2023], sections
// 9.3.3 and 9.3.4.
import type { Fault } from "../badInput.js";

export type ProfileFault = Pick<Fault, "found" | "expected" | "mend">;

/** Upper limit for the number of profiles in a file (judgement): a broken header may claim billions. */
export const mostProfiles = 1_000_000;

export function tooMany(profiles: number): ProfileFault {
  return {
    found: `${profiles} profiles`,
    expected: `${mostProfiles} at the most`,
    mend: "Check that the file was written and copied to its end.",
  };
}

/**
 * @param rows   number of scans of each profile, in order
 * @param length total number of scans
 */
export function contiguous(rows: Float64Array, length: number): Int32Array[] | ProfileFault {
  const odd = rows.find((size) => !(Number.isNaN(size) || (Number.isInteger(size) && size >= 0)));
  const sum = rows.reduce((total, size) => total + (size || 0), 0);
  if (odd !== undefined || sum > length) {
    return {
      found: odd === undefined ? `${sum} scans in all` : `a profile of ${odd} scans`,
      expected: `whole numbers, ${length} in all`,
      mend: "Count the scans of each profile again.",
    };
  }
  let from = 0;
  return Array.from(rows, (size) => {
    const begin = from;
    from += size || 0;
    return Int32Array.from({ length: size || 0 }, (_, k) => begin + k);
  });
}

/**
 * @param index profile of each scan
 * @param count number of profiles, if the file gives it
 */
export function indexed(
  index: Float64Array,
  count: number | undefined,
): Int32Array[] | ProfileFault {
  const profiles = count ?? index.reduce((most, k) => Math.max(most, (k || 0) + 1), 0);
  if (!(profiles <= mostProfiles)) return tooMany(profiles);
  const lists: number[][] = Array.from({ length: profiles }, () => []);
  for (const [scan, profile] of index.entries()) {
    if (Number.isNaN(profile)) continue;
    const list = lists[profile];
    if (list === undefined) {
      return {
        found: `profile ${profile} at scan ${scan}`,
        expected: `the profiles 0 to ${profiles - 1}`,
        mend: "Count the profiles from 0.",
      };
    }
    list.push(scan);
  }
  return lists.map((list) => Int32Array.from(list));
}
