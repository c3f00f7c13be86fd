import { barsAlong } from "../src/curvature/lawsAlong.js";
import { wallStations } from "../src/design/wallTable.js";
import type { CutRing } from "../src/ends/cutRing.js";
import { freeEnds } from "../src/ends/ends.js";
import { closedGeometry } from "../src/forces/geometry.js";
import { installedRing } from "../src/forces/installedRing.js";
import { internalForces } from "../src/forces/internalForces.js";
import { joinedBy } from "../src/forces/mirror.js";
import type { Halves } from "../src/forces/relativeForces.js";
import { halfStations } from "../src/forces/stations.js";
import type { Point } from "../src/numeric/point.js";
import { balancedPressure } from "../src/pressure/balanced.js";
import { wallAlong } from "../src/section/wall.js";
import { joinHalves } from "../src/shape/freeRing.js";
import { freeHalves } from "../src/shape/halfRing.js";
import { freeGap, freeOutline, type Outline, pointOnEnd } from "../src/shape/outline.js";
import type { PressureSpec } from "../src/spec/ringSpec.js";

/** A ring put together by its steps alone, for tests of one step that must be soon done: without schema and design. */
export interface Assembled extends CutRing {
  readonly outline: Outline;
  /** The middles of the free end faces. */
  readonly faceMiddles: Halves<Point>;
}

/**
 * @param spec checked: mm, MPa, radians
 * @param bore mm
 * @param tangentialForce Ft, N
 */
export function assembled(
  spec: CutRing["spec"],
  bore: number,
  tangentialForce: number,
  { pressure: wanted = { shape: "uniform" }, steps = 40 }: { pressure?: PressureSpec; steps?: number } = {},
): Assembled {
  const { section, closedGap } = spec;
  const { radialThickness: a, axialHeight: h } = section;
  const geometry = closedGeometry(bore, a, closedGap);
  const { outerRadius: R, centroidRadius: r, centroidLimit, loadLimit, faceToNormal } = geometry;
  const along = wallAlong(a, section.wall, section.slots, centroidLimit, r);
  const stations = halfStations(centroidLimit, steps, along.breaks);
  const theta = joinedBy({ left: stations, right: stations }, (half) => half.theta, -1);
  const forces = internalForces(balancedPressure(wanted, loadLimit), loadLimit, stations);
  const bars = barsAlong(spec, r, along, stations);
  const halves = freeHalves(geometry, stations, forces, bars, tangentialForce);
  const walls = { left: bars.left.walls, right: bars.right.walls };
  const endWall = { left: last(walls.left).thickness, right: last(walls.right).thickness };
  const middles = { left: (a - endWall.left) / 2, right: (a - endWall.right) / 2 };
  const tangents = { left: last(halves.left.tangent), right: last(halves.right.tangent) };
  const [leftX, leftY] = pointOnEnd(halves.left, middles.left, faceToNormal);
  return {
    spec,
    installed: installedRing(geometry, forces, theta, tangentialForce / (R * h), tangentialForce),
    free: joinHalves(halves, theta, freeGap(halves, middles, faceToNormal)),
    ends: freeEnds(tangents, geometry, (endWall.left + endWall.right) / 2, closedGap),
    ...(!along.plain && { wall: wallStations(bars, section.slots) }),
    load: { tangentialForce },
    outline: freeOutline(halves, walls, stations.theta, geometry, closedGap, faceToNormal),
    faceMiddles: { left: [-leftX, leftY], right: pointOnEnd(halves.right, middles.right, faceToNormal) },
  };
}

function last<T>(values: readonly T[]): T {
  return values[values.length - 1];
}
