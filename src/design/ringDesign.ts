import type { Ends } from "../ends/ends.js";
import type { InstalledRing } from "../forces/installedRing.js";
import type { ClosureProof } from "../proof/proveClosure.js";
import type { FreeRing } from "../shape/freeRing.js";
import type { Outline } from "../shape/outline.js";
import type { RingSpec } from "../spec/readSpec.js";
import type { ClosingStress } from "../stress/closing.js";

/** A result that stands, but outside what the theory was checked for, or past a limit of the user's. */
export interface Warning {
  readonly code: "stress-over-limit" | "thick-wall" | "tall-section" | "ends-touch" | "large-strain";
  readonly message: string;
}

/** A designed ring: plain data that survives JSON. Units: mm, N, MPa, radians. */
export interface RingDesign {
  readonly spec: RingSpec;
  /** K = Ft·r²/(E·I). */
  readonly stiffnessParameter: number;
  readonly load: {
    readonly tangentialForce: number;
    readonly contactPressure: number;
    readonly freeGap: number;
    /** e in p = p₀·(1 + e·cos θ), the first harmonic added so that the pressure balances itself. */
    readonly balance: number;
  };
  readonly installed: InstalledRing;
  readonly free: FreeRing;
  readonly outline: Outline;
  readonly ends: Ends;
  readonly stress: { readonly closing: ClosingStress };
  readonly warnings: Warning[];
  /** On request: the independent forward computation of closing. */
  readonly proof?: ClosureProof;
}
