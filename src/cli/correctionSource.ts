import { readCorrectionCsv } from "../files/correctionCsv.js";
import type { CurvatureChange } from "../making/changedRing.js";
import { readWith } from "./readText.js";

/** A correction from a file; none where there is no flag. */
export const correctionFrom = (flag: string, file: string | undefined): CurvatureChange | undefined =>
  file === undefined ? undefined : readWith(file, flag, readCorrectionCsv);
