// The content of a NetCDF file, independent of its disk format.

export interface NetcdfAttribute {
  readonly value: string | readonly number[];
  /** Whether numbers were written as integers: limits of packed data are integers, limits of unpacked data are not. */
  readonly isInteger: boolean;
}

export interface NetcdfVariable {
  readonly name: string;
  /** Names, slowest dimension first. */
  readonly dimensions: readonly string[];
  readonly shape: readonly number[];
  readonly attributes: ReadonlyMap<string, NetcdfAttribute>;
  /** Whether the values in the file are integers. */
  readonly isInteger: boolean;
  /** The value of an element that was never written, if the disk format has one for this type. */
  readonly usualFill?: number;
  /** All elements in the order of the file: packed numbers, or texts (for characters, one each). */
  readonly read: () => Float64Array | readonly string[];
}

export interface NetcdfFile {
  readonly attributes: ReadonlyMap<string, NetcdfAttribute>;
  readonly variables: readonly NetcdfVariable[];
}

/** An attribute that is text; undefined otherwise. */
export function textOf(
  { attributes }: Pick<NetcdfVariable, "attributes">,
  name: string,
): string | undefined {
  const value = attributes.get(name)?.value;
  return typeof value === "string" ? value.trim() : undefined;
}

/** The numbers of an attribute; none if it is absent or text. */
export function numbersOf({ attributes }: NetcdfVariable, name: string): readonly number[] {
  const value = attributes.get(name)?.value;
  return value === undefined || typeof value === "string" ? [] : value;
}
