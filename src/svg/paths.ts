import { line } from "d3-shape";
import type { Point } from "../numeric/point.js";
import type { Outline } from "../shape/outline.js";
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
 * The closed ring as one path. Each face is two arcs that meet at the back: a single one would vanish where the gap is
 * nil, since an arc from a point to itself is not drawn.
 *
 * @param R outer radius, mm
 * @param a radial wall thickness, mm
 * @param s closed gap, mm
 */
export function closedBodyPath(R: number, a: number, s: number): string {
  const corner = (radius: number, side: 1 | -1) =>
    `${fixed((side * s) / 2)},${fixed(-Math.sqrt(radius * radius - (s * s) / 4))}`;
  const face = (radius: number, sweep: 0 | 1, end: string) => {
    const arc = `A${fixed(radius)},${fixed(radius)},0,0,${sweep},`;
    return `${arc}0,${fixed(radius)}${arc}${end}`;
  };
  return (
    `M${corner(R, -1)}${face(R, 0, corner(R, 1))}` +
    `L${corner(R - a, 1)}${face(R - a, 1, corner(R - a, -1))}Z`
  );
}
