// A command's words: its options, and the one file or folder it is about.
import { type ParseArgsConfig, parseArgs } from "node:util";
import { UsageError } from "./usageError.js";

/** What parseArgs makes of the options of a command. */
type Values<Options extends NonNullable<ParseArgsConfig["options"]>> = ReturnType<
  typeof parseArgs<{ args: string[]; allowPositionals: true; options: Options }>
>["values"];

/**
 * @param options as parseArgs takes them
 * @param needs   what the command is about, for a person: "a maintenance record or a cruise"
 * @param takes   the same where too many are given: "one record or cruise"
 * @throws UsageError if an option is not known, or where there is not exactly one argument
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
    // parseArgs names the option it does not know.
    if (error instanceof TypeError) throw new UsageError(error.message);
    throw error;
  }
}
