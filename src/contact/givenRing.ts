import { shortening } from "../curvature/law.js";
import { barsAlong } from "../curvature/lawsAlong.js";
import { wallStations } from "../design/wallTable.js";
import { closedGeometry } from "../forces/geometry.js";
import { joined } from "../forces/mirror.js";
import { halfStations } from "../forces/stations.js";
import { type WallStations, wallAlong } from "../section/wall.js";
import { halfRingOf } from "../shape/halfRing.js";
import { freeGap } from "../shape/outline.js";
import { SpecError } from "../spec/error.js";
import { readBodySpec } from "../spec/readSpec.js";
import type { BodySpec } from "../spec/ringSpec.js";
import type { BodySpecInput } from "../spec/schema.js";

/** A ring whose free curvature is given, wherever it comes from. Every `RingDesign` is one. */
export interface GivenRing {
  /** What the body is: lengths in mm, moduli in MPa. */
  readonly spec: Pick<BodySpec, "bore" | "closedGap" | "section" | "material" | "theory">;
  /** Tables along the ring, from the left end over the back to the right end. */
  readonly free: {
    /** Angle of each station when closed, radians from the back, non-decreasing from −θC to θC. */
    readonly theta: number[];
    /** Free curvature of the ring's line there, 1/mm. */
    readonly curvature: number[];
  };
  /** Only where the wall varies or is slotted. */
  readonly wall?: WallStations;
}

/**
 * A ring from its body and its free curvature, to ask what pressure it makes.
 *
 * Method: docs/theory/08-contact.md.
 *
 * @param body the spec without load and pressure
 * @param curvature free curvature of the line at half the nominal wall, 1/mm: one value for a ring that is round when
 * free, or a function of the angle from the back that each place takes when closed, radians
 * @throws SpecError when a field is wrong or the curvature is not finite
 *
 * @example
 * // Turned round, 62 mm radius at mid wall: touches its bore all round only if its ends are held by couples.
 * const { load, ...body } = spec;
 * pressureOf(ringOfCurvature(body, 1 / 62)).ends.right.meets; // false
 */
export function ringOfCurvature(
  body: BodySpecInput,
  curvature: number | ((theta: number) => number),
): GivenRing {
  const spec = readBodySpec(body);
  const { wall, stations, bars } = closedBody(spec);
  const theta = joined({ left: stations.theta, right: stations.theta }, -1);
  const at = typeof curvature === "function" ? curvature : () => curvature;
  const values = theta.map((angle) => {
    const value = at(angle);
    if (typeof value === "number" && Number.isFinite(value)) return value;
    throw new SpecError(
      "curvature",
      value,
      `must be a finite number in 1/mm everywhere; this is the one at ${angle.toFixed(4)} rad from the back`,
    );
  });
  return {
    spec,
    free: { theta, curvature: values },
    ...(!wall.plain && { wall: wallStations(bars, spec.section.slots) }),
  };
}

/** Nominal wall, geometry, wall, stations and bars of a ring closed in its bore. */
export type ClosedBody = ReturnType<typeof closedBody>;

export function closedBody(spec: GivenRing["spec"] & { readonly stations: number }) {
  const { radialThickness, wall: shape, slots } = spec.section;
  const geometry = closedGeometry(spec.bore, radialThickness, spec.closedGap);
  const { centroidLimit, centroidRadius } = geometry;
  const wall = wallAlong(radialThickness, shape, slots, centroidLimit, centroidRadius);
  const stations = halfStations(centroidLimit, spec.stations, wall.breaks);
  return {
    nominal: radialThickness,
    geometry,
    wall,
    stations,
    bars: barsAlong(spec, centroidRadius, wall, stations),
  };
}

/**
 * Shape and gap of a free ring.
 *
 * @param curvature of its line at the stations, end to end, 1/mm
 * @param body of the ring
 * @returns halves from the back, wall at their ends, distance between the ends at mid wall; mm
 */
export function freeShape(curvature: readonly number[], { nominal, geometry, stations, bars }: ClosedBody) {
  const { centroidRadius: r, faceToNormal } = geometry;
  const last = stations.theta.length - 1;
  const half = (side: "left" | "right", values: number[]) =>
    halfRingOf(
      r,
      stations,
      values,
      values.map((kappa0, i) => shortening(bars[side].laws[i], kappa0, r)),
    );
  const halves = {
    left: half("left", curvature.slice(0, last + 1).reverse()),
    right: half("right", curvature.slice(last)),
  };
  const endWall = { left: bars.left.walls[last].thickness, right: bars.right.walls[last].thickness };
  const middles = { left: (nominal - endWall.left) / 2, right: (nominal - endWall.right) / 2 };
  return { halves, endWall, gap: freeGap(halves, middles, faceToNormal) };
}
