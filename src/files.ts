/**
 * `camround/files`: files for machines and tables, as text.
 *
 * @packageDocumentation
 */

export { readCorrectionCsv } from "./files/correctionCsv.js";
export { camCsv, coilingCsv, correctionCsv, endsCsv, outlineCsv } from "./files/csv.js";
export { type DxfLayer, dxf } from "./files/dxf.js";
export { readScanCsv, type ScanTable } from "./files/scanCsv.js";
