import { pointOnFace } from "../ends/band.js";
import type { Geometry } from "../forces/geometry.js";
import type { Point } from "../numeric/point.js";
import type { ElasticLine } from "./elasticLine.js";

/** The end faces of a ring in a bore. */
export interface ClosedEnds {
  /** Distance between the end faces at mid wall, as it comes out, mm. */
  readonly closedGap: number;
  /** Angle between the end faces, positive where they stand wider apart outside, radians. */
  readonly facesAngle: number;
}

/**
 * Where the ends come to stand: the line does not stretch, so u′ = −w gives how far each is carried along.
 *
 * @param w radial deviation at the nodes, mm
 * @param line the ring's line
 * @param geometry the ring in its nominal bore
 * @param offsets of the middles of the left and right face outward of the line, mm
 */
export function closedEnds(
  w: readonly number[],
  { angle, step, radius }: ElasticLine,
  { centroidLimit, faceToNormal }: Geometry,
  [leftOffset, rightOffset]: readonly [number, number],
): ClosedEnds {
  const last = w.length - 1;
  const back = last / 2;
  const end = (side: 1 | -1, offset: number): { point: Point; turn: number } => {
    const at = (k: number) => w[back + side * k];
    let carried = 0;
    for (let k = 0; k < back; k++) carried -= 0.5 * step * (at(k) + at(k + 1));
    const slope = (3 * at(back) - 4 * at(back - 1) + at(back - 2)) / (2 * step);
    // In the mirror for the left end, so that both turn the same way round when they open.
    const turned = (carried - slope) / radius;
    const place = angle[last] + carried / radius;
    const normal = angle[last] + turned;
    const [alongX, alongY] = pointOnFace(radius, normal, offset, faceToNormal);
    const point: Point = [
      side * ((radius + at(back)) * Math.sin(place) + alongX),
      -(radius + at(back)) * Math.cos(place) + alongY,
    ];
    return { point, turn: normal - centroidLimit };
  };
  const [left, right] = [end(-1, leftOffset), end(1, rightOffset)];
  const tilt = (right.turn - left.turn) / 2;
  return {
    closedGap:
      (right.point[0] - left.point[0]) * Math.cos(tilt) + (right.point[1] - left.point[1]) * Math.sin(tilt),
    facesAngle: -(left.turn + right.turn),
  };
}
