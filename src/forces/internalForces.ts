import { uniformBalance } from "../pressure/uniform.js";
import type { Geometry } from "./geometry.js";

/**
 * Internal forces of the half ring from the back (θ = 0) to the gap, for a unit pressure p₀ = 1 MPa on a unit
 * height, made dimensionless. Multiply pressure by p₀, moment by p₀·h·R·r, shear by p₀·h·R; the normal force is
 * N = −M/r. Each array has stations + 1 entries.
 */
export interface RelativeForces {
  /** e, the first harmonic added to the wanted pressure for balance. */
  readonly balance: number;
  readonly pressure: number[];
  readonly moment: number[];
  readonly shear: number[];
}

/**
 * Exact internal forces of a closed ring under balanced uniform pressure.
 *
 * Equilibrium of the circle, M′ = −r·V and V′ = −h·R·p + M/r, gives M″ + M = h·R·r·p with M = M′ = 0 at θL. For
 * p = p₀·(1 + e·cos θ): M = p₀·h·R·r·(1 + C·cos θ + ½·e·θ·sin θ) with C = −(1 + ½·e·θL·sin θL)/cos θL. The sine
 * term is absent because e balances the load. As the gap closes, M → p₀·h·R·r·(1 + cos θ).
 *
 * @param geometry the closed ring
 * @param cosine cos θ at the stations
 * @param sine sin θ at the stations
 *
 * Source: T. D. Walshaw, An Essay on Piston Rings, eq. (1), is the limit of a closed gap.
 */
export function uniformForces(geometry: Geometry, cosine: number[], sine: number[]): RelativeForces {
  const { loadLimit, stationStep } = geometry;
  const e = uniformBalance(loadLimit);
  const C = -(1 + 0.5 * e * loadLimit * Math.sin(loadLimit)) / Math.cos(loadLimit);
  const count = cosine.length;
  const pressure = new Array<number>(count);
  const moment = new Array<number>(count);
  const shear = new Array<number>(count);
  for (let i = 0; i < count; i++) {
    const theta = i * stationStep;
    const c = cosine[i];
    const s = sine[i];
    pressure[i] = 1 + e * c;
    moment[i] = 1 + C * c + 0.5 * e * theta * s;
    shear[i] = C * s - 0.5 * e * (s + theta * c);
  }
  return { balance: e, pressure, moment, shear };
}
