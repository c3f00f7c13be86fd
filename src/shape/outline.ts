import type { Geometry } from "../forces/geometry.js";
import type { HalfRing } from "./halfRing.js";

export type Point = [x: number, y: number];

/**
 * Faces of the free body, mm, each end to end (left end, back, right end) and closed by the straight cuts between
 * their first and their last points. The outer face reaches past the last station and the inner one stops short of
 * it, because the cuts are parallel to the axis when the ring is closed.
 */
export interface Outline {
  readonly outer: Point[];
  readonly inner: Point[];
}

/**
 * Where a straight cut through the centroid line's end meets the faces, as angles about the local centre of
 * curvature, positive beyond the end. The material there is unstressed, so its curvature is that of the line's end.
 *
 * @param rho local radius of the centroid line, mm
 * @param a radial wall thickness, mm
 * @param delta angle of the cut to the section normal, radians; positive where the outer face overhangs
 */
export function cutAngles(rho: number, a: number, delta: number): { outer: number; inner: number } {
  const reach = rho * Math.sin(delta);
  return {
    outer: delta - Math.asin(reach / (rho + a / 2)),
    inner: delta - Math.asin(reach / (rho - a / 2)),
  };
}

/**
 * @param half right half of the free ring
 * @param a radial wall thickness, mm
 * @param geometry the closed ring
 * @param delta angle of the end face to the section normal, radians
 */
export function freeOutline(half: HalfRing, a: number, geometry: Geometry, delta: number): Outline {
  const { stations, stationStep, innerLimit } = geometry;
  const innerCount = Math.min(stations, Math.ceil(innerLimit / stationStep));
  const cut = cutAngles(1 / half.curvature[stations], a, delta);
  return {
    outer: faceEndToEnd(half, a / 2, stations, cut.outer),
    inner: faceEndToEnd(half, -a / 2, innerCount, cut.inner),
  };
}

/** `count` stations of the face at `offset` from the back on, then its corner, and the mirror image before them. */
function faceEndToEnd(half: HalfRing, offset: number, count: number, cutAngle: number): Point[] {
  const face = new Array<Point>(2 * count + 1);
  for (let i = 0; i < count; i++) {
    const x = half.x[i] + offset * half.sinTangent[i];
    const y = half.y[i] - offset * half.cosTangent[i];
    face[count - i] = [-x, y];
    face[count + i] = [x, y];
  }
  const [x, y] = corner(half, offset, cutAngle);
  face[0] = [-x, y];
  face[2 * count] = [x, y];
  return face;
}

function corner(half: HalfRing, offset: number, cutAngle: number): Point {
  const last = half.x.length - 1;
  const rho = 1 / half.curvature[last];
  const tangent = half.tangent[last];
  const centreX = half.x[last] - rho * half.sinTangent[last];
  const centreY = half.y[last] + rho * half.cosTangent[last];
  return [
    centreX + (rho + offset) * Math.sin(tangent + cutAngle),
    centreY - (rho + offset) * Math.cos(tangent + cutAngle),
  ];
}
