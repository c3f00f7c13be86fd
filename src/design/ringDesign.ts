import type { CutRing } from "../ends/cutRing.js";
import type { ClosureProof } from "../proof/proveClosure.js";
import type { Outline } from "../shape/outline.js";
import type { RingSpec } from "../spec/ringSpec.js";
import type { ClosingStress } from "../stress/closing.js";

/** A result that stands, but outside what the theory was checked for, or past a limit of the user's. */
export interface Warning {
  /** Which kind of warning, for programs. */
  readonly code:
    | "stress-over-limit"
    | "thick-wall"
    | "tall-section"
    | "ends-touch"
    | "large-strain"
    | "negative-pressure"
    | "slots";
  /** The same in words, with the numbers, for people. */
  readonly message: string;
}

/**
 * A designed ring: plain data that survives JSON. Units: mm, N, MPa, radians. Arrays run from the left end over the
 * back to the right end.
 */
export interface RingDesign extends CutRing {
  /** The order, checked: lengths in mm, force in N, pressures and moduli in MPa, angles in radians. */
  readonly spec: RingSpec;
  /**
   * K = Ft·r²/(E·I). Where the stiffness varies along the ring, 1/(E·I) is its mean weighted with (1 + cos θ)², the
   * weight with which it opens the gap; so 3π·K·r is the small free gap of every uniform-pressure ring.
   */
  readonly stiffnessParameter: number;
  /** How strong the ring is, whichever of the three was ordered. */
  readonly load: {
    /** Ft = p₀·d1·h1/2, N. A tape shows just that for a uniform pressure only: see `describePressure`. */
    readonly tangentialForce: number;
    /** p₀, the mean, MPa. */
    readonly contactPressure: number;
    /** Between the ends at mid wall, free, mm. */
    readonly freeGap: number;
    /** e in p₀·(e·cos θ + f·sin θ), the first harmonic added so that the pressure balances itself; over p₀. */
    readonly balance: number;
    /** f of that; 0 for a ring whose halves are alike. */
    readonly balanceSine: number;
  };
  /** Faces of the free body. */
  readonly outline: Outline;
  /** Stress of the ring at work. */
  readonly stress: {
    /** Largest in the closed ring. */
    readonly closing: ClosingStress;
  };
  /** What a user must know; empty for most rings. */
  readonly warnings: Warning[];
  /** On request: the independent forward computation of closing. */
  readonly proof?: ClosureProof;
}
