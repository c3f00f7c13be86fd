/**
 * Terms whose sum tells a ring's moment, and with it its free curvature, in a way that means something to a ring. Of a plain one
 * κ·r = c₀ + c₁·cos u + c₂·sin u + Σ dⱼ·φⱼ(u), u the angle from the back when closed, |u| ≤ c; see `momentSeries` for others. A uniform pressure,
 * whatever couples hold the ends, has the first three alone. The pressure is a constant less E·I/(h·R·r²)·(κ″ + κ)·r, and
 * φⱼ″ + φⱼ = sin(ωⱼ·(u + c)) − sin(ωⱼ·c) with ωⱼ = jπ/(2c), φⱼ(0) = φⱼ′(0) = 0; for j = 0 it is u/c. So Σ dⱼ² measures how uneven the pressure is.
 */

/** Terms that a uniform pressure is made of. */
export const EVEN_TERMS = 3;

/** sin(t)/t. */
const sinc = (t: number) => (Math.abs(t) < 1e-4 ? 1 - (t * t) / 6 : Math.sin(t) / t);

/** ωⱼ and ωⱼ·c. */
const wave = (j: number, c: number) => [(j * Math.PI) / (2 * c), (j * Math.PI) / 2] as const;

/**
 * The terms at a place.
 *
 * @param u angle from the back when closed, radians
 * @param c of the ends
 * @param uneven how many terms φⱼ, j = 0, 1, …
 * @returns κ·r of each term
 */
export function curvatureTerms(u: number, c: number, uneven: number): number[] {
  const terms = [1, Math.cos(u), Math.sin(u)];
  for (let j = 0; j < uneven; j++) {
    if (j === 0) {
      terms.push((u - Math.sin(u)) / c);
      continue;
    }
    const [w, phase] = wave(j, c);
    // Solutions for sin(ω·u) and cos(ω·u) − 1 in a form that does not lose its digits near ω = 1.
    const middle = ((1 + w) * u) / 2;
    const split = (u * sinc(((1 - w) * u) / 2)) / (1 + w);
    const odd = Math.sin(u) / (1 + w) - Math.cos(middle) * split;
    const even = 1 - Math.cos(u) - Math.sin(middle) * split;
    terms.push(Math.cos(phase) * odd - Math.sin(phase) * even);
  }
  return terms;
}

/** (κ″ + κ)·r of each term. */
export function pressureTerms(u: number, c: number, uneven: number): number[] {
  const terms = [1, 0, 0];
  for (let j = 0; j < uneven; j++) {
    const [w, phase] = wave(j, c);
    terms.push(j === 0 ? u / c : Math.sin(w * u + phase) - Math.sin(phase));
  }
  return terms;
}
