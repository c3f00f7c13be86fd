/**
 * Two families of pressure by one number, for what a maker asks most: more, or less, at the gap.
 *
 * p/p₀ = 1 ± strength·b(φ), φ from the gap. The bump b is 1 at the gap, has mean 0 and no first harmonic, and falls
 * off within some 45°: b = Σ wᵢ·cos iφ, i = 2 … 6, with the falling weights wᵢ ∝ 7 − i that keep Fejér's sums free
 * of ringing. So the pressure at the gap is (1 ± strength)·p₀, to the first harmonic that balances the ring.
 */
const ORDERS = [2, 3, 4, 5, 6];
const TOTAL = ORDERS.reduce((sum, i) => sum + 7 - i, 0);

/** Relative cosine amplitudes from order 0, θ from the back; negative strengths mean less at the gap. */
export function gapBump(strength: number): number[] {
  const bump = ORDERS.map((i) => ((i % 2 === 0 ? 1 : -1) * strength * (7 - i)) / TOTAL);
  return [1, 0, ...bump];
}
