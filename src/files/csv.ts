import { csvFormatRows } from "d3-dsv";
import type { OutlinePoints } from "../curves/chords.js";
import type { CamTurning } from "../making/camTurning.js";
import type { CoilingTable } from "../making/coiling.js";
import type { GapCutting } from "../making/gapCutting.js";

/**
 * Tables as comma-separated values: a first line with names and units, a full stop in decimals, a line feed at the end of each line. The same text
 * on every machine.
 */

/** A column: its name with the unit, its values and, for numbers, how many decimals. */
type Column = readonly [name: string, values: readonly (number | string)[], decimals?: number];

/** The text of a table. */
export function table(columns: readonly Column[]): string {
  const rows = columns[0][1].map((_, i) =>
    columns.map(([, values, decimals = 6]) => {
      const value = values[i];
      // No minus before a zero.
      return typeof value === "number" ? String(Number(value.toFixed(decimals)) + 0) : value;
    }),
  );
  return `${csvFormatRows([columns.map(([name]) => name), ...rows])}\n`;
}

export const degrees = (angles: readonly number[]) => angles.map((angle) => (angle * 180) / Math.PI);

/**
 * The outline's points: outer face from left to right, inner face back; together closed, the first point not repeated.
 *
 * @param points from `outlinePoints`, mm
 * @returns a table with the columns `face`, `x_mm`, `y_mm`
 *
 * @example
 * outlineCsv(outlinePoints(design)).split("\n")[0]; // "face,x_mm,y_mm"
 */
export function outlineCsv({ outer, inner }: OutlinePoints): string {
  const points = [...outer, ...inner];
  return table([
    ["face", [...outer.map(() => "outer"), ...inner.map(() => "inner")]],
    ["x_mm", points.map(([x]) => x)],
    ["y_mm", points.map(([, y]) => y)],
  ]);
}

/**
 * Bend radius along the wire.
 *
 * @param coiling the `table` of `coiling`
 * @returns a table with lengths and radii in mm and angles in degrees; the bend radius where a yield stress was given
 *
 * @example
 * coilingCsv(coiling(design, { rows: 3 }).table).split("\n")[1].split(",").slice(0, 2); // ["0", "-179.781499"]
 */
export function coilingCsv(coiling: CoilingTable): string {
  const { length, theta, radius, innerRadius, outerRadius, innerLength, outerLength, bendRadius } = coiling;
  return table([
    ["wire_length_mm", length],
    ["angle_from_back_deg", degrees(theta)],
    ["radius_mm", radius],
    ["inner_radius_mm", innerRadius],
    ["outer_radius_mm", outerRadius],
    ["inner_fibre_length_mm", innerLength],
    ["outer_fibre_length_mm", outerLength],
    ...(bendRadius ? [["bend_radius_mm", bendRadius] as const] : []),
  ]);
}

/**
 * Radii of the closed blank and the motion of the tool.
 *
 * @param turning from `camTurning`
 * @returns a table with angles in degrees, radii and lifts in mm, derivatives in mm per radian; `yes` in its last column where the gap is cut out
 *
 * @example
 * camCsv(camTurning(design)).split("\n")[0].split(",").slice(0, 3); // ["angle_from_back_deg", "outer_radius_mm", "outer_tool_radius_mm"]
 */
export function camCsv({ angle, outer, inner, cutOut }: CamTurning): string {
  const face = (name: string, { radius, toolRadius, lift, slope, second }: CamTurning["outer"]): Column[] => [
    [`${name}_radius_mm`, radius],
    [`${name}_tool_radius_mm`, toolRadius],
    [`${name}_lift_mm`, lift],
    [`${name}_lift_slope_mm_per_rad`, slope],
    [`${name}_lift_second_mm_per_rad2`, second],
  ];
  return table([
    ["angle_from_back_deg", degrees(angle)],
    ...face("outer", outer),
    ...face("inner", inner),
    ["cut_out", angle.map((at) => (inSector(at, cutOut) ? "yes" : "no"))],
  ]);
}

/** Whether an angle lies in a sector that runs counter-clockwise from one angle to another. */
function inSector(at: number, { from, to }: CamTurning["cutOut"]): boolean {
  return from < to ? at > from && at < to : at > from || at < to;
}

/**
 * Set-ups for cutting the gap, a line each.
 *
 * @param cutting from `gapCutting`
 * @returns a table with lengths in mm, angles in degrees and pull in N
 *
 * @example
 * endsCsv(gapCutting(design)).split("\n").slice(1, 4).map((line) => line.split(",")[0]); // ["free", "held", "closed"]
 */
export function endsCsv({ setups, faceLength }: GapCutting): string {
  const each = (pick: (setup: GapCutting["setups"][number]) => number | string) => setups.map(pick);
  return table([
    ["hold", each(({ hold }) => hold)],
    ["gap_mm", each(({ gap }) => gap)],
    ["gap_outer_mm", each(({ gapOuter }) => gapOuter)],
    ["gap_inner_mm", each(({ gapInner }) => gapInner)],
    ["left_face_deg", degrees(setups.map(({ faces }) => faces.left))],
    ["right_face_deg", degrees(setups.map(({ faces }) => faces.right))],
    ["face_length_mm", each(() => faceLength)],
    ["outer_corner_height_mm", each(({ height }) => height)],
    ["band_pull_N", each(({ pull }) => pull ?? "")],
    ["parallel_cutter_closed_gap_outer_mm", each(({ parallelCutter }) => parallelCutter.gapOuter)],
    ["parallel_cutter_closed_gap_inner_mm", each(({ parallelCutter }) => parallelCutter.gapInner)],
    ["parallel_cutter_to_file_mm", each(({ parallelCutter }) => parallelCutter.toFile)],
  ]);
}
