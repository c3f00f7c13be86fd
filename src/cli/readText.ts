import { readFileSync } from "node:fs";
import { InputError } from "./inputError.js";

/** A text file; `what` names the argument in messages. */
export function readText(file: string, what: string): string {
  try {
    return readFileSync(file, "utf8");
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    const reason =
      code === "ENOENT" ? "there is no such file" : code === "EISDIR" ? "is a folder" : String(error);
    throw new InputError(`${what} = ${JSON.stringify(file)}: ${reason}`);
  }
}
