import { line } from "d3-shape";
import type { Outline, Point } from "../shape/outline.js";
import { fixed } from "./text.js";

/** Drawn stations per half ring at most; the chords then miss the curve by under 5 millionths of the bore. */
const DRAWN_STATIONS = 180;

/** Path data in drawing axes: y runs down, so the gap (+y) comes out at the top. */
const polyline = line<Point>()
  .x(([x]) => x)
  .y(([, y]) => -y)
  .digits(3);

/** The free body as one closed path: outer face, right cut, inner face back, left cut. */
export function bodyPath({ outer, inner }: Outline): string {
  return `${polyline([...thinned(outer), ...thinned(inner).reverse()])}Z`;
}

/** Every n-th point, corners and back always kept. */
function thinned(face: readonly Point[]): Point[] {
  const last = face.length - 1;
  const stride = Math.ceil(last / 2 / DRAWN_STATIONS);
  return face.filter((_, i) => i === last || (i - last / 2) % stride === 0 || i === 0);
}

/**
 * The closed ring as one path of two arcs and two parallel cuts.
 *
 * @param R outer radius, mm
 * @param a radial wall thickness, mm
 * @param s closed gap, mm
 */
export function closedBodyPath(R: number, a: number, s: number): string {
  const half = fixed(s / 2);
  const height = (radius: number) => fixed(-Math.sqrt(radius * radius - (s * s) / 4));
  const [outer, inner] = [fixed(R), fixed(R - a)];
  return (
    `M-${half},${height(R)}A${outer},${outer},0,1,0,${half},${height(R)}` +
    `L${half},${height(R - a)}A${inner},${inner},0,1,1,-${half},${height(R - a)}Z`
  );
}
