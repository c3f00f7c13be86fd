// Files for machines and tables.
export { camCsv, coilingCsv, endsCsv, outlineCsv } from "./files/csv.js";
export { type DxfLayer, dxf } from "./files/dxf.js";
