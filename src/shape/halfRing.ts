import type { BarLaw } from "../curvature/law.js";
import type { Geometry } from "../forces/geometry.js";
import type { RelativeForces } from "../forces/internalForces.js";
import { runningIntegral } from "./quadrature.js";

/**
 * Half of a free ring, from the back (index 0) to the gap; gap on the right, at +x. Back at (0, −r), tangent +x.
 * Lengths in mm, angles in radians, curvature in 1/mm.
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
 * @param forces relative forces at the stations
 * @param law the bar's law
 * @param unitForce p₀·h·R, N
 * @param cosine cos θ at the stations
 * @param sine sin θ at the stations
 */
export function freeHalfRing(
  geometry: Geometry,
  forces: RelativeForces,
  law: BarLaw,
  unitForce: number,
  cosine: readonly number[],
  sine: readonly number[],
): HalfRing {
  const { centroidRadius: r, stationStep, stations } = geometry;
  const count = stations + 1;
  const curvature = new Array<number>(count);
  const shortening = new Array<number>(count);
  const turning = new Array<number>(count);
  const closedCurvature = 1 / r;
  let guess = (1 - (2 * unitForce * r * r) / law.bendingStiffness) / r;
  let [before, twoBefore] = [guess, guess];
  for (let i = 0; i < count; i++) {
    const moment = unitForce * r * forces.moment[i];
    const normal = -unitForce * forces.moment[i];
    const shearRate = law.shearCompliance * unitForce * (forces.moment[i] - forces.pressure[i]);
    const kappa0 = law.freeCurvature(moment, normal, (1 - shearRate) * closedCurvature, guess);
    // Continue the parabola through the last three stations, once there are three.
    guess = i > 1 ? 3 * (kappa0 - before) + twoBefore : kappa0;
    [twoBefore, before] = [before, kappa0];
    const arcPerAngle = r / law.stretch(moment, normal, kappa0);
    curvature[i] = kappa0;
    shortening[i] = arcPerAngle - r;
    turning[i] = kappa0 * arcPerAngle - 1;
  }
  const arcLength = runningIntegral(shortening, stationStep);
  const tangent = runningIntegral(turning, stationStep);
  const cosTangent = new Array<number>(count);
  const sinTangent = new Array<number>(count);
  const dx = new Array<number>(count);
  const dy = new Array<number>(count);
  for (let i = 0; i < count; i++) {
    const theta = i * stationStep;
    arcLength[i] += r * theta;
    tangent[i] += theta;
    const c = Math.cos(tangent[i]);
    const s = Math.sin(tangent[i]);
    const arcPerAngle = shortening[i] + r;
    cosTangent[i] = c;
    sinTangent[i] = s;
    dx[i] = c * arcPerAngle - r * cosine[i];
    dy[i] = s * arcPerAngle - r * sine[i];
  }
  const x = runningIntegral(dx, stationStep);
  const y = runningIntegral(dy, stationStep);
  for (let i = 0; i < count; i++) {
    x[i] += r * sine[i];
    y[i] -= r * cosine[i];
  }
  return { x, y, tangent, cosTangent, sinTangent, curvature, arcLength };
}
