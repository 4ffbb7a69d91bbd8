// Casts from NetCDF files on disk, in either format.
import { BadInput } from "../read/badInput.js";
import type { CastFacts, ReadCast } from "../read/castBuilder.js";
import type { CastMapping } from "../read/castColumnNames.js";
import { castFinder } from "../read/castIds.js";
import type { NetcdfCasts } from "../read/netcdf/netcdfCasts.js";
import { hashFile } from "./hashFile.js";
import { netcdf4File } from "./netcdf4File.js";
import { readBytes, readHead } from "./readText.js";

/** @throws BadInput if the file cannot be read or has no profiles */
export async function openNetcdf(
  path: string,
  name: string,
  mapping: CastMapping = {},
): Promise<NetcdfCasts> {
  const [{ classicFile }, { netcdfCasts }] = await Promise.all([
    import("../read/netcdf/classicFile.js"),
    import("../read/netcdf/netcdfCasts.js"),
  ]);
  const classic = (await readHead(path, name)).startsWith("CDF");
  const file = classic
    ? classicFile(await readBytes(path, name), name)
    : await netcdf4File(path, name);
  return netcdfCasts(file, mapping, name);
}

/** The casts of a file by their ids, without those that have no scans. @param own the id of a cast without a name */
export function castIdsOf({ ids, isEmpty }: NetcdfCasts, own: string): readonly string[] {
  return ids.flatMap((id, k) => (ids.length > 1 && isEmpty(k) ? [] : [id ?? own]));
}

/** @throws BadInput if the file has several casts and none has the id in the facts */
export async function readNetcdfCast(
  path: string,
  facts: CastFacts,
  open: typeof openNetcdf,
): Promise<ReadCast> {
  const casts = await open(path, facts.file, facts.mapping);
  const { cast, input } = casts.read(profileOf(casts.ids, facts), facts);
  return { cast, input: { ...input, sha256: await hashFile(path) } };
}

function profileOf(ids: NetcdfCasts["ids"], { id, file }: CastFacts): number {
  if (ids.length === 1) return 0;
  const known = ids.map((own) => own ?? "");
  // If several files have the same profiles, the id begins with the name of the file.
  const find = castFinder(known);
  const own = id.startsWith(`${bareName(file)}/`) ? id.slice(bareName(file).length + 1) : id;
  const found = find(id) ?? find(own);
  if (found !== undefined) return known.indexOf(found);
  throw new BadInput([
    {
      file,
      line: 0,
      found: `no profile ${id} among ${known.slice(0, 12).join(", ")}${known.length > 12 ? ", ..." : ""}`,
      expected: "the id of one of its profiles",
      mend: "Name the cast as the file names the profile.",
    },
  ]);
}

/** Opens files as `openNetcdf` does; the last one stays open for its next profile. */
export function keepingLast(): typeof openNetcdf {
  let last: { readonly key: string; readonly casts: Promise<NetcdfCasts> } | undefined;
  return (path, name, mapping = {}) => {
    const key = JSON.stringify([path, mapping]);
    if (last?.key !== key) last = { key, casts: openNetcdf(path, name, mapping) };
    return last.casts;
  };
}

/** The name of a file without its folder and its ending. */
export function bareName(file: string): string {
  return file.replace(/^.*[\\/]/, "").replace(/\.[^.]*$/, "");
}
