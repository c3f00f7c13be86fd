import type { InstalledRing } from "../forces/installedRing.js";
import type { WallStations } from "../section/wall.js";
import type { FreeRing } from "../shape/freeRing.js";
import type { RingSpec } from "../spec/ringSpec.js";
import type { Ends } from "./ends.js";

/** A free ring with its ends cut: what the forward computations need to know. Every `RingDesign` is one. */
export interface CutRing {
  readonly spec: Pick<RingSpec, "section" | "material" | "theory" | "closedGap">;
  readonly installed: InstalledRing;
  readonly free: FreeRing;
  readonly ends: Ends;
  /** Only where the wall varies or is slotted. */
  readonly wall?: WallStations;
  readonly load: { readonly tangentialForce: number };
}
