import { readScanCsv, type ScanTable } from "../files/scanCsv.js";
import { SpecError } from "../spec/error.js";
import { InputError } from "./inputError.js";
import { readText } from "./readText.js";

/** A table of points from a file. */
export function readTable(file: string): ScanTable {
  const text = readText(file, "POINTS.csv");
  try {
    return readScanCsv(text);
  } catch (error) {
    if (error instanceof SpecError)
      throw new InputError(`POINTS.csv = ${JSON.stringify(file)}: ${error.message}`);
    throw error;
  }
}
