import * as v from "valibot";
import { gapWithMetal, turnsOf } from "../curves/gapWithMetal.js";
import type { AddedMetal } from "../curves/ringFaces.js";
import { type DesignOptions, designRing } from "../design/designRing.js";
import type { RingDesign } from "../design/ringDesign.js";
import { SpecError } from "../spec/error.js";
import { parse } from "../spec/issues.js";
import { readSpec } from "../spec/readSpec.js";
import type { RingSpec } from "../spec/ringSpec.js";
import type { RingSpecInput } from "../spec/schema.js";
import { bareRing, coatedSpec } from "./bareRing.js";
import { type CurvatureChange, changedRing } from "./changedRing.js";
import { type AllowancesInput, allowancesSchema } from "./makingSchema.js";

/** A ring coated and lapped. */
export interface FinishedRing {
  /** As ordered. */
  readonly spec: RingSpec;
  /** Across the free gap at the middle of its faces, mm. */
  readonly freeGap: number;
  /** p₀ on its face, MPa. */
  readonly contactPressure: number;
}

/** The ring to make, so that coated and lapped it is the one that was ordered. */
export interface MetalToMake {
  /**
   * The ring that bends: as ordered where the coating counts as metal, else the metal under the coating. Its free line is the line to make.
   */
  readonly design: RingDesign;
  /** The ring that comes out: what a gauge, and whoever ordered it, measure. It is `design` where the coating counts as metal. */
  readonly finished: FinishedRing;
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
  options: MetalOptions = {},
): MetalToMake {
  if (typeof options !== "object" || options === null) {
    throw new SpecError("options", options, "must be an object");
  }
  const { correction, ...designed } = options;
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
  const checkLeft = (thickness: number, height: number) => {
    if (thickness > 0 && height > 0) return;
    throw new SpecError("allowances.coating", coating, "must leave metal to make under it");
  };
  if (!counted) checkLeft(radial, ordered.section.axialHeight - 2 * coat.sides);
  const design = counted ? designRing(spec, designed) : bareRing(ordered, coat, designed);
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
  checkLeft(radialThickness, axialHeight);
  if (!(closedGap - 2 * added.ends >= 0)) {
    throw new SpecError(
      "allowances.lapping.ends",
      lapping.ends,
      `must be at most half the closed gap, ${closedGap / 2} mm, more than the coating there: the ends would meet before the ring is closed`,
    );
  }
  const { bore, section: whole } = ordered;
  const turns = turnsOf(design);
  return {
    design,
    finished: {
      spec: counted ? design.spec : coatedSpec(ordered, design),
      freeGap: counted ? design.free.gap : gapWithMetal(design.free.gap, turns, coat),
      // The tangential force is the metal's; the pressure acts on the coated face.
      contactPressure: counted
        ? design.load.contactPressure
        : (2 * design.load.tangentialForce) / (bore * whole.axialHeight),
    },
    added,
    radialThickness,
    axialHeight,
    freeGap: gapWithMetal(design.free.gap, turns, added),
    coatingStiffness,
    told,
  };
}
