import { meanFlexibility } from "../design/flexibility.js";
import type { RingDesign } from "../design/ringDesign.js";
import { warningsFor } from "../design/warnings.js";
import { freeEnds } from "../ends/ends.js";
import type { InstalledRing } from "../forces/installedRing.js";
import { derivative } from "../numeric/finiteDifference.js";
import { interpolateTable } from "../numeric/interpolateTable.js";
import { joinHalves } from "../shape/freeRing.js";
import { freeOutline } from "../shape/outline.js";
import { slotOutlines } from "../shape/slotOutlines.js";
import type { BodySpec } from "../spec/ringSpec.js";
import { closingStress } from "../stress/closing.js";
import type { Closure } from "./closeInBore.js";
import { closedBody, freeShape, type GivenRing } from "./givenRing.js";

/**
 * A ring of given free curvature with all that a design has: shape, outline, ends, the closed ring's forces, stress.
 *
 * @param ring its free curvature
 * @param body its spec
 * @param closure the ring closed in its own bore
 * @param tangentialForce as a tape shows it, N
 */
export function asDesign(
  ring: GivenRing,
  body: BodySpec,
  closure: Closure,
  tangentialForce: number,
): RingDesign {
  const { section, closedGap } = body;
  const { axialHeight: h, slots } = section;
  const closed = closedBody(body);
  const { geometry, stations, wall, bars } = closed;
  const { outerRadius: R, centroidRadius: r, faceToNormal } = geometry;
  const { theta, curvature } = ring.free;
  const last = stations.theta.length - 1;
  const { halves, endWall, gap } = freeShape(curvature, closed);
  const walls = { left: bars.left.walls, right: bars.right.walls };
  const free = joinHalves(halves, theta, gap);
  const tangents = { left: halves.left.tangent[last], right: halves.right.tangent[last] };
  const ends = freeEnds(tangents, geometry, (endWall.left + endWall.right) / 2, closedGap);
  const outline = freeOutline(halves, walls, stations.theta, geometry, closedGap, faceToNormal);
  const installed = closedRing(closure, theta, R, r);
  const closing = closingStress(body, installed, curvature, ring.wall);
  const contactPressure = tangentialForce / (R * h);
  const once = theta.map((_, i) => i).filter((i) => i === 0 || theta[i] !== theta[i - 1]);
  const spec: RingDesign["spec"] = {
    ...body,
    load: { freeGap: gap },
    pressure: {
      shape: "sampled",
      // The outer face goes on a little beyond the ends of the line.
      angle: [-geometry.loadLimit, ...once.slice(1, -1).map((i) => theta[i]), geometry.loadLimit],
      relative: once.map((i) => installed.pressure[i] / contactPressure),
    },
  };
  return {
    spec,
    stiffnessParameter: tangentialForce * r * r * meanFlexibility(bars, stations),
    load: { tangentialForce, contactPressure, freeGap: gap, balance: 0, balanceSine: 0 },
    installed,
    free,
    outline: slots
      ? { ...outline, slots: slotOutlines(slots, free, (at) => wall.at(at, at).thickness, R - r) }
      : outline,
    ends,
    ...(ring.wall && { wall: ring.wall }),
    stress: { closing },
    warnings: warningsFor(spec, r, closing, undefined),
  };
}

/** The contact's forces at the ring's stations. */
function closedRing(
  { theta, pressure, moment }: Closure,
  wanted: number[],
  R: number,
  r: number,
): InstalledRing {
  const slope = derivative(moment, theta[1] - theta[0]);
  const at = (values: readonly number[]) => interpolateTable(theta, values, wanted);
  return {
    centroidRadius: r,
    outerRadius: R,
    theta: wanted,
    pressure: at(pressure),
    moment: at(moment),
    normal: at(moment.map((M) => -M / r)),
    shear: at(slope.map((value) => -value / r)),
  };
}
