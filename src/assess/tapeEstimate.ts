import { stationLaws } from "../curvature/lawsAlong.js";
import type { CutRing } from "../ends/cutRing.js";
import { integrateTable } from "../numeric/integrateTable.js";

/**
 * What a thin frictionless tape round the ring would show at the closed gap, by the linear theory of small openings.
 *
 * The tape gives the ring the moment T·r·(1 + cos θ). Against the moment M of its bore that leaves a change of
 * curvature (T·r·(1 + cos θ) − M)/(E·I) and with it a radial deviation w, w″ + w = −r²·Δκ. T is such that the gap
 * is the closed one; by virtual work ∫Δκ·(1 + cos θ) dθ = 0. For one section, no gap, p = p₀·(1 + Σ cᵢ·cos iθ):
 *
 *   T = p₀·h·R·[1 − Σ cᵢ·(−1)ⁱ/(3(i² − 1))],
 *   ovality = K·r·Σ cᵢ·{[1 + (−1)ⁱ − 2·cos(iπ/2)]/(i² − 1)² + (π/3)·(−1)ⁱ/(i² − 1)}; (4 + π)/9·K·r·c₂ for order 2.
 *
 * Errors are of the order of K, of a/r and of the gap over the bore; where the halves differ the pull's line tilts, which is
 * left out too and costs up to some 4 % of the pull. Source: worked.
 *
 * @returns pull T in N; ovality, diameter through the gap minus the one at 90° to it, in mm
 */
export function tapeEstimate({ spec, installed, wall }: CutRing): {
  tangentialForce: number;
  ovality: number;
} {
  const { theta, moment, centroidRadius: r } = installed;
  const flexibility = stationLaws(spec, r, wall, theta.length).map((law) => law.flexibility);
  const [from, to] = [theta[0], theta[theta.length - 1]];
  const opening = (f: readonly number[]) =>
    integrateTable(theta, f, from, to, (angle) => 1 + Math.cos(angle));
  const unitMoment = theta.map((angle) => r * (1 + Math.cos(angle)));
  const timesFlexibility = (values: readonly number[]) => values.map((value, i) => value * flexibility[i]);
  const tangentialForce = opening(timesFlexibility(moment)) / opening(timesFlexibility(unitMoment));
  const change = timesFlexibility(moment.map((M, i) => tangentialForce * unitMoment[i] - M));
  // w at the gap and at ±90°, each with w = w′ = 0 at the back, as sums over both halves.
  const atGap = integrateTable(theta, change, from, to, (angle) => Math.abs(Math.sin(angle)));
  const across = integrateTable(theta, change, -Math.PI / 2, Math.PI / 2, Math.cos);
  return { tangentialForce, ovality: r * r * (across - atGap / 2) };
}
