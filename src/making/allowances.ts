import * as v from "valibot";
import type { AddedMetal } from "../curves/ringFaces.js";
import { type DesignOptions, designRing } from "../design/designRing.js";
import type { RingDesign } from "../design/ringDesign.js";
import { closedGeometry } from "../forces/geometry.js";
import { SpecError } from "../spec/error.js";
import { parse } from "../spec/issues.js";
import { readSpec } from "../spec/readSpec.js";
import type { Load, RingSpec, SlotsSpec } from "../spec/ringSpec.js";
import type { RingSpecInput } from "../spec/schema.js";
import { type CurvatureChange, changedRing } from "./changedRing.js";
import { type AllowancesInput, allowancesSchema, type Faces } from "./makingSchema.js";

/** The ring to make, so that coated and lapped it is the one that was ordered. */
export interface MetalToMake {
  /**
   * The ring that bends: as ordered where the coating counts as metal, else the metal under the coating. Its free line is the line to make.
   */
  readonly design: RingDesign;
  /** Metal on that design's faces as the ring comes off the machine, mm. */
  readonly added: AddedMetal;
  /** Radial thickness of the metal to make, mm. */
  readonly radialThickness: number;
  /** Axial height of it, mm. */
  readonly axialHeight: number;
  /** Across the gap at the middle of the free faces, mm. */
  readonly freeGap: number;
  /** As asked for: whether the coating bends as metal does, or adds no stiffness at all. */
  readonly coatingStiffness: "counted" | "neglected";
  /** The ring to tell the machine that bends or turns the shape, so that the design comes out of it: another one where there is a correction. */
  readonly told: RingDesign;
}

/** As of `designRing`, and what the machine is told besides. */
export interface MetalOptions extends DesignOptions {
  /** What the machine is told beside the drawing: `fromDrawing` of a correction. By share of the length under a coating. */
  correction?: CurvatureChange | undefined;
}

/** Under its name, so that refusals have the same path everywhere. */
const NAMED = () => v.strictObject({ allowances: allowancesSchema() });

const FACES = ["outer", "inner", "sides", "ends"] as const;
type Face = (typeof FACES)[number];

/**
 * Size of a part that gets coated and lapped, across one face: the finished one from the metal.
 *
 * @param metal size of the metal, mm
 * @param coating thickness put on, mm, from 0
 * @param lapping stock taken off afterwards, mm, from 0
 * @returns finished size, mm
 *
 * @example
 * finishedFrom(4.39, 0.02, 0.01); // 4.4, mm
 */
export const finishedFrom = (metal: number, coating: number, lapping: number) => metal + coating - lapping;
/**
 * The inverse of {@link finishedFrom}: the metal from the finished size.
 *
 * @param finished finished size, mm
 * @param coating thickness put on, mm, from 0
 * @param lapping stock taken off afterwards, mm, from 0
 * @returns size of the metal, mm
 *
 * @example
 * metalFrom(4.4, 0.02, 0.01); // 4.39, mm
 */
export const metalFrom = (finished: number, coating: number, lapping: number) => finished - coating + lapping;

/**
 * What to make so that the finished ring is the designed one: first the metal, then the coating is put on, then the faces are lapped.
 * Faces move square to themselves; the free line does not, since bare metal is taken off or put on without stress.
 *
 * Method: docs/theory/10-making.md.
 *
 * @param spec the finished ring
 * @param input coating put on and stock lapped off, per face; whether the coating's stiffness counts as the metal's or not at all
 * @param options as of `designRing`, and a correction
 * @throws SpecError when a value is out of range, a coating would be lapped through, or the metal left is no ring
 * @throws NotFound as `designRing`, and with a correction when no contact is found
 *
 * @example
 * metalToMake(spec, { coating: { outer: "20 um" } }).radialThickness; // 4.38, mm
 */
export function metalToMake(
  spec: RingSpecInput,
  input: AllowancesInput = {},
  { correction, ...options }: MetalOptions = {},
): MetalToMake {
  const ordered = readSpec(spec);
  const { coating, lapping, coatingStiffness } = parse(NAMED, { allowances: input }).allowances;
  for (const face of FACES) {
    if (coating[face] > 0 && lapping[face] >= coating[face]) {
      throw new SpecError(
        `allowances.lapping.${face}`,
        lapping[face],
        `must be less than the coating there, ${coating[face]} mm, or it would be lapped through`,
      );
    }
  }
  /** Coating left on the finished ring. */
  const left = (face: Face) => coating[face] - (coating[face] > 0 ? lapping[face] : 0);
  /** Metal to make less the ring that bends. */
  const counted = coatingStiffness === "counted";
  const addedTo = (face: Face) => metalFrom(counted ? 0 : left(face), coating[face], lapping[face]);
  const coat = { outer: left("outer"), inner: left("inner"), sides: left("sides"), ends: left("ends") };
  const radial = ordered.section.radialThickness - coat.outer - coat.inner;
  if (!counted && !(radial > 0 && ordered.section.axialHeight - 2 * coat.sides > 0)) {
    throw new SpecError("allowances.coating", coating, "must leave metal to make under it");
  }
  const design = counted ? designRing(spec, options) : bareRing(ordered, coat, options);
  const told = correction === undefined ? design : changedRing(design, correction);
  const { section, closedGap } = design.spec;
  const added = {
    outer: addedTo("outer"),
    inner: addedTo("inner"),
    sides: addedTo("sides"),
    ends: addedTo("ends"),
  };
  const radialThickness = section.radialThickness + added.outer + added.inner;
  const axialHeight = section.axialHeight + 2 * added.sides;
  if (!(radialThickness > 0 && axialHeight > 0)) {
    throw new SpecError("allowances.coating", coating, "must leave metal to make under it");
  }
  if (!(closedGap - 2 * added.ends >= 0)) {
    throw new SpecError(
      "allowances.lapping.ends",
      lapping.ends,
      `must be at most half the closed gap, ${closedGap / 2} mm, more than the coating there: the ends would meet before the ring is closed`,
    );
  }
  const { left: leftEnd, right: rightEnd } = design.ends;
  // The middle of the made faces lies outside that of the design's by half the difference of what stands on them.
  const outward = (added.outer - added.inner) / 2;
  const freeGap =
    design.free.gap -
    added.ends * (Math.cos(leftEnd.turn) + Math.cos(rightEnd.turn)) -
    outward * (Math.sin(leftEnd.turn) + Math.sin(rightEnd.turn));
  return {
    design,
    added,
    radialThickness,
    axialHeight,
    freeGap,
    coatingStiffness,
    told,
  };
}

/** The metal under the coating, as a ring of its own. */
function bareRing(ordered: RingSpec, coat: Faces, options: DesignOptions): RingDesign {
  const spec = bareSpec(ordered, coat);
  const { load } = ordered;
  let design = designRing(spec, options);
  if (!("freeGap" in load)) return design;
  // The gap is ordered at the middle of the finished faces; how far they lean follows from the ring.
  for (let round = 0; round < 3; round++) {
    const { left, right } = design.ends;
    const freeGap =
      load.freeGap +
      coat.ends * (Math.cos(left.turn) + Math.cos(right.turn)) +
      ((coat.outer - coat.inner) / 2) * (Math.sin(left.turn) + Math.sin(right.turn));
    design = designRing({ ...spec, load: { freeGap } }, options);
  }
  return design;
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
