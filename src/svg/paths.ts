import { line } from "d3-shape";
import type { RingDesign } from "../design/ringDesign.js";
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

/** The free body as one closed path: outer face, right cut, inner face back with its slots, left cut. */
export function bodyPath({ outer, inner, slots = [] }: Outline): string {
  return `${polyline([...thinned(outer), ...slotted(thinned(inner), slots).reverse()])}Z`;
}

/** Angle of a point about the centre of the bore, from the back. */
const angleOf = ([x, y]: Point) => Math.atan2(x, -y);

/** The inner face with the slots cut in; both run from the left end to the right end. */
function slotted(inner: readonly Point[], slots: readonly Point[][]): Point[] {
  const face: Point[] = [];
  let next = 0;
  for (const slot of slots) {
    const [from, to] = [angleOf(slot[0]), angleOf(slot[slot.length - 1])];
    for (; next < inner.length && angleOf(inner[next]) < from; next++) face.push(inner[next]);
    while (next < inner.length && angleOf(inner[next]) <= to) next++;
    face.push(...slot);
  }
  return [...face, ...inner.slice(next)];
}

/** Every n-th point, corners and back always kept. */
function thinned(face: readonly Point[]): Point[] {
  const last = face.length - 1;
  const stride = Math.ceil(last / 2 / DRAWN_STATIONS);
  return face.filter((_, i) => i === last || (i - last / 2) % stride === 0 || i === 0);
}

/** The closed ring as one path, with its slots, whatever its wall. */
export function closedBodyPath({ spec, installed, wall }: RingDesign): string {
  const { radialThickness, slots } = spec.section;
  const R = installed.outerRadius;
  if (!wall) return plainBodyPath(R, radialThickness, spec.closedGap);
  const { theta } = installed;
  const at = (radius: number, angle: number): Point => [radius * Math.sin(angle), -radius * Math.cos(angle)];
  const corners = slots
    ? Array.from({ length: slots.count }, (_, k) => {
        const middle = slots.from + ((slots.to - slots.from) * (k + 0.5)) / slots.count;
        const nearest = theta.findIndex((angle) => angle >= middle);
        const inner = R - wall.thickness[nearest];
        const corner = (radius: number, side: number): Point =>
          at(radius, middle + (side * slots.width) / (2 * radius));
        return [
          corner(inner, -1),
          corner(inner + slots.depth, -1),
          corner(inner + slots.depth, 1),
          corner(inner, 1),
        ];
      })
    : [];
  return bodyPath({ ...closedFaces({ spec, installed, wall }), slots: corners });
}

/**
 * The closed ring of one wall as one path. Each face is two arcs that meet at the back: a single one would vanish where the gap is
 * nil, since an arc from a point to itself is not drawn.
 *
 * @param R outer radius, mm
 * @param a radial wall thickness, mm
 * @param s closed gap, mm
 */
function plainBodyPath(R: number, a: number, s: number): string {
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

/** Faces of the ring closed in its bore, end to end, with parallel ends. */
export function closedFaces({
  spec,
  installed,
  wall,
}: Pick<RingDesign, "spec" | "installed" | "wall">): Pick<Outline, "outer" | "inner"> {
  const { outerRadius: R, theta } = installed;
  const last = theta.length - 1;
  const face = (radiusAt: (i: number) => number) =>
    theta.map((angle, i): Point => {
      const radius = radiusAt(i);
      if (i > 0 && i < last) return [radius * Math.sin(angle), -radius * Math.cos(angle)];
      const side = i === 0 ? -1 : 1;
      return [(side * spec.closedGap) / 2, Math.sqrt(radius * radius - spec.closedGap ** 2 / 4)];
    });
  return {
    outer: face(() => R),
    inner: face((i) => R - (wall?.thickness[i] ?? spec.section.radialThickness)),
  };
}

/** How far the free and the closed ring reach from the centre of the bore: to either side, to the gap, to the back; mm. */
export function extentsOf({ installed, outline }: Pick<RingDesign, "installed" | "outline">): {
  side: number;
  top: number;
  bottom: number;
} {
  const R = installed.outerRadius;
  return {
    side: Math.max(R, ...outline.outer.map(([x]) => Math.abs(x))),
    top: Math.max(R, ...outline.outer.map(([, y]) => y)),
    bottom: Math.max(R, ...outline.outer.map(([, y]) => -y)),
  };
}
