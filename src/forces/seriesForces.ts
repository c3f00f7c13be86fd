import type { PressureSeries } from "../pressure/series.js";
import type { Halves, RelativeForces } from "./relativeForces.js";
import type { Stations } from "./stations.js";

/**
 * Forces of a series pressure, exactly.
 *
 * Even and odd terms are taken apart. With b = cos(iθ − φ), b⊥ = sin(iθ − φ), φ = 0 for cosines and π/2 for sines,
 * M″ + M = b has the solution b/(1 − i²), and for the balancing first harmonic ½·θ·b⊥; V = −M′. A first harmonic of
 * free amplitude then brings M and M′ to nil at θL. As the pressure balances itself, one of these two implies the
 * other: even terms take M, odd ones M′, so that neither divides by the small sin θL.
 *
 * Source: worked; for a uniform pressure and no gap M = p₀·h·R·r·(1 + cos θ), T. D. Walshaw, An Essay on Piston
 * Rings, eq. (1).
 */
export function seriesForces(
  { cosine, sine }: PressureSeries,
  symmetric: boolean,
  loadLimit: number,
  stations: Stations,
): Halves<RelativeForces> {
  const even = partForces(cosine, "even", loadLimit, stations);
  if (symmetric) return { left: even, right: even };
  const odd = partForces(sine, "odd", loadLimit, stations);
  const half = (sign: 1 | -1): RelativeForces => {
    const sum = (key: keyof RelativeForces) => even[key].map((value, k) => value + sign * odd[key][k]);
    return { pressure: sum("pressure"), moment: sum("moment"), shear: sum("shear") };
  };
  return { left: half(-1), right: half(1) };
}

/** Forces of the even or the odd terms on the right half. */
function partForces(
  amplitudes: readonly number[],
  parity: "even" | "odd",
  loadLimit: number,
  { theta, cosine, sine }: Stations,
): RelativeForces {
  const even = parity === "even";
  const particular = amplitudes.map((value, i) => (i === 1 ? 0 : value / (1 - i * i)));
  const slope = particular.map((value, i) => i * value);
  const first = amplitudes[1];
  const [cosLimit, sinLimit] = [Math.cos(loadLimit), Math.sin(loadLimit)];
  const atLimit = (terms: readonly number[]) =>
    terms.reduce((sum, value, i) => sum + value * Math.cos(i * loadLimit), 0);
  // M of the particular solution for even terms, M′ for odd ones.
  const left = even
    ? atLimit(particular) + 0.5 * first * loadLimit * sinLimit
    : atLimit(slope) - 0.5 * first * (cosLimit - loadLimit * sinLimit);
  const free = -left / cosLimit;
  const count = theta.length;
  const pressure = new Array<number>(count);
  const moment = new Array<number>(count);
  const shear = new Array<number>(count);
  for (let k = 0; k < count; k++) {
    const c = cosine[k];
    const s = sine[k];
    let b = even ? c : s;
    let bAcross = even ? s : -c;
    const angle = 0.5 * first * theta[k];
    let p = amplitudes[0] + first * b;
    let m = particular[0] + free * b + angle * bAcross;
    let v = (free - 0.5 * first) * bAcross - angle * b;
    for (let i = 2; i < amplitudes.length; i++) {
      const next = b * c - bAcross * s;
      bAcross = bAcross * c + b * s;
      b = next;
      p += amplitudes[i] * b;
      m += particular[i] * b;
      v += slope[i] * bAcross;
    }
    pressure[k] = p;
    moment[k] = m;
    shear[k] = v;
  }
  return { pressure, moment, shear };
}
