import { readCorrectionCsv } from "../files/correctionCsv.js";
import type { CurvatureChange } from "../making/changedRing.js";
import { SpecError } from "../spec/error.js";
import { InputError } from "./inputError.js";
import { readText } from "./readText.js";

/** A correction from a file; none where there is no flag. */
export function correctionFrom(flag: string, file: string | undefined): CurvatureChange | undefined {
  if (file === undefined) return undefined;
  const text = readText(file, flag);
  try {
    return readCorrectionCsv(text);
  } catch (error) {
    if (error instanceof SpecError)
      throw new InputError(`${flag} = ${JSON.stringify(file)}: ${error.message}`);
    throw error;
  }
}
