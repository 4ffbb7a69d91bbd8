// Arguments on the command line that cannot be understood.

export class UsageError extends Error {
  override readonly name = "UsageError";
}
