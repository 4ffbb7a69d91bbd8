// What a NetCDF file holds, whichever of its forms on disk it has.

export interface NetcdfAttribute {
  readonly value: string | readonly number[];
  /** Whether numbers were written as integers: limits of packed data are, limits of what they unpack to are not. */
  readonly isInteger: boolean;
}

export interface NetcdfVariable {
  readonly name: string;
  /** Names, slowest first. */
  readonly dimensions: readonly string[];
  readonly shape: readonly number[];
  readonly attributes: ReadonlyMap<string, NetcdfAttribute>;
  /** As the file holds them, whether integers. */
  readonly isInteger: boolean;
  /** The value that an element has that was never written, where the form on disk has one for this type. */
  readonly usualFill?: number;
  /** All elements in the order of the file: numbers as they are packed, or texts (of characters each by itself). */
  readonly read: () => Float64Array | readonly string[];
}

export interface NetcdfFile {
  readonly attributes: ReadonlyMap<string, NetcdfAttribute>;
  readonly variables: readonly NetcdfVariable[];
}

/** An attribute that is text; undefined if it is none. */
export function textOf(
  { attributes }: Pick<NetcdfVariable, "attributes">,
  name: string,
): string | undefined {
  const value = attributes.get(name)?.value;
  return typeof value === "string" ? value.trim() : undefined;
}

/** The numbers of an attribute; none where it is absent or text. */
export function numbersOf({ attributes }: NetcdfVariable, name: string): readonly number[] {
  const value = attributes.get(name)?.value;
  return value === undefined || typeof value === "string" ? [] : value;
}
