import type { Material } from "./materials.js";

/** Exactly one of the three ways to say how strong the ring is. Units: N, MPa, mm. */
export type Load = { tangentialForce: number } | { contactPressure: number } | { freeGap: number };

/** Values relative to a nominal one over the angle from the back, radians. */
export interface RelativeTable {
  readonly angle: number[];
  readonly relative: number[];
}

/** Inner slots: so many, evenly spaced from `from` to `to`, with half a space beyond the outermost. mm, radians. */
export interface SlotsSpec {
  readonly count: number;
  readonly depth: number;
  readonly width: number;
  readonly from: number;
  readonly to: number;
}

/** The wanted pressure as data; see docs/theory.md for what each means. */
export type PressureSpec =
  | { readonly shape: "uniform" }
  | { readonly shape: "moreAtGap" | "lessAtGap"; readonly strength: number }
  | { readonly shape: "harmonics"; readonly cosine: number[]; readonly sine?: number[] }
  | ({ readonly shape: "sampled" } & RelativeTable);

/** What is ordered of the ring's body: everything but its load and pressure. */
export interface BodySpec {
  readonly bore: number;
  readonly closedGap: number;
  readonly section: {
    readonly shape: "rectangle";
    readonly radialThickness: number;
    readonly axialHeight: number;
    /** Thickness over `radialThickness` along the ring; a design gives it as a table. */
    readonly wall?: RelativeTable | ((theta: number) => number);
    readonly slots?: SlotsSpec;
  };
  readonly material: Material;
  readonly theory: "thin" | "curved";
  readonly stations: number;
}

/** A checked spec: every length in mm, force in N, pressure and modulus in MPa, angle in radians. */
export interface RingSpec extends BodySpec {
  readonly load: Load;
  readonly pressure: PressureSpec;
}
