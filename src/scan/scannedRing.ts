import type { RingDesign } from "../design/ringDesign.js";
import type { LightReading } from "../gauge/lightTest.js";
import type { ScanBand } from "./band.js";
import type { Motion } from "./fitFace.js";
import type { LightChance } from "./lightChance.js";
import type { Outlier } from "./scannedFace.js";

/** What a scan told, beyond the ring itself. Lengths in mm, angles in radians. */
export interface Scan {
  /** Which points were used, and how. */
  readonly points: {
    /** How many were given. */
    readonly given: number;
    /** How many lie on the outer face. */
    readonly outer: number;
    /** How many lie on the inner face. */
    readonly inner: number;
    /** How many lie between the faces, at the ends. */
    readonly between: number;
    /** Set aside, as they lie too far from the face; indices as given. */
    readonly outliers: Outlier[];
    /** Set aside, as they are given twice. */
    readonly duplicates: number[];
    /** Means that were fitted in the place of very many points. */
    readonly means?: number;
  };
  /** Takes the points as given, in mm, into the ring's frame; `mirrored` ones with x reversed first. */
  readonly motion: Motion;
  /** Standard deviation of the points' distance from the face: as stated, or as found, 0.05 µm at least. */
  readonly noise: number;
  /** How many numbers the points chose: two of place, three of a uniform pressure, the rest of its unevenness. */
  readonly freedom: number;
  /** Shortest wave of pressure that is looked for, as an order; how much of each the points support they decide. */
  readonly highestOrder: number;
  /** Distance between the faces, where both were scanned: the median, which the ring is taken to have all along. */
  readonly wall?: number;
  /** Closed gap that the ends of the outer face would leave in the bore, as far as the points tell. */
  readonly closedGapShown: number;
  /** Usual distance of neighbours on the outer face. */
  readonly spacing: number;
  /** Share of cases in which the band holds the truth, on average along the ring. */
  readonly confidence: number;
  /** Half widths of what the points leave open. */
  readonly band: ScanBand;
  /** The ring in a round gauge against the light. */
  readonly light: LightReading;
  /** How often rings drawn at random within the band pass, where `draws` asks for them. */
  readonly chance?: LightChance;
}

/** A ring as it was measured: like a design, and with what its scan told. `spec.pressure` is the pressure that it makes. */
export interface ScannedRing extends RingDesign {
  /** What the scan told. */
  readonly scan: Scan;
}
