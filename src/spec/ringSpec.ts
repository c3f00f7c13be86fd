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

/** A corner of a section, mm: along the axis from the bottom side, outward from the inner face; `bulge` is that of the edge that follows. */
export interface OutlineCorner {
  readonly x: number;
  readonly y: number;
  /** Tangent of a quarter of the arc's angle, positive where it bends outward; straight without. */
  readonly bulge?: number | undefined;
}

/** What makes a section other than a rectangle; lengths in mm, angles in radians. */
export interface ProfileFeatures {
  /** Running face: tapered, its lower edge on the bore, by an angle to the axis; or barrelled, an arc whose edges stand back by `drop`. */
  readonly face?:
    | { readonly shape: "taper"; readonly angle: number }
    | { readonly shape: "barrel"; readonly drop: number };
  /** Undercut below the face, as of a scraper ring. */
  readonly undercut?: { readonly depth: number; readonly height: number };
  /** Bevel or step at an inner edge: `depth` radially, `height` along the axis; the top side is that of the combustion. */
  readonly inner?: {
    readonly shape: "bevel" | "step";
    readonly side: "top" | "bottom";
    readonly depth: number;
    readonly height: number;
  };
  /** Inclined sides: both by half the angle between them, or the top one by the whole of it. */
  readonly sides?: { readonly shape: "keystone" | "halfKeystone"; readonly angle: number };
  /** Any section instead: its corners, counter-clockwise. */
  readonly outline?: OutlineCorner[];
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
  readonly section: ProfileFeatures & {
    readonly shape: "rectangle" | "profile";
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
