import { stationLaws } from "../curvature/lawsAlong.js";
import type { CutRing } from "../ends/cutRing.js";
import { derivative } from "../numeric/finiteDifference.js";
import { smoothRuns } from "../numeric/smoothRuns.js";
import { SpecError } from "../spec/error.js";

/** How far a ring follows a bore whose radius has a harmonic of one order. */
export interface ConformabilityLimit {
  /** Waves of the bore's radius to a turn, from 2. */
  readonly order: number;
  /** Largest amplitude of the radius, mm, that the ring follows everywhere, whatever the phase. */
  readonly fullContact: number;
  /** Where it would lift first, radians from the back. */
  readonly theta: number;
  /** The same under a uniform pressure with the ring's K, mm. */
  readonly uniform: number;
  /** A looser, semi-empirical limit, mm. */
  readonly semiEmpirical: number;
}

/** How far a ring follows bores that are out of round, away from its gap. */
export interface Conformability {
  /** Smallest local stiffness parameter p·h·R·r²/(E·I), which decides where the stiffness does not vary. */
  readonly smallestLocal: number;
  /** Where it stands, radians from the back. */
  readonly theta: number;
  /** One for each order asked for, in that order. */
  readonly limits: ConformabilityLimit[];
}

/**
 * Largest amplitude that an inextensible ring under uniform pressure follows with full contact, K·r/(i² − 1)², mm.
 *
 * Source: R. Müller, MTZ 31 (1970) (citation from memory; the formula worked again: a bore of radius R + U·cos iθ
 * changes the pressure by the share (i² − 1)²·U/(K·r), which must not pass 1).
 *
 * @param K stiffness parameter, above 0
 * @param r centroid radius, mm
 * @param order i, from 2
 *
 * @example
 * fullContactAmplitude(0.02, 56.8, 4); // 0.005049, mm
 */
export function fullContactAmplitude(K: number, r: number, order: number): number {
  return (K * r) / (order * order - 1) ** 2;
}

/**
 * Semi-empirical limit K·r/[20·(i² − 1)], mm, of the deformation that rings were seen to follow well enough.
 *
 * Source: E. Tomanik, SAE paper 960356 (from memory).
 *
 * @param K stiffness parameter, above 0
 * @param r centroid radius, mm
 * @param order i, from 2
 *
 * @example
 * semiEmpiricalAmplitude(0.02, 56.8, 4); // 0.003787, mm
 */
export function semiEmpiricalAmplitude(K: number, r: number, order: number): number {
  return (K * r) / (20 * (order * order - 1));
}

/**
 * How far a ring follows an out-of-round bore, away from its gap, harmonic by harmonic.
 *
 * A bore of radius R + U·cos(iθ − φ) bends the ring by (i² − 1)·U·cos(iθ − φ)/r², which changes its pressure by
 * (B″ + B)/(h·R·r), B = E·I times that bending. The limit is the U at which the pressure first vanishes somewhere, for the
 * worst φ:
 *
 *   U = p·h·R·r³/{(i² − 1)·√[((i² − 1)·E·I − (E·I)″)² + (2i·(E·I)′)²]}, smallest over θ.
 *
 * For one section that is K·r/(i² − 1)² with the smallest local p·h·R·r²/(E·I) for K. Where slots begin or end E·I jumps;
 * what that does to the pressure just there is left out. Source: worked.
 *
 * Method: docs/theory/08-contact.md.
 *
 * @param ring a designed ring
 * @param orders of the bore's harmonics, whole numbers from 2 to 100, one at least; default 2 … 12
 * @throws SpecError for other orders
 *
 * @example
 * conformability(design, [4]).limits[0].fullContact; // 0.004941, mm
 */
export function conformability(
  ring: CutRing & {
    /** K. */
    readonly stiffnessParameter: number;
  },
  orders: readonly number[] = [2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12],
): Conformability {
  checkOrders(orders);
  const { installed, spec, wall } = ring;
  const { outerRadius: R, centroidRadius: r, pressure, theta } = installed;
  const { axialHeight: h } = spec.section;
  const stiffness = stationLaws(spec, r, wall, theta.length).map((law) => 1 / law.flexibility);
  const [slope, bend] = wall ? slopeAndBend(theta, stiffness) : [undefined, undefined];
  const smallest = (at: (i: number) => number) => {
    let least = { value: Number.POSITIVE_INFINITY, theta: 0 };
    for (const [i, angle] of theta.entries()) {
      const value = at(i);
      if (value < least.value) least = { value, theta: angle };
    }
    return least;
  };
  const local = smallest((i) => (pressure[i] * h * R * r * r) / stiffness[i]);
  return {
    smallestLocal: local.value,
    theta: local.theta,
    limits: orders.map((order) => {
      const m = order * order - 1;
      const { value: fullContact, theta: first } = smallest((i) => {
        const change = Math.hypot(m * stiffness[i] - (bend?.[i] ?? 0), 2 * order * (slope?.[i] ?? 0));
        return (pressure[i] * h * R * r ** 3) / (m * change);
      });
      return {
        order,
        fullContact,
        theta: first,
        uniform: fullContactAmplitude(ring.stiffnessParameter, r, order),
        semiEmpirical: semiEmpiricalAmplitude(ring.stiffnessParameter, r, order),
      };
    }),
  };
}

/** Of a bore's waves that are told of: by far more than any is known to. */
const HIGHEST_ORDER = 100;

function checkOrders(orders: readonly number[]): void {
  if (!Array.isArray(orders) || orders.length === 0) {
    throw new SpecError("orders", orders, "must be a list of one order at least");
  }
  for (const [k, order] of orders.entries()) {
    if (!(Number.isInteger(order) && order >= 2 && order <= HIGHEST_ORDER)) {
      throw new SpecError(`orders.${k}`, order, `must be a whole number from 2 to ${HIGHEST_ORDER}`);
    }
  }
}

/** First and second derivative of a quantity over θ, run by run. */
function slopeAndBend(theta: readonly number[], f: readonly number[]): [number[], number[]] {
  const slope: number[] = [];
  const bend: number[] = [];
  for (const [first, last] of smoothRuns(theta)) {
    // Runs have stations at equal steps.
    const step = (theta[last] - theta[first]) / (last - first);
    const inRun = derivative(f.slice(first, last + 1), step);
    slope.push(...inRun);
    bend.push(...derivative(inRun, step));
  }
  return [slope, bend];
}
