import type { InstalledRing } from "../forces/installedRing.js";
import type { WallStations } from "../section/wall.js";
import type { RingSpec } from "../spec/ringSpec.js";
import { type FibreStress, fibreStresses } from "./fibreStress.js";

/** Largest circumferential stress in the closed ring, MPa, and where it stands. */
export interface ClosingStress extends FibreStress {
  /** Largest magnitude over both faces and all stations. */
  readonly max: number;
  /** Where, radians from the back. */
  readonly theta: number;
  /** Whether it stands in the net section over a slot; the inner fibre is then the slot's root, its notch not counted. */
  readonly overSlot: boolean;
}

/**
 * Largest fibre stress. Along a ring of one section it stands where the moment is largest: more moment means more
 * stress, and what it takes off the free curvature changes that only in proportion to the bending strain. Where the
 * wall varies every station is looked at, over slots with the net section.
 *
 * @param spec section and theory
 * @param installed internal forces, end to end
 * @param curvature free curvature, end to end, 1/mm
 * @param wall along the ring, if it varies
 */
export function closingStress(
  { theory, section, material }: Pick<RingSpec, "theory" | "section" | "material">,
  { moment, normal, theta }: Pick<InstalledRing, "moment" | "normal" | "theta">,
  curvature: readonly number[],
  wall?: WallStations,
): ClosingStress {
  const fibresAt = fibreStresses({ theory, section, material }, wall);
  const stressAt = (i: number): ClosingStress => {
    const { outer, inner, overSlot } = fibresAt(i, moment[i], normal[i], curvature[i]);
    return { max: Math.max(Math.abs(outer), Math.abs(inner)), theta: theta[i], outer, inner, overSlot };
  };
  const back = (moment.length - 1) / 2;
  if (!wall) {
    let at = back;
    // From the right, so that of two equal moments the right one is named.
    for (let i = moment.length - 1; i >= 0; i--) if (Math.abs(moment[i]) > Math.abs(moment[at])) at = i;
    return stressAt(at);
  }
  return theta.map((_, i) => stressAt(i)).reduce((most, one) => (one.max > most.max ? one : most));
}
