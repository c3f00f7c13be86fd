import type { GivenRing } from "../contact/givenRing.js";
import { holdInBand } from "../ends/band.js";
import type { Point } from "../numeric/point.js";
import { SpecError } from "../spec/error.js";
import { gaugedRing } from "./freeLine.js";

/** How far the tape closes the ring. */
export interface TapeOptions {
  /** Gap to which the tape closes the ring, mm at mid wall, 0 to the free gap; by default the closed gap. */
  gap?: number;
}

/** What a tape gauge reads. mm, N. */
export interface TapeReading {
  /** Gap at mid wall to which it is closed. */
  readonly gap: number;
  /** Free gap, at which the pull is nil. */
  readonly freeGap: number;
  /** Pull on the tape, Ft at the closed gap. */
  readonly force: number;
  /** Diameter through the gap minus the diameter at 90° to it. */
  readonly ovality: number;
  /** Outer diameter through the middle of the gap: of the circle through both outer corners that touches the face opposite. */
  readonly diameterThroughGap: number;
  /** Outer diameter at 90° to that. */
  readonly diameterAcross: number;
}

/**
 * Closes a free ring with a thin, frictionless, inextensible tape round its outer face: tangential force and ovality.
 *
 * Exact for any opening within the bar theory: a cut through ring and tape gives the moment at a section as the pull times the
 * distance from the line of the pull, less half the wall.
 *
 * Method: docs/theory/08-contact.md.
 *
 * @param ring a design, or `ringOfCurvature(…)`
 * @param options gap to which it is closed, mm
 * @throws SpecError when the gap is not between nil and the free gap; NotFound when no equilibrium is found
 *
 * @example
 * tapeTest(design).force; // 17.69, N
 */
export function tapeTest(
  ring: GivenRing & {
    /** Its tables, besides. */
    free: {
      /** Along the unloaded line from the left end, mm; computed where it is not given. */
      arcLength?: number[];
    };
  },
  options: TapeOptions = {},
): TapeReading {
  const gauged = gaugedRing(ring);
  const { spec } = ring;
  const gap = options.gap ?? spec.closedGap;
  if (!(typeof gap === "number" && gap >= 0 && gap <= gauged.freeGap + 1e-9 * spec.bore)) {
    throw new SpecError(
      "gap",
      gap,
      `must be a number from 0 to the free gap, ${gauged.freeGap.toFixed(4)} mm`,
    );
  }
  const share = (gauged.freeGap - gap) / (gauged.freeGap - spec.closedGap);
  const tangent = gauged.centroidLimit + (1 - share) * (gauged.freeTangent - gauged.centroidLimit);
  const { pull, march } = holdInBand(
    gauged.ring,
    gap,
    [share * gauged.forceScale, tangent],
    gauged.forceScale,
  );
  const { diameterThroughGap, diameterAcross } = diameters(march.outer);
  return {
    gap,
    freeGap: gauged.freeGap,
    force: pull,
    ovality: diameterThroughGap - diameterAcross,
    diameterThroughGap,
    diameterAcross,
  };
}

type OuterFace = readonly { readonly point: Point; readonly tangent: number }[];

/** Outer diameters through the gap and at 90° to it. */
function diameters(outer: OuterFace): { diameterThroughGap: number; diameterAcross: number } {
  const [[rightX, rightY], [leftX, leftY]] = [outer[0].point, outer[outer.length - 1].point];
  const gap: Point = [(rightX + leftX) / 2, (rightY + leftY) / 2];
  const halfChord = Math.hypot(rightX - leftX, rightY - leftY) / 2;
  // From the middle of the ring to that of the gap; upright but for a ring with unlike halves.
  const width = reach(outer, Math.PI / 2) + reach(outer, -Math.PI / 2);
  const middle: Point = [
    (reach(outer, Math.PI / 2) - reach(outer, -Math.PI / 2)) / 2,
    width / 2 - reach(outer, 0),
  ];
  const tilt = Math.atan2(middle[0] - gap[0], gap[1] - middle[1]);
  // Of the circle through both outer corners that touches the face opposite.
  const height = gap[1] * Math.cos(tilt) - gap[0] * Math.sin(tilt) + reach(outer, tilt);
  return {
    diameterThroughGap: height + halfChord ** 2 / height,
    diameterAcross: reach(outer, tilt + Math.PI / 2) + reach(outer, tilt - Math.PI / 2),
  };
}

/**
 * How far the outer face reaches outward where its tangent has a given angle: down at 0, right at π/2, left at −π/2. From the
 * nearest station on, the face is taken as an arc.
 */
export function reach(outer: OuterFace, tangent: number): number {
  const off = (k: number) => Math.abs(outer[k].tangent - tangent);
  let at = 1;
  for (let k = 1; k < outer.length - 1; k++) if (off(k) < off(at)) at = k;
  const [here, next] = [outer[at], outer[at > 1 ? at - 1 : at + 1]];
  const chord = Math.hypot(here.point[0] - next.point[0], here.point[1] - next.point[1]);
  const radius = chord / (2 * Math.sin(Math.abs(here.tangent - next.tangent) / 2));
  const rest = radius * (1 - Math.cos(here.tangent - tangent));
  return here.point[0] * Math.sin(tangent) - here.point[1] * Math.cos(tangent) + rest;
}
