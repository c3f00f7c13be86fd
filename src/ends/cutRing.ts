import type { InstalledRing } from "../forces/installedRing.js";
import type { WallStations } from "../section/wall.js";
import type { FreeRing } from "../shape/freeRing.js";
import type { RingSpec } from "../spec/ringSpec.js";
import type { Ends } from "./ends.js";

/** A free ring with its ends cut: what the forward computations need to know. Every `RingDesign` is one. */
export interface CutRing {
  /** What the ring is: lengths in mm, moduli in MPa. */
  readonly spec: Pick<RingSpec, "section" | "material" | "theory" | "closedGap">;
  /** Closed in its bore. */
  readonly installed: InstalledRing;
  /** Its line, free. */
  readonly free: FreeRing;
  /** Its end faces. */
  readonly ends: Ends;
  /** Only where the wall varies or is slotted. */
  readonly wall?: WallStations;
  /** How strong it is. */
  readonly load: {
    /** Ft = p₀·d1·h1/2, N. */
    readonly tangentialForce: number;
  };
}
