/** The user's input is wrong in a way that no spec field names: a flag, or a file that cannot be read. Exit status 2. */
export class InputError extends Error {
  override readonly name = "InputError";
}
