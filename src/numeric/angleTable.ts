import { type Curve, shapePreserving } from "./shapePreserving.js";

/**
 * Values at angles from the back, radians, increasing. Angles from 0 on stand for a ring whose halves are alike;
 * a table of the whole ring starts below 0.
 */
export interface AngleTable {
  readonly angle: readonly number[];
  readonly relative: readonly number[];
}

/** Whether the table tells one half, for both. */
export function isHalfTable({ angle }: AngleTable): boolean {
  return angle[0] >= 0;
}

/** The shape-preserving curve over the whole ring; a half table is mirrored first, so the curve is level at the back. */
export function tableCurve(table: AngleTable): Curve {
  if (!isHalfTable(table)) return shapePreserving(table.angle, table.relative);
  const left = (values: readonly number[]) => values.slice(1).reverse();
  return shapePreserving(
    [...left(table.angle).map((angle) => -angle), ...table.angle],
    [...left(table.relative), ...table.relative],
  );
}
