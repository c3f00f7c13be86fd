import { aroundCurve, closedCurve, polarOf } from "../curves/closedCurve.js";
import { cutFace } from "../curves/contour.js";
import { type Curve, parallelCurve } from "../curves/curve.js";
import { runsOf } from "../curves/measures.js";
import { type AddedMetal, type FreeBody, NO_METAL, ringFaces } from "../curves/ringFaces.js";
import type { Point } from "../numeric/point.js";
import { SpecError } from "../spec/error.js";
import { parse } from "../spec/issues.js";
import { checkAdded } from "./checkAdded.js";
import { type CamInput, camSchema } from "./makingSchema.js";
import { minimumZoneCentre } from "./minimumZone.js";

/** One face of the blank and the motion of the tool that turns it, at the table's angles. mm, radians. */
export interface CamFace {
  /** Of the face from the centre. */
  readonly radius: number[];
  /** Of the middle of the tool's nose from the centre; that of the face for a pointed tool. */
  readonly toolRadius: number[];
  /** Of the tool's middle over its innermost place. */
  readonly lift: number[];
  /** First derivative of the lift with respect to the angle, mm per radian. */
  readonly slope: number[];
  /** Second derivative of it, mm per radian². */
  readonly second: number[];
  /** Outermost less innermost place of the tool's middle, of the rows. */
  readonly largestLift: number;
  /** Of the tool at the spindle speed, m/s². */
  readonly largestAcceleration: number;
  /** Smallest radius of curvature where the face is hollow to the tool, mm; absent where it is not hollow anywhere. */
  readonly smallestHollow?: number;
}

/** A closed blank for a cam lathe. Angles in radians from the back, counter-clockwise, about `centre`. */
export interface CamTurning {
  /** From the centre of the bore, mm. */
  readonly centre: Point;
  /** Of the rows, at equal steps from −π to π: the last is the place of the first. */
  readonly angle: number[];
  /** Turned from outside. */
  readonly outer: CamFace;
  /** Turned from inside. */
  readonly inner: CamFace;
  /** Sector that is cut out afterwards, over the gap: from its right-hand to its left-hand end at the outer face. */
  readonly cutOut: {
    /** Angle of the right-hand end. */
    readonly from: number;
    /** Angle of the left-hand end, counter-clockwise of it. */
    readonly to: number;
  };
}

/**
 * Table for turning the ring's outer and inner face on a closed blank, whose gap is cut out afterwards. Over the gap each face goes on with
 * continuous curvature.
 *
 * Method: docs/theory/10-making.md.
 *
 * @param ring a design
 * @param options see docs/reference/inputs.md#making; centre that the radius is counted from: "bore", "minimumZone" (that of the two concentric circles nearest
 * to each other that hold the outer tool path, so with the least lift; the term of ISO 12181-1) or a point; angle between rows; spindle
 * speed in revolutions a minute; radius of the tool's nose
 * @param added metal on the faces as turned, mm; none if not given
 * @throws SpecError when an option is out of range, the nose does not fit into a hollow, or the centre is not inside the ring
 *
 * @example
 * camTurning(design, { centre: "minimumZone" }).outer.largestLift; // 1.061, mm
 */
export function camTurning(ring: FreeBody, options: CamInput = {}, added: AddedMetal = NO_METAL): CamTurning {
  const { centre: wanted, step, spindleSpeed, noseRadius } = parse(camSchema, options, "options");
  checkAdded(ring, added);
  const faces = ringFaces(ring, added);
  const [outer, inner] = [faces.outer, faces.inner].map((face) =>
    closedCurve(cutFace(ring, face, added.ends)),
  );
  const paths = { outer: toolPath("outer", outer, noseRadius), inner: toolPath("inner", inner, -noseRadius) };
  const centre =
    typeof wanted === "object"
      ? wanted
      : wanted === "bore"
        ? ([0, 0] as Point)
        : minimumZoneCentre(paths.outer);
  checkInside(centre, paths.inner);
  const count = Math.round((2 * Math.PI) / step);
  const angle = Array.from({ length: count + 1 }, (_, k) => -Math.PI + (2 * Math.PI * k) / count);
  const speed = (spindleSpeed * 2 * Math.PI) / 60;
  const face = (curve: Curve, path: Curve, side: 1 | -1): CamFace => {
    const hollow = smallestHollow(curve, side);
    const tool = radiiAt(path, centre, angle);
    const toolRadius = tool.map(({ radius }) => radius);
    const lowest = Math.min(...toolRadius);
    const second = tool.map((row) => row.second);
    // Between rows, too: a narrow gap may have none.
    const whole = placesOn(path).map((t) => polarOf(path.at(t), centre));
    const steepest = whole.reduce((most, row) => Math.max(most, Math.abs(row.second)), 0);
    return {
      radius: noseRadius === 0 ? toolRadius : radiiAt(curve, centre, angle).map(({ radius }) => radius),
      toolRadius,
      lift: toolRadius.map((radius) => radius - lowest),
      slope: tool.map(({ slope }) => slope),
      second,
      largestLift: Math.max(...toolRadius) - lowest,
      largestAcceleration: (speed * speed * steepest) / 1000,
      ...(Number.isFinite(hollow) && { smallestHollow: hollow }),
    };
  };
  const gapSide = (t: number) => polarOf(outer.at(t), centre).angle;
  return {
    centre,
    angle,
    outer: face(outer, paths.outer, 1),
    inner: face(inner, paths.inner, -1),
    cutOut: { from: gapSide(outer.breaks[outer.breaks.length - 1]), to: gapSide(outer.from) },
  };
}

/** Smallest radius of curvature of a face where it is hollow, seen from outside (1) or from inside (−1). */
function smallestHollow(curve: Curve, side: 1 | -1): number {
  const deepest = placesOn(curve).reduce((most, t) => Math.max(most, -side * curve.at(t).curvature), 0);
  return deepest > 0 ? 1 / deepest : Number.POSITIVE_INFINITY;
}

/** Parameters round a closed curve, close in each of its smooth runs: the bridge over a narrow gap bends within a few hundredths of a radian. */
function placesOn(curve: Curve): number[] {
  return runsOf(curve).flatMap(([from, to]) => {
    const count = Math.max(200, Math.ceil((to - from) / 0.005));
    return Array.from({ length: count + 1 }, (_, k) => from + ((to - from) * k) / count);
  });
}

/** Path of the middle of the tool's nose: the parallel curve, outward of an outer face. */
function toolPath(name: "outer" | "inner", face: Curve, distance: number): Curve {
  const hollow = smallestHollow(face, distance > 0 ? 1 : -1);
  if (distance !== 0 && Math.abs(distance) >= hollow) {
    throw new SpecError(
      "noseRadius",
      Math.abs(distance),
      `must be below ${hollow.toFixed(3)} mm, the smallest hollow radius of the ${name} face, or the nose cannot follow it`,
    );
  }
  return parallelCurve(face, distance);
}

function checkInside(centre: Point, path: Curve): void {
  const inside = aroundCurve(path, 180).every((t) => {
    const { x, y, cos, sin } = path.at(t);
    return sin * (x - centre[0]) - cos * (y - centre[1]) > 0;
  });
  if (inside) return;
  throw new SpecError(
    "centre",
    centre,
    "must lie inside the tool's path round the inner face, in sight of all of it",
  );
}

/** Polar coordinates of a closed curve at angles from the back, in rising order; by Newton's method on its parameter. */
function radiiAt(curve: Curve, centre: Point, angles: readonly number[]) {
  let t = angles[0];
  return angles.map((wanted, k) => {
    if (k > 0) t += wanted - angles[k - 1];
    for (let turn = 0; turn < 30; turn++) {
      const point = curve.at(t);
      const { angle, radius, slope } = polarOf(point, centre);
      let off = angle - wanted;
      off -= 2 * Math.PI * Math.round(off / (2 * Math.PI));
      // dφ/dt: the speed is that along the curve.
      t -= (off * Math.hypot(radius, slope)) / point.speed;
      if (Math.abs(off) < 1e-13) break;
    }
    return polarOf(curve.at(t), centre);
  });
}
