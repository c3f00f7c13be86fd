/**
 * Internal forces of a half ring, from the back to the gap, for a unit pressure p₀ = 1 MPa on a unit height, made
 * dimensionless. Multiply pressure by p₀, moment by p₀·h·R·r, shear by p₀·h·R; the normal force is N = −M/r.
 * One entry a station. The left half is seen in the mirror, so both run from θ = 0 up and symmetric halves are alike.
 */
export interface RelativeForces {
  readonly pressure: number[];
  readonly moment: number[];
  readonly shear: number[];
}

/** One for each half of a ring; of what a half itself is, one and the same object where the halves are alike. */
export interface Halves<T> {
  /** At −θ. */
  readonly left: T;
  /** At +θ. */
  readonly right: T;
}
