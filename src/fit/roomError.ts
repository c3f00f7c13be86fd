import type { GivenRing } from "../contact/givenRing.js";
import { closedGeometry } from "../forces/geometry.js";
import { SpecError } from "../spec/error.js";
import { growthAt, ROOM } from "../spec/materialAt.js";
import type { Material } from "../spec/materials.js";
import { hotGap } from "./hotGap.js";

/** What a measuring room off 20 °C does to what is read. mm. */
export interface RoomError {
  /** Of the bore's diameter. */
  readonly bore: number;
  /** Of the ring's wall. */
  readonly wall: number;
  /** Of the closed gap, in a gauge of the bore's material. */
  readonly closedGap: number;
}

/** No measuring room is further off 20 °C. */
const MOST_OFF = 30;

/**
 * What a measuring room that is not at 20 °C does to what is read there, by the linear expansions of ring and gauge; worked.
 *
 * @param ring a design, or `ringOfCurvature(…)`; its material must have its expansion
 * @param gauge material of bore and gauge; it must have its expansion, too
 * @param off degrees above 20 °C, −30 to 30
 * @returns readings less those at 20 °C, mm
 * @throws SpecError when that is out of range or a material has no expansion
 *
 * @example
 * const ring = designRing({ ...spec, material: "EN-GJS-500-7" });
 * roomError(ring, MATERIALS["EN-GJL-250"], 5).bore; // 0.006903, mm
 */
export function roomError(ring: GivenRing, gauge: Material, off: number): RoomError {
  const { bore, section, closedGap, material } = ring.spec;
  if (!(typeof off === "number" && Math.abs(off) <= MOST_OFF))
    throw new SpecError("off", off, `must be a number from -${MOST_OFF} to ${MOST_OFF} K`);
  const growth = {
    ring: growthAt(material, ROOM + off, "ring", "material"),
    bore: growthAt(gauge, ROOM + off, "gauge"),
  };
  return {
    bore: bore * (growth.bore - 1),
    wall: section.radialThickness * (growth.ring - 1),
    closedGap: hotGap(closedGeometry(bore, section.radialThickness, closedGap), growth) - closedGap,
  };
}
