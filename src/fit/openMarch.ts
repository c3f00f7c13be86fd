import { shearSlope } from "../elastica/forwardLaw.js";
import { marchedRing } from "../ends/band.js";
import type { CutRing } from "../ends/cutRing.js";
import type { Point } from "../numeric/point.js";
import { integrateAdaptive } from "../numeric/rungeKutta.js";
import { wallAt } from "../section/wall.js";

/** A load on the right end: force (N) and couple (N·mm, closing positive); the left end holds against it. */
export interface EndLoad {
  readonly force: Point;
  readonly couple: number;
  /** Where on the end face the force acts, outward of the ring's line, mm. */
  readonly offset: number;
}

/** The ring under an end load, at its stations from the right end to the left one; the right end of its line is the origin. */
export interface OpenShape {
  readonly x: number[];
  readonly y: number[];
  readonly tangent: number[];
  readonly moment: number[];
  readonly normal: number[];
  /** Turn λκ − κ₀ of the sections per unit free length, 1/mm. */
  readonly bending: number[];
  /** Inner face at the stations, and the inner corners of the ends for first and last. */
  readonly inner: Point[];
  /** Middles of the end faces. */
  readonly middles: { readonly right: Point; readonly left: Point };
}

/**
 * Marches along a free ring from its right end to its left one under a load on that end alone: the elastica, exact for any opening, by the
 * bar's law read forwards.
 *
 * @param ring free ring
 * @returns the shape for a load and a tangent at the right end, radians
 */
export function openMarch(ring: CutRing): (load: EndLoad, rightTangent: number) => OpenShape {
  const { free, wall } = ring;
  const { a, R, last, law, pieces, onFace, thicknessAt, midWall } = marchedRing(ring);

  return ({ force: [fx, fy], couple, offset }, rightTangent) => {
    const point = onFace(last, rightTangent, offset);
    const momentAt = (x: number, y: number) => couple + (point[0] - x) * fy - (point[1] - y) * fx;
    const normalAt = (tangent: number) => fx * Math.cos(tangent) + fy * Math.sin(tangent);
    const inward = (tangent: number) => fy * Math.cos(tangent) - fx * Math.sin(tangent);
    let state = [0, 0, rightTangent];
    const states = [state];
    for (const piece of pieces) {
      const derivative = (s: number, [x, y, tangent]: readonly number[], out: number[]) => {
        const normal = normalAt(tangent);
        const section = piece.wallAt(s);
        const { stretch, sectionTurn } = law.deform(section, piece.curvatureAt(s), momentAt(x, y), normal);
        out[0] = stretch * Math.cos(tangent);
        out[1] = stretch * Math.sin(tangent);
        out[2] =
          (sectionTurn + shearSlope(law, piece, s) * inward(tangent)) /
          (1 + law.shearCompliance(section) * normal);
      };
      state = integrateAdaptive(derivative, state, piece.from, piece.to, [R, R, 1]);
      states.push(state);
    }
    // Where the section jumps a station stands twice, as in the ring's other tables.
    const stations = free.arcLength.map((_, i) => i).reverse();
    const placed: number[][] = [];
    let next = 0;
    for (const [k, i] of stations.entries()) {
      const again = k > 0 && free.arcLength[i] === free.arcLength[stations[k - 1]];
      placed.push(again ? placed[k - 1] : states[next++]);
    }
    const loads = placed.map(([x, y, tangent]) => [momentAt(x, y), normalAt(tangent)]);
    const inner = placed.map(([x, y, tangent], k): Point => {
      const distance = a / 2 - thicknessAt(stations[k]);
      return [x + distance * Math.sin(tangent), y - distance * Math.cos(tangent)];
    });
    const [leftX, leftY, leftTangent] = state;
    const onLeft = (distance: number): Point => {
      const [dx, dy] = onFace(0, -leftTangent, distance);
      return [leftX - dx, leftY + dy];
    };
    inner[0] = onFace(last, rightTangent, a / 2 - thicknessAt(last));
    inner[inner.length - 1] = onLeft(a / 2 - thicknessAt(0));
    return {
      x: placed.map(([x]) => x),
      y: placed.map(([, y]) => y),
      tangent: placed.map(([, , tangent]) => tangent),
      moment: loads.map(([moment]) => moment),
      normal: loads.map(([, normal]) => normal),
      bending: stations.map((i, k) => {
        const kappa0 = free.curvature[i];
        return law.deform(wallAt(a, wall, i), kappa0, loads[k][0], loads[k][1]).sectionTurn - kappa0;
      }),
      inner,
      middles: {
        right: onFace(last, rightTangent, midWall(last)),
        left: onLeft(midWall(0)),
      },
    };
  };
}
