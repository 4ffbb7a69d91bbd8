// A folder without cruise.json: what its files are, by their names.
import type { CruiseDescription } from "../read/cruiseDescription.js";

/** @param names of the files in the folder */
export function guessFolder(
  folder: string,
  names: readonly string[],
): { readonly description: CruiseDescription; readonly notes: readonly string[] } {
  const sorted = [...names].sort((a, b) => a.localeCompare(b, "en", { numeric: true }));
  const bottles = sorted.find((name) => /^bottles\.csv$|_hy1\.csv$/i.test(name));
  const maintenance = sorted.find((name) => /^maintenance\.(csv|json)$/i.test(name));
  const casts = sorted.filter(
    (name) => /\.csv$/i.test(name) && name !== bottles && name !== maintenance,
  );
  const exchange = (name: string) => /_ct1\.csv$/i.test(name);
  return {
    description: {
      name: folder,
      casts: casts.map((file) => ({
        id: exchange(file) ? idOf(file) : file.replace(/\.csv$/i, ""),
        file,
      })),
      ...(bottles === undefined ? {} : { bottles }),
      ...(maintenance === undefined ? {} : { maintenance }),
      instrument: {},
    },
    notes: [
      `no cruise.json: ${casts.length} casts taken from the other CSV files in order of their names, ` +
        `bottles ${bottles === undefined ? "none" : `from ${bottles}`}, ` +
        `maintenance ${maintenance === undefined ? "none" : `from ${maintenance}`}`,
    ],
  };
}

/** EXPOCODE_STATION_CAST_ct1.csv, numbers padded, as in a cruise's archive of CTD files [CCHDOExchange]. */
function idOf(file: string): string {
  const [station, cast] = file
    .replace(/_ct1\.csv$/i, "")
    .split("_")
    .slice(-2);
  const bare = (text: string | undefined) => (text ?? "").replace(/^0+(?=.)/, "");
  return `${bare(station)}/${bare(cast)}`;
}
