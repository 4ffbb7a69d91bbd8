// The arguments of a command: its options, and one file or folder.
import { type ParseArgsConfig, parseArgs } from "node:util";
import { UsageError } from "./usageError.js";

/** The values from parseArgs for the options of a command. */
type Values<Options extends NonNullable<ParseArgsConfig["options"]>> = ReturnType<
  typeof parseArgs<{ args: string[]; allowPositionals: true; options: Options }>
>["values"];

/**
 * @param options as for parseArgs
 * @param needs   the required argument, for a person: "a maintenance record or a cruise"
 * @param takes   the same for the message on too many arguments: "one record or cruise"
 * @throws UsageError for an unknown option, or if there is not exactly one argument
 */
export function oneArgument<Options extends NonNullable<ParseArgsConfig["options"]>>(
  command: string,
  words: readonly string[],
  options: Options,
  needs: string,
  takes: string,
): { readonly values: Values<Options>; readonly path: string } {
  try {
    const { values, positionals } = parseArgs({
      args: [...words],
      allowPositionals: true,
      options,
    });
    const [path, more] = positionals;
    if (path === undefined) throw new UsageError(`${command} needs ${needs}`);
    if (more !== undefined) throw new UsageError(`${command} takes ${takes}, found also ${more}`);
    return { values, path };
  } catch (error) {
    // The error of parseArgs names the unknown option.
    if (error instanceof TypeError) throw new UsageError(error.message);
    throw error;
  }
}
