import type { CutRing } from "../ends/cutRing.js";
import type { ClosureProof } from "../proof/proveClosure.js";
import type { Outline } from "../shape/outline.js";
import type { RingSpec } from "../spec/ringSpec.js";
import type { ClosingStress } from "../stress/closing.js";

/** A result that stands, but outside what the theory was checked for, or past a limit of the user's. */
export interface Warning {
  readonly code:
    | "stress-over-limit"
    | "thick-wall"
    | "tall-section"
    | "ends-touch"
    | "large-strain"
    | "negative-pressure"
    | "slots";
  readonly message: string;
}

/**
 * A designed ring: plain data that survives JSON. Units: mm, N, MPa, radians. Arrays run from the left end over the
 * back to the right end.
 */
export interface RingDesign extends CutRing {
  readonly spec: RingSpec;
  /**
   * K = Ft·r²/(E·I). Where the stiffness varies along the ring, 1/(E·I) is its mean weighted with (1 + cos θ)², the
   * weight with which it opens the gap; so 3π·K·r is the small free gap of every uniform-pressure ring.
   */
  readonly stiffnessParameter: number;
  readonly load: {
    /** Ft = p₀·d1·h1/2, N. A tape shows just that for a uniform pressure only: see `describePressure`. */
    readonly tangentialForce: number;
    /** p₀, the mean, MPa. */
    readonly contactPressure: number;
    readonly freeGap: number;
    /** e and f in p₀·(e·cos θ + f·sin θ), the first harmonic added so that the pressure balances itself. */
    readonly balance: number;
    readonly balanceSine: number;
  };
  readonly outline: Outline;
  readonly stress: { readonly closing: ClosingStress };
  readonly warnings: Warning[];
  /** On request: the independent forward computation of closing. */
  readonly proof?: ClosureProof;
}
