import type { Material } from "./materials.js";

/** Exactly one of the three ways to say how strong the ring is. */
export type Load =
  | {
      /** Ft, N, above 0. */
      tangentialForce: number;
    }
  | {
      /** p₀ = 2·Ft/(d1·h1), MPa, above 0. */
      contactPressure: number;
    }
  | {
      /** m at mid wall, mm, above the closed gap. */
      freeGap: number;
    };

/** Values relative to a nominal one over the angle from the back, radians. */
export interface RelativeTable {
  /** Increasing: from 0 on for a ring whose halves are alike, or for the whole ring from its left end. */
  readonly angle: number[];
  /** One for each angle. */
  readonly relative: number[];
}

/** Inner slots: so many, evenly spaced from `from` to `to`, with half a space beyond the outermost. mm, radians. */
export interface SlotsSpec {
  /** How many, 1 to 10 000. */
  readonly count: number;
  /** Radially from the inner face, mm, to 0.85 of the wall. */
  readonly depth: number;
  /** Along the ring, mm. */
  readonly width: number;
  /** Where the slotted zone begins, radians from the back. */
  readonly from: number;
  /** Where it ends, radians from the back. */
  readonly to: number;
}

/** A corner of a section, mm: along the axis from the bottom side, outward from the inner face; `bulge` is that of the edge that follows. */
export interface OutlineCorner {
  /** Along the axis from the bottom side. */
  readonly x: number;
  /** Outward from the inner face. */
  readonly y: number;
  /** Tangent of a quarter of the arc's angle, positive where it bends outward; straight without. */
  readonly bulge?: number | undefined;
}

/** What makes a section other than a rectangle; lengths in mm, angles in radians. */
export interface ProfileFeatures {
  /** Running face: tapered, its lower edge on the bore, by an angle to the axis; or barrelled, an arc whose edges stand back by `drop`. */
  readonly face?:
    | {
        /** Which kind of face. */
        readonly shape: "taper";
        /** To the axis, above 0 to π/4. */
        readonly angle: number;
      }
    | {
        /** Which kind of face. */
        readonly shape: "barrel";
        /** Of the edges behind the middle. */
        readonly drop: number;
      };
  /** Undercut below the face, as of a scraper ring. */
  readonly undercut?: {
    /** Radially. */
    readonly depth: number;
    /** Along the axis. */
    readonly height: number;
  };
  /** Bevel or step at an inner edge: `depth` radially, `height` along the axis; the top side is that of the combustion. */
  readonly inner?: {
    /** A sloping cut or a square one. */
    readonly shape: "bevel" | "step";
    /** At which edge. */
    readonly side: "top" | "bottom";
    /** Radially. */
    readonly depth: number;
    /** Along the axis. */
    readonly height: number;
  };
  /** Inclined sides: both by half the angle between them, or the top one by the whole of it. */
  readonly sides?: {
    /** Both sides inclined, or the top one. */
    readonly shape: "keystone" | "halfKeystone";
    /** Between the sides, above 0 to π/4. */
    readonly angle: number;
  };
  /** Any section instead: its corners, counter-clockwise. */
  readonly outline?: OutlineCorner[];
}

/** The wanted pressure as data; see docs/theory/02-pressure-and-balance.md for what each means. */
export type PressureSpec =
  | {
      /** p₀ everywhere. */
      readonly shape: "uniform";
    }
  | {
      /** More or less than p₀ within some 45° of the gap. */
      readonly shape: "moreAtGap" | "lessAtGap";
      /** By how much at the gap, over p₀. */
      readonly strength: number;
    }
  | {
      /** A series. */
      readonly shape: "harmonics";
      /** c₂, c₃ … of p = p₀·(1 + Σ cᵢ·cos iθ + sᵢ·sin iθ), θ from the back. */
      readonly cosine: number[];
      /** s₂, s₃ …; only for a ring whose halves differ. */
      readonly sine?: number[];
    }
  | ({
      /** A smooth curve through samples. */
      readonly shape: "sampled";
    } & RelativeTable);

/** What is ordered of the ring's body: everything but its load and pressure. */
export interface BodySpec {
  /** Nominal diameter d1, mm: the outer diameter of the closed ring. */
  readonly bore: number;
  /** Distance s1 between the parallel end faces in the bore, mm. */
  readonly closedGap: number;
  /** What the ring is like where it is cut across. */
  readonly section: ProfileFeatures & {
    /** A rectangle, or one with the features given. */
    readonly shape: "rectangle" | "profile";
    /** Radial wall thickness a1, mm. */
    readonly radialThickness: number;
    /** Axial height h1, mm. */
    readonly axialHeight: number;
    /** Thickness over `radialThickness` along the ring; a design gives it as a table. */
    readonly wall?: RelativeTable | ((theta: number) => number);
    /** Inner slots, if there are any. */
    readonly slots?: SlotsSpec;
  };
  /** Data of the material. */
  readonly material: Material;
  /** Thin textbook bar, or thick curved bar. */
  readonly theory: "thin" | "curved";
  /** Steps per half ring, 16 to 20 000. */
  readonly stations: number;
}

/** A checked spec: every length in mm, force in N, pressure and modulus in MPa, angle in radians. */
export interface RingSpec extends BodySpec {
  /** How strong the ring is. */
  readonly load: Load;
  /** How the pressure is to vary along the ring. */
  readonly pressure: PressureSpec;
}
