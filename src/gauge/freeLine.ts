import { checkTables } from "../contact/checkTables.js";
import type { GivenRing } from "../contact/givenRing.js";
import { shortening } from "../curvature/law.js";
import { stationLaws } from "../curvature/lawsAlong.js";
import type { BandedRing } from "../ends/band.js";
import { bandMarch } from "../ends/band.js";
import { closedGeometry } from "../forces/geometry.js";
import { secondMoment } from "../section/rectangle.js";

/** A ring ready for the gauges, whatever it comes from. */
export interface GaugedRing {
  readonly ring: BandedRing & { readonly spec: GivenRing["spec"] };
  /** θC, radians. */
  readonly centroidLimit: number;
  /** Free gap at mid wall, mm. */
  readonly freeGap: number;
  /** Tangent of the right end when free, against the line between the ends, radians. */
  readonly freeTangent: number;
  /** Pull that would close it by the theory of small openings, E·I·(m − s)/(3π·r³), N. */
  readonly forceScale: number;
}

/** Completes a ring given by its free curvature: arc length, cut of the ends, free gap. */
export function gaugedRing(given: GivenRing & { free: { arcLength?: number[] } }): GaugedRing {
  const { spec, free, wall } = given;
  const { radialThickness: a, axialHeight: h } = spec.section;
  const geometry = closedGeometry(spec.bore, a, spec.closedGap);
  checkTables(given, geometry);
  const { centroidLimit, centroidRadius: r, outerRadius, faceToNormal } = geometry;
  const ring = {
    spec,
    ...(wall && { wall }),
    free: {
      curvature: free.curvature,
      arcLength: free.arcLength ?? freeLengths(given, centroidLimit, r),
    },
    installed: { centroidRadius: r, outerRadius },
    ends: { faceToNormal },
  };
  const march = bandMarch(ring);
  // Unloaded, from any tangent: a rigid turn then brings both outer corners level.
  const { outer } = march([0, centroidLimit]);
  const [right, left] = [outer[0].point, outer[outer.length - 1].point];
  // Where the free ends overlap, the right one lies to the left.
  const way = right[0] >= left[0] ? 1 : -1;
  const tilt = Math.atan2(way * (right[1] - left[1]), way * (right[0] - left[0]));
  const freeTangent = centroidLimit - tilt;
  const freeGap = march([0, freeTangent]).opening;
  const stiffness = spec.material.youngsModulus * secondMoment(a, h);
  const forceScale = (stiffness * Math.abs(freeGap - spec.closedGap)) / (3 * Math.PI * r ** 3);
  return { ring, centroidLimit, freeGap, freeTangent, forceScale };
}

/** Free arc length at the stations, from the left end. */
function freeLengths({ spec, free, wall }: GivenRing, centroidLimit: number, r: number): number[] {
  const { theta, curvature } = free;
  const short = stationLaws(spec, r, wall, theta.length).map((law, i) => shortening(law, curvature[i], r));
  let sum = 0;
  return theta.map((angle, i) => {
    if (i > 0) sum += ((short[i] + short[i - 1]) / 2) * (angle - theta[i - 1]);
    return (angle + centroidLimit) * r + sum;
  });
}
