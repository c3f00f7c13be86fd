import { designRing, type RingSpecInput } from "../src/index.js";
import { DEMO_RINGS } from "./rings.js";

/** The ferry ring with inner slots. */

export const FERRY = DEMO_RINGS["ferry 118 mm"];
export const { radialThickness: A, axialHeight: H } = FERRY.section;
/** 2·r = bore − wall. */
export const MEAN_DIAMETER = FERRY.bore - A;
/** θC = π − asin(s/(2r)), the half angle of the whole ring. */
export const LIMIT = Math.PI - Math.asin(FERRY.closedGap / MEAN_DIAMETER);

export type Slots = NonNullable<RingSpecInput["section"]["slots"]>;

export const slotted = (slots: Slots, ring: RingSpecInput = FERRY) =>
  designRing({ ...ring, section: { ...ring.section, slots } });
