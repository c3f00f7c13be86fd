import type { RingDesign } from "../design/ringDesign.js";
import { bendingThickness, curvatureAfter, yieldCurvature } from "../making/springback.js";
import { curvedSection, isProfiled } from "../section/curvedSection.js";
import { wallAt } from "../section/wall.js";

/** How much wider the free gap stays, mm; `bending` from the right end to the left one, 1/mm. */
export function setLeft(
  { spec, free, wall }: RingDesign,
  bending: readonly number[],
  yieldStress: number,
): number {
  const { section, material } = spec;
  const { radialThickness: a, axialHeight: h } = section;
  const last = free.theta.length - 1;
  const profiled = isProfiled(section) ? curvedSection(a, h, section).properties : undefined;
  const left = free.curvature.map((_, i) => {
    const { thickness, slotted } = wallAt(a, wall, i);
    const bends = profiled ? bendingThickness(profiled) : (slotted?.net ?? thickness);
    return curvatureAfter(
      bending[last - i],
      yieldCurvature({ yieldStress, youngsModulus: material.youngsModulus, thickness: bends }),
    );
  });
  const level = (free.y[0] + free.y[last]) / 2;
  let set = 0;
  for (let i = 0; i < last; i++) {
    const at = (k: number) => -left[k] * (level - free.y[k]);
    set += ((at(i) + at(i + 1)) / 2) * (free.arcLength[i + 1] - free.arcLength[i]);
  }
  return set;
}
