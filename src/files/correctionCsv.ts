import { csvParseRows } from "d3-dsv";
import type { CurvatureChange } from "../making/changedRing.js";
import { SpecError } from "../spec/error.js";
import { CHANGE_COLUMNS } from "./csv.js";

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
