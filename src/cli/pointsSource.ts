import { readScanCsv, type ScanTable } from "../files/scanCsv.js";
import { readWith } from "./readText.js";

/** A table of points from a file. */
export const readTable = (file: string): ScanTable => readWith(file, "POINTS.csv", readScanCsv);
