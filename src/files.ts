/**
 * `camround/files`: files for machines and tables, as text.
 *
 * @packageDocumentation
 */

export { correctionCsv, readCorrectionCsv } from "./files/correctionCsv.js";
export { camCsv, coilingCsv, endsCsv, outlineCsv } from "./files/csv.js";
export { type DxfLayer, dxf } from "./files/dxf.js";
export { readScanCsv, type ScanTable } from "./files/scanCsv.js";
