import { gaussIntegral } from "../numeric/gauss.js";
import { type Contour, ringContour } from "./contour.js";
import type { Curve, CurvePoint } from "./curve.js";
import type { AddedMetal, FreeBody } from "./ringFaces.js";

/** Radians of parameter to a panel of the quadrature, at most. */
const PANEL = 0.05;

/** Smooth runs of a curve: from break to break. */
export function runsOf(curve: Curve): [from: number, to: number][] {
  const bounds = [curve.from, ...curve.breaks, curve.to];
  return bounds.slice(1).map((to, i) => [bounds[i], to]);
}

/** ∫ f dt along a curve, never across a jump of its curvature; `panel` is the longest stretch taken at once, radians. */
export function integrateAlong(curve: Curve, f: (point: CurvePoint) => number, panel = PANEL): number {
  let sum = 0;
  for (const [from, to] of runsOf(curve)) {
    const panels = Math.max(1, Math.ceil((to - from) / panel));
    const length = (to - from) / panels;
    for (let k = 0; k < panels; k++) {
      const start = from + k * length;
      sum += gaussIntegral(start, start + length, (t) => f(curve.at(t)));
    }
  }
  return sum;
}

/** Length of a curve, mm. */
export function lengthOf(curve: Curve): number {
  return integrateAlong(curve, ({ speed }) => speed);
}

/** Length of a contour, mm, and the area inside if it is closed, mm²; positive counter-clockwise. */
function measureContour(contour: Contour): { length: number; area: number } {
  let [length, area] = [0, 0];
  for (const piece of contour) {
    if ("curve" in piece) {
      length += lengthOf(piece.curve);
      area += integrateAlong(piece.curve, ({ x, y, cos, sin, speed }) => ((x * sin - y * cos) * speed) / 2);
    } else {
      const [[x0, y0], [x1, y1]] = [piece.straight.start, piece.straight.end];
      length += Math.hypot(x1 - x0, y1 - y0);
      area += (x0 * y1 - x1 * y0) / 2;
    }
  }
  return { length, area };
}

/**
 * Length and area of the free ring's outline as cut, of the exact curves. mm, mm².
 *
 * @param ring a design
 * @param added metal on the finished faces; none if not given
 *
 * @example
 * measureOutline(design).area; // 1568, mm²
 */
export function measureOutline(
  ring: FreeBody,
  added?: AddedMetal,
): {
  /** Of the whole outline, mm. */
  length: number;
  /** Inside it, mm². */
  area: number;
} {
  return measureContour(ringContour(ring, added));
}
