/**
 * A pressure as a trigonometric series, relative to p₀, θ from the back:
 * p/p₀ = Σ cosine[i]·cos iθ + sine[i]·sin iθ. `cosine[0]` is 1; `sine[0]` stands for nothing.
 */
export interface PressureSeries {
  readonly cosine: readonly number[];
  readonly sine: readonly number[];
}

/** Value of a series at an angle, by one rotation a harmonic. */
export function seriesAt({ cosine, sine }: PressureSeries, theta: number): number {
  const [c, s] = [Math.cos(theta), Math.sin(theta)];
  let [ci, si] = [1, 0];
  let sum = 0;
  for (let i = 0; i < Math.max(cosine.length, sine.length); i++) {
    sum += (cosine[i] ?? 0) * ci + (sine[i] ?? 0) * si;
    [ci, si] = [ci * c - si * s, si * c + ci * s];
  }
  return sum;
}

/** A first harmonic, e·cos θ + f·sin θ, relative to p₀. */
export interface FirstHarmonic {
  /** e. */
  readonly cosine: number;
  /** f; 0 for a ring whose halves are alike. */
  readonly sine: number;
}

/**
 * The first harmonic that balances a pressure: a frictionless bore can supply no resultant, so ∫p·cos α dα and
 * ∫p·sin α dα over the loaded arc must be nil. Of all that could be added, a first harmonic is the smallest in the
 * mean square.
 *
 * @param resultantCosine ∫p·cos α dα over |α| ≤ θL, relative to p₀
 * @param resultantSine ∫p·sin α dα
 * @param loadLimit θL, radians, π/2 < θL ≤ π
 */
export function balancingHarmonic(
  resultantCosine: number,
  resultantSine: number,
  loadLimit: number,
): FirstHarmonic {
  const overlap = Math.sin(loadLimit) * Math.cos(loadLimit);
  return {
    cosine: -resultantCosine / (loadLimit + overlap),
    sine: resultantSine === 0 ? 0 : -resultantSine / (loadLimit - overlap),
  };
}

/**
 * A series with the first harmonic added that balances it. For a uniform pressure on a ring with the gap s this is
 * e = −2·sin θL/(θL + sin θL·cos θL) ≈ −s/(π·R): a little less pressure at the back, a little more at the gap.
 *
 * @param wanted a series without a first harmonic
 * @param loadLimit θL, radians
 */
export function balancedSeries(wanted: PressureSeries, loadLimit: number): PressureSeries {
  // ∫cos iα·cos α dα and ∫sin iα·sin α dα over |α| ≤ θL, from the product formulas.
  const [below, above] = [
    (i: number) => Math.sin((i - 1) * loadLimit) / (i - 1),
    (i: number) => Math.sin((i + 1) * loadLimit) / (i + 1),
  ];
  const resultant = (amplitudes: readonly number[], sign: 1 | -1) =>
    amplitudes.reduce((sum, value, i) => (i === 1 ? sum : sum + value * (below(i) + sign * above(i))), 0);
  const first = balancingHarmonic(resultant(wanted.cosine, 1), resultant(wanted.sine, -1), loadLimit);
  const withFirst = (amplitudes: readonly number[], value: number) =>
    amplitudes.length === 0 && value === 0 ? [] : [amplitudes[0] ?? 0, value, ...amplitudes.slice(2)];
  return { cosine: withFirst(wanted.cosine, first.cosine), sine: withFirst(wanted.sine, first.sine) };
}
