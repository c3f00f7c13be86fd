import type { Cubic } from "../curves/beziers.js";
import type { CurveFit } from "../curves/fitContour.js";
import type { Point } from "../numeric/point.js";
import { fixed } from "./text.js";

/** A coordinate to a millionth of a millimetre. */
const fine = (value: number) => fixed(value, 6);

/** Path data in drawing axes, in which y runs down. */
const pair = ([x, y]: Point) => `${fine(x)},${fine(-y)}`;

/** Fitted Béziers as path data, 1 unit = 1 mm; a straight piece is one of them. */
export function cubicPath({ pieces, closed }: CurveFit<Cubic>): string {
  const [[start]] = pieces;
  const parts = pieces.map(([, first, second, end]) => `C${pair(first)} ${pair(second)} ${pair(end)}`);
  return `M${pair(start)}${parts.join("")}${closed ? "Z" : ""}`;
}

/** A circle about the origin as path data, so that a reader of paths can measure it. */
export function circlePath(radius: number): string {
  const half = (end: number) => `A${fine(radius)},${fine(radius)},0,0,1,${fine(end)},0`;
  return `M${fine(-radius)},0${half(radius)}${half(-radius)}Z`;
}
