import type { BalancedPressure } from "../pressure/balanced.js";
import type { Halves, RelativeForces } from "./relativeForces.js";
import { sampledForces } from "./sampledForces.js";
import { seriesForces } from "./seriesForces.js";
import type { Stations } from "./stations.js";

/**
 * Exact internal forces of a closed ring under a balanced pressure.
 *
 * Equilibrium of the circle, M′ = −r·V and V′ = −h·R·p + M/r, gives M″ + M = h·R·r·p with M = M′ = 0 at ±θL.
 *
 * @param pressure balanced, relative to p₀
 * @param loadLimit θL, radians
 * @param stations of the half ring
 */
export function internalForces(
  pressure: BalancedPressure,
  loadLimit: number,
  stations: Stations,
): Halves<RelativeForces> {
  const { form, balance, symmetric } = pressure;
  return "curve" in form
    ? sampledForces(form, balance, symmetric, loadLimit, stations)
    : seriesForces(form, symmetric, loadLimit, stations);
}
