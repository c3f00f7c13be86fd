import type { RingDesign } from "../design/ringDesign.js";
import { type AngleTable, tableCurve } from "../numeric/angleTable.js";
import type { Point } from "../numeric/point.js";
import { type Curve, curveThrough, parallelCurve } from "./curve.js";

/** What the curves of a free ring are made from. Every `RingDesign` serves. */
export type FreeBody = Pick<RingDesign, "spec" | "installed" | "free" | "outline" | "ends" | "wall">;

/**
 * Metal of a ring as it is made, added to the finished one: to the outer face, the inner face, each side face and each end face.
 * mm, square to the face; negative where a coating is to come on.
 */
export interface AddedMetal {
  /** On the outer face. */
  readonly outer: number;
  /** On the inner face. */
  readonly inner: number;
  /** On each side face. */
  readonly sides: number;
  /** On each end face. */
  readonly ends: number;
}

export const NO_METAL: AddedMetal = { outer: 0, inner: 0, sides: 0, ends: 0 };

/**
 * The free ring's line and faces as curves over the installed angle, from the left end over the back to the right end. Past the ends, where
 * the metal is not stressed, they go on with the curvature of the end.
 */
export interface RingFaces {
  readonly line: Curve;
  readonly outer: Curve;
  readonly inner: Curve;
}

/** @param added metal on the faces; none if not given */
export function ringFaces({ spec, free, wall }: FreeBody, added: AddedMetal = NO_METAL): RingFaces {
  const { theta, x, y, tangent } = free;
  const a = spec.section.radialThickness;
  const line = curveThrough(
    theta,
    x.map((value, i): Point => [value, y[i]]),
  );
  const outer = parallelCurve(line, a / 2 + added.outer);
  if (!wall) return { line, outer, inner: parallelCurve(line, -a / 2 - added.inner) };
  const table = ownTable(spec.section.wall, theta);
  const inner = table
    ? tableFace(line, table, a)
    : curveThrough(
        theta,
        x.map((value, i): Point => {
          const offset = a / 2 - wall.thickness[i];
          return [value + offset * Math.sin(tangent[i]), y[i] - offset * Math.cos(tangent[i])];
        }),
      );
  return { line, outer, inner: parallelCurve(inner, -added.inner) };
}

/** A wall's table, unless it is the one that a design makes of a function at its stations: a function is taken to be smooth. */
function ownTable(
  wall: FreeBody["spec"]["section"]["wall"],
  theta: readonly number[],
): AngleTable | undefined {
  if (typeof wall !== "object") return undefined;
  const stations = new Set(theta);
  return wall.angle.every((angle) => stations.has(angle)) ? undefined : wall;
}

/** The inner face under a wall given by a table: its curvature jumps at the table's angles. */
function tableFace(line: Curve, table: AngleTable, nominal: number): Curve {
  const thickness = tableCurve(table);
  const knots = thickness.knots.filter((angle) => angle > line.from && angle < line.to);
  const breaks = [...new Set([...line.breaks, ...knots])].sort((one, other) => one - other);
  return {
    from: line.from,
    to: line.to,
    breaks,
    at: (t) => {
      const [relative, slope, halfBend] = thickness.around(t);
      const offset = nominal / 2 - nominal * relative;
      const [first, second] = [-nominal * slope, -2 * nominal * halfBend];
      const { x, y, cos, sin, curvature, speed } = line.at(t);
      // r = C + o·n, n to the right of the tangent T, n′ = v·κ·T; how v and κ vary along the ring is left out of r″.
      const along = speed * (1 + offset * curvature);
      const pace = Math.hypot(along, first);
      const turning = along * (along * speed * curvature - second) + 2 * first * first * speed * curvature;
      return {
        x: x + offset * sin,
        y: y - offset * cos,
        cos: (along * cos + first * sin) / pace,
        sin: (along * sin - first * cos) / pace,
        curvature: turning / pace ** 3,
        speed: pace,
      };
    },
  };
}

/** An end face: a point of it and its unit normal, out of the metal. */
export interface EndPlane {
  readonly origin: Point;
  readonly normal: Point;
}

/** The end faces of the free ring, with metal added to them; they pass through the ends of its line. */
export function endPlanes({ free, ends }: FreeBody, metal: number): { left: EndPlane; right: EndPlane } {
  const last = free.x.length - 1;
  const plane = (side: 1 | -1): EndPlane => {
    const at = side === 1 ? last : 0;
    const turn = side === 1 ? ends.right.turn : ends.left.turn;
    // Closed, the right-hand normal points to the left, and it turns with the end.
    const normal: Point = [-side * Math.cos(turn), -Math.sin(turn)];
    return { origin: [free.x[at] + metal * normal[0], free.y[at] + metal * normal[1]], normal };
  };
  return { left: plane(-1), right: plane(1) };
}

/** A line that carries a ring's sections, from left to right: the free ring's, or the same one bent otherwise. mm, radians. */
export interface SectionLine {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly tangent: readonly number[];
}

/**
 * A point of an end face when the ring's line lies otherwise than free; the end is rigid.
 *
 * @param ring the free ring
 * @param line where its line lies
 * @param side the right end (1) or the left one (−1)
 * @param share of the way from the middle of the face: 1 at its outer corner, −1 at its inner one
 */
export function endFacePoint(
  { spec, wall, ends }: FreeBody,
  { x, y, tangent }: SectionLine,
  side: 1 | -1,
  share = 0,
): Point {
  const at = side === 1 ? x.length - 1 : 0;
  const nominal = spec.section.radialThickness;
  const thickness = wall?.thickness[at] ?? nominal;
  const offset = (nominal - thickness + share * thickness) / 2;
  const angle = tangent[at] + side * ends.faceToNormal;
  const along = offset / Math.cos(ends.faceToNormal);
  return [x[at] + along * Math.sin(angle), y[at] - along * Math.cos(angle)];
}
