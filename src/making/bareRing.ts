import { gapWithMetal, turnsOf } from "../curves/gapWithMetal.js";
import { type DesignOptions, designRing } from "../design/designRing.js";
import type { RingDesign } from "../design/ringDesign.js";
import { closedGeometry } from "../forces/geometry.js";
import type { Load, RingSpec, SlotsSpec } from "../spec/ringSpec.js";
import type { RingSpecInput } from "../spec/schema.js";
import type { Faces } from "./makingSchema.js";

/**
 * The metal under a coating that adds no stiffness, as a ring of its own.
 *
 * @param ordered the coated ring
 * @param coat coating left on each face, mm
 */
export function bareRing(ordered: RingSpec, coat: Faces, options: DesignOptions): RingDesign {
  const spec = bareSpec(ordered, coat);
  const { load } = ordered;
  let design = designRing(spec, options);
  if (!("freeGap" in load)) return design;
  // The gap is ordered at the middle of the finished faces; how far they lean follows from the ring.
  for (let round = 0; round < 3; round++) {
    const freeGap = gapWithMetal(load.freeGap, turnsOf(design), {
      ends: -coat.ends,
      outer: -coat.outer,
      inner: -coat.inner,
    });
    design = designRing({ ...spec, load: { freeGap } }, options);
  }
  return design;
}

/** The coated ring's spec as data: a wall given as a function as a table, at the stations of the metal. */
export function coatedSpec(ordered: RingSpec, { spec: bare, free }: RingDesign): RingSpec {
  const { wall } = ordered.section;
  if (typeof wall !== "function") return ordered;
  // Its ends lie a coating's thickness further.
  const scale = endAngle(ordered) / endAngle(bare);
  const angle = free.theta.filter((theta, i) => theta !== free.theta[i - 1]).map((theta) => scale * theta);
  return {
    ...ordered,
    section: { ...ordered.section, wall: { angle, relative: angle.map((theta) => wall(theta)) } },
  };
}

/** The ring under a coating that bends with it but adds no stiffness: same force, smaller in all directions. */
function bareSpec(spec: RingSpec, coat: Faces): RingSpecInput {
  const { section, load } = spec;
  const a = section.radialThickness;
  const radialThickness = a - coat.outer - coat.inner;
  const { wall } = section;
  const thinner = (relative: number) => (relative * a - coat.outer - coat.inner) / radialThickness;
  const bare = {
    bore: spec.bore - 2 * coat.outer,
    closedGap: spec.closedGap + 2 * coat.ends,
    section: { radialThickness },
  };
  return {
    ...spec,
    bore: bare.bore,
    closedGap: bare.closedGap,
    section: {
      ...section,
      ...(section.slots && { slots: slotsOn(section.slots, endAngle(spec), endAngle(bare)) }),
      radialThickness,
      axialHeight: section.axialHeight - 2 * coat.sides,
      ...(wall && {
        wall:
          typeof wall === "function"
            ? (theta: number) => thinner(wall(theta))
            : { angle: wall.angle, relative: wall.relative.map(thinner) },
      }),
    },
    load: bareLoad(load, spec, coat),
  };
}

/** θC of a ring. */
function endAngle({
  bore,
  closedGap,
  section,
}: Pick<RingSpec, "bore" | "closedGap"> & { section: { radialThickness: number } }): number {
  return closedGeometry(bore, section.radialThickness, closedGap).centroidLimit;
}

/** Slots that reach to the ends do so on the bare ring. */
function slotsOn(slots: SlotsSpec, limit: number, bareLimit: number): SlotsSpec {
  const moved = (at: number) =>
    Math.abs(at) > Math.min(limit, bareLimit) - 1e-9 ? Math.sign(at) * bareLimit : at;
  return { ...slots, from: moved(slots.from), to: moved(slots.to) };
}

/** The contact pressure acts on the coated face, so the tangential force stays. */
function bareLoad(load: Load, { bore, section }: RingSpec, coat: Faces): Load {
  if ("freeGap" in load) return { freeGap: load.freeGap + 2 * coat.ends };
  if ("tangentialForce" in load) return load;
  return { tangentialForce: (load.contactPressure * bore * section.axialHeight) / 2 };
}
