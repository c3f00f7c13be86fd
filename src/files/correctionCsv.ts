import { csvParseRows } from "d3-dsv";
import type { CurvatureChange } from "../making/changedRing.js";
import type { Comparison } from "../scan/compareRings.js";
import { SpecError } from "../spec/error.js";
import { degrees, table } from "./csv.js";

/** The columns of a correction that `readCorrectionCsv` reads. */
const CHANGE_COLUMNS = {
  angle: "angle_from_back_deg",
  curvature: "curvature_change_per_mm",
  length: "wire_length_mm",
};

/**
 * What to change on the machine: bend radius along the wire, and the cam's lift; `curvature_change_per_mm` is all that it is told beside the drawing.
 *
 * @param comparison from `compareRings`
 * @returns a table with angles in degrees, curvatures in 1/mm, lengths and radii in mm
 *
 * @example
 * const made = designRing({ ...spec, load: { contactPressure: 0.14 } }); // or from ringFromScan
 * correctionCsv(compareRings(made, design)).split("\n")[0].split(",").slice(0, 2); // ["angle_from_back_deg", "curvature_change_per_mm"]
 */
export function correctionCsv({ theta, curvature, band, correction }: Comparison): string {
  const { ring, fromDrawing, bendRadius, lift } = correction;
  return table([
    [CHANGE_COLUMNS.angle, degrees(theta), 9],
    [CHANGE_COLUMNS.curvature, fromDrawing.curvature, 12],
    [CHANGE_COLUMNS.length, ring.free.arcLength],
    ["curvature_error_per_mm", curvature, 9],
    ["curvature_band_per_mm", band, 9],
    ["bend_radius_before_mm", bendRadius.before],
    ["bend_radius_now_mm", bendRadius.now],
    ["cam_lift_change_mm", lift],
  ]);
}

/**
 * Reads a correction as `correctionCsv` writes it: the columns angle_from_back_deg, curvature_change_per_mm and wire_length_mm, in any place.
 *
 * @param text the whole table
 * @returns for `planMaking`: angles in radians, changes in 1/mm
 * @throws SpecError naming the line, for a column that is missing or a cell that is no number
 *
 * @example
 * const made = designRing({ ...spec, load: { contactPressure: 0.14 } }); // or from ringFromScan
 * const correction = readCorrectionCsv(correctionCsv(compareRings(made, design))); // or from a file
 * planMaking(spec, {}, { correction }).coiling.developedLength; // 356.5, mm
 */
export function readCorrectionCsv(text: string): CurvatureChange {
  if (typeof text !== "string") throw new SpecError("text", text, "must be a table as text");
  const rows = csvParseRows(text.replace(/^\ufeff/, "").replace(/\s+$/, ""));
  const names = rows[0] ?? [];
  const column = (name: string) => {
    const index = names.findIndex((given) => given.trim() === name);
    if (index < 0)
      throw new SpecError(
        "line 1",
        names.join(","),
        `must name the column ${name}, as scan --correction does`,
      );
    return rows.slice(1).map((cells, i) => {
      const given = cells[index] ?? "";
      const value = given.trim() === "" ? Number.NaN : Number(given);
      if (!Number.isFinite(value))
        throw new SpecError(`line ${i + 2}`, given, `must have a finite number in column ${name}`);
      return value;
    });
  };
  const toRadians = Math.PI / 180;
  const theta = column(CHANGE_COLUMNS.angle).map((angle) => angle * toRadians);
  const curvature = column(CHANGE_COLUMNS.curvature);
  const along = column(CHANGE_COLUMNS.length);
  return {
    theta,
    curvature,
    length: along[along.length - 1] - along[0],
  };
}
