import { readFileSync } from "node:fs";
import { SpecError } from "../spec/error.js";
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

/** What a reader makes of a text file; its refusals name the file. */
export function readWith<Read>(file: string, what: string, read: (text: string) => Read): Read {
  const text = readText(file, what);
  try {
    return read(text);
  } catch (error) {
    if (error instanceof SpecError)
      throw new InputError(`${what} = ${JSON.stringify(file)}: ${error.message}`);
    throw error;
  }
}
