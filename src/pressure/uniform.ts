/**
 * First harmonic that balances a uniform pressure on a ring with a gap.
 *
 * A pressure p₀ that stops at the gap leaves the resultant p₀·h·s unbalanced, and no frictionless bore can supply
 * it. p₀·(1 + e·cos α) over |α| ≤ θL balances itself, ∫ p·cos α dα = 0, with
 * e = −2·sin θL/(θL + sin θL·cos θL) ≈ −s/(π·R).
 *
 * @param loadLimit θL, the angle from the back at which the outer face ends, radians, π/2 < θL ≤ π
 * @returns e, negative: a little less pressure at the back, a little more at the gap
 */
export function uniformBalance(loadLimit: number): number {
  const sine = Math.sin(loadLimit);
  return (-2 * sine) / (loadLimit + sine * Math.cos(loadLimit));
}
