import type { HalfBar } from "../curvature/lawsAlong.js";
import type { Geometry } from "../forces/geometry.js";
import type { Halves, RelativeForces } from "../forces/relativeForces.js";
import { integralFromBack, type Stations } from "../forces/stations.js";

/**
 * Half of a free ring, from the back (index 0) to the gap; gap on the right, at +x. Back at (0, −r), tangent +x.
 * Lengths in mm, angles in radians, curvature in 1/mm. A left half is seen in the mirror.
 */
export interface HalfRing {
  readonly x: number[];
  readonly y: number[];
  readonly tangent: number[];
  readonly cosTangent: number[];
  readonly sinTangent: number[];
  readonly curvature: number[];
  /** From the back. */
  readonly arcLength: number[];
}

/**
 * Inverse elastica: the shape that takes the closed circle when the given forces act. Exact for any opening; the
 * curvature follows point by point and the shape by two integrations.
 *
 * What is integrated is the difference from the circle, which keeps the digits of a gap far smaller than the ring.
 *
 * @param geometry the closed ring
 * @param stations of the half ring
 * @param forces relative forces at the stations
 * @param bar the bar's law at the stations
 * @param unitForce p₀·h·R, N
 */
export function freeHalfRing(
  { centroidRadius: r }: Geometry,
  stations: Stations,
  forces: RelativeForces,
  { laws, shearSlope }: HalfBar,
  unitForce: number,
): HalfRing {
  const count = stations.theta.length;
  const curvature = new Array<number>(count);
  const shortening = new Array<number>(count);
  const closedCurvature = 1 / r;
  let guess = (1 - unitForce * r * r * forces.moment[0] * laws[0].flexibility) / r;
  let [before, twoBefore] = [guess, guess];
  for (let i = 0; i < count; i++) {
    const law = laws[i];
    const moment = unitForce * r * forces.moment[i];
    const normal = -unitForce * forces.moment[i];
    let shearRate = law.shearCompliance * unitForce * (forces.moment[i] - forces.pressure[i]);
    if (shearSlope) shearRate += shearSlope[i] * unitForce * forces.shear[i];
    const kappa0 = law.freeCurvature(moment, normal, (1 - shearRate) * closedCurvature, guess);
    // Continue the parabola through the last three stations, once there are three.
    guess = i > 1 ? 3 * (kappa0 - before) + twoBefore : kappa0;
    [twoBefore, before] = [before, kappa0];
    curvature[i] = kappa0;
    shortening[i] = r / law.stretch(moment, normal, kappa0) - r;
  }
  return halfRingOf(r, stations, curvature, shortening);
}

/**
 * The half ring of a free curvature.
 *
 * @param r radius of the closed ring's line, mm
 * @param stations of the half ring
 * @param curvature there, 1/mm
 * @param shortening free arc length less r to a radian of the closed ring, mm
 */
export function halfRingOf(
  r: number,
  stations: Stations,
  curvature: number[],
  shortening: number[],
): HalfRing {
  const { theta, cosine, sine } = stations;
  const count = theta.length;
  const turning = curvature.map((kappa0, i) => kappa0 * (shortening[i] + r) - 1);
  const arcLength = integralFromBack(shortening, stations);
  const tangent = integralFromBack(turning, stations);
  const cosTangent = new Array<number>(count);
  const sinTangent = new Array<number>(count);
  const dx = new Array<number>(count);
  const dy = new Array<number>(count);
  for (let i = 0; i < count; i++) {
    arcLength[i] += r * theta[i];
    tangent[i] += theta[i];
    const c = Math.cos(tangent[i]);
    const s = Math.sin(tangent[i]);
    const arcPerAngle = shortening[i] + r;
    cosTangent[i] = c;
    sinTangent[i] = s;
    dx[i] = c * arcPerAngle - r * cosine[i];
    dy[i] = s * arcPerAngle - r * sine[i];
  }
  const x = integralFromBack(dx, stations);
  const y = integralFromBack(dy, stations);
  for (let i = 0; i < count; i++) {
    x[i] += r * sine[i];
    y[i] -= r * cosine[i];
  }
  return { x, y, tangent, cosTangent, sinTangent, curvature, arcLength };
}

/** Both halves of a free ring; one and the same object where forces and bars are. */
export function freeHalves(
  geometry: Geometry,
  stations: Stations,
  forces: Halves<RelativeForces>,
  bars: Halves<HalfBar>,
  unitForce: number,
): Halves<HalfRing> {
  const half = (side: keyof Halves<unknown>) =>
    freeHalfRing(geometry, stations, forces[side], bars[side], unitForce);
  const right = half("right");
  const alike = forces.left === forces.right && bars.left === bars.right;
  return { left: alike ? right : half("left"), right };
}
