import type { Geometry } from "../forces/geometry.js";
import { joinedBy } from "../forces/mirror.js";
import type { Halves, RelativeForces } from "../forces/relativeForces.js";
import { type BalancedPressure, balancedPressure } from "../pressure/balanced.js";
import { lowestPressure } from "../pressure/lowest.js";
import type { SampledPressure } from "../pressure/sampled.js";
import { SpecError } from "../spec/error.js";
import type { RingSpec } from "../spec/ringSpec.js";

/** A pressure that touches nil is allowed; rounding may take it below. */
const ROUNDING = 1e-12;

export interface NegativePressure {
  /** Lowest p/p₀. */
  readonly relative: number;
  /** Where, radians from the back. */
  readonly theta: number;
}

/**
 * A ring cannot pull on its bore.
 *
 * @param geometry the closed ring
 * @param pressure balanced, relative to p₀
 * @param theta stations, end to end
 * @param forces of both halves at them
 * @param allowed whether the caller wants to see a negative pressure
 * @returns the lowest pressure if it is negative
 * @throws SpecError naming where it is negative, and whether only its balance makes it so
 */
export function checkLowestPressure(
  { pressure: wanted }: RingSpec,
  geometry: Geometry,
  pressure: BalancedPressure,
  theta: readonly number[],
  forces: Halves<RelativeForces>,
  allowed = false,
): NegativePressure | undefined {
  // A uniform pressure stays positive for every gap that a spec may have.
  if (wanted.shape === "uniform") return undefined;
  if (wanted.shape === "sampled" && !((pressure.form as SampledPressure).mean > 0)) {
    throw new SpecError("pressure.relative", wanted.relative, "must have a mean above 0");
  }
  const lowest = lowestPressure(
    pressure,
    theta,
    joinedBy(forces, (half) => half.pressure, 1),
  );
  if (lowest.relative >= -ROUNDING) return undefined;
  if (allowed) return lowest;
  if (wanted.shape === "moreAtGap" || wanted.shape === "lessAtGap") {
    const { strength, at } = largestStrength(wanted, lowest, geometry.loadLimit, theta);
    throw new SpecError(
      "pressure.strength",
      wanted.strength,
      `must be at most ${strength} for this ring, where the pressure is nil ${place(at)}`,
    );
  }
  const { cosine, sine } = pressure.balance;
  const added = cosine * Math.cos(lowest.theta) + sine * Math.sin(lowest.theta);
  const harmonic = `${cosine.toFixed(4)}·cos θ${sine === 0 ? "" : ` + ${sine.toFixed(4)}·sin θ`}`;
  const cause =
    lowest.relative - added >= 0
      ? `once the first harmonic that balances it, ${harmonic}, is added`
      : "as ordered";
  throw new SpecError(
    "pressure",
    wanted,
    `must not be negative anywhere; it is ${lowest.relative.toFixed(4)}·p0 ${place(lowest.theta)} ${cause}`,
  );
}

function place(theta: number): string {
  return `at ${theta.toFixed(4)} rad (${((theta * 180) / Math.PI).toFixed(1)}°) from the back`;
}

/** Strength, rounded down, at which the lowest pressure is nil, by the secant from the uniform pressure's value there. */
function largestStrength(
  wanted: { readonly shape: "moreAtGap" | "lessAtGap"; readonly strength: number },
  lowest: NegativePressure,
  loadLimit: number,
  theta: readonly number[],
): { strength: number; at: number } {
  const uniform = balancedPressure({ shape: "uniform" }, loadLimit);
  let { strength } = wanted;
  let { relative, theta: at } = lowest;
  for (let turn = 0; turn < 4; turn++) {
    const plain = uniform.at(at);
    strength *= plain / (plain - relative);
    const pressure = balancedPressure({ shape: wanted.shape, strength }, loadLimit);
    ({ relative, theta: at } = lowestPressure(pressure, theta, theta.map(pressure.at)));
  }
  return { strength: Math.floor(1000 * strength) / 1000, at };
}
