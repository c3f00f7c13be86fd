import { gaussIntegral } from "../numeric/gauss.js";
import { type Edge, edgesOf, type Profile } from "./profile.js";

/** Pieces of an edge for the quadrature: straight edges are exact with one, arcs to rounding with these. */
const ARC_PANELS = 12;

/** ∮ f along the boundary, f given with the edge's point and derivative. */
function boundaryIntegral(edges: readonly Edge[], f: (point: ReturnType<Edge["at"]>) => number): number {
  let sum = 0;
  for (const { from, at } of edges) {
    const panels = from.bulge ? ARC_PANELS : 1;
    for (let k = 0; k < panels; k++)
      sum += gaussIntegral(k / panels, (k + 1) / panels, (share) => f(at(share)));
  }
  return sum;
}

/** Properties of a section. mm, mm², mm⁴; x along the axis from the bottom side, y outward from the middle of the nominal thickness. */
export interface SectionProperties {
  /** mm². */
  readonly area: number;
  /** mm. */
  readonly centroid: {
    /** x̄, from the bottom side. */
    readonly x: number;
    /** ȳ, from the middle of the nominal thickness. */
    readonly y: number;
  };
  /** ∫(y − ȳ)² dA, mm⁴: against bending in the ring's plane. */
  readonly inPlane: number;
  /** ∫(x − x̄)² dA, mm⁴: against bending out of it. */
  readonly lateral: number;
  /** ∫(x − x̄)(y − ȳ) dA, mm⁴: nil for a section with an axis of symmetry along either direction. */
  readonly product: number;
  /** About the principal axes through the centroid. */
  readonly principal: {
    /** Second moments, mm⁴, the larger first. */
    readonly moments: readonly [number, number];
    /** Of the axis of the larger to the ring's axis, radians. */
    readonly angle: number;
  };
}

/** Principal moments that differ by less than this share of themselves are the same. */
const ROUNDING = 1e-12;

/**
 * Area, centroid and second moments by Green's theorem along the boundary: exact for straight edges, to rounding for arcs.
 *
 * @param profile closed section, counter-clockwise
 */
export function sectionProperties(profile: Profile): SectionProperties {
  const edges = edgesOf(profile);
  const area = boundaryIntegral(edges, ({ x, dy }) => x * dy);
  const cx = boundaryIntegral(edges, ({ x, dy }) => (x * x * dy) / 2) / area;
  const cy = -boundaryIntegral(edges, ({ y, dx }) => (y * y * dx) / 2) / area;
  const inPlane = -boundaryIntegral(edges, ({ y, dx }) => ((y - cy) ** 3 * dx) / 3);
  const lateral = boundaryIntegral(edges, ({ x, dy }) => ((x - cx) ** 3 * dy) / 3);
  const product = boundaryIntegral(edges, ({ x, y, dy }) => ((x - cx) ** 2 * (y - cy) * dy) / 2);
  const [mean, half] = [(inPlane + lateral) / 2, (inPlane - lateral) / 2];
  const radius = Math.hypot(half, product);
  return {
    area,
    centroid: { x: cx, y: cy },
    inPlane,
    lateral,
    product,
    principal: {
      moments: [mean + radius, mean - radius],
      // Of the axis about which the section is stiffest; 0 where that is the ring's own axis.
      angle: radius <= ROUNDING * mean ? 0 : Math.atan2(-product, half) / 2,
    },
  };
}

/** ∫yⁿ dA for n = 0 … count − 1, y outward from the middle of the nominal thickness: moments for the curved bar's series. mmⁿ⁺². */
export function radialMoments(profile: Profile, count: number): number[] {
  // By Green, ∫yⁿ dA = −∮yⁿ⁺¹/(n + 1) dx; straight edges in closed form, so that high powers stay exact.
  const edges = edgesOf(profile);
  return Array.from({ length: count }, (_, n) => {
    let sum = 0;
    for (const { from, to, at } of edges) {
      if (from.bulge) {
        for (let k = 0; k < ARC_PANELS; k++) {
          sum += gaussIntegral(k / ARC_PANELS, (k + 1) / ARC_PANELS, (share) => {
            const { y, dx } = at(share);
            return -(y ** (n + 1) * dx) / (n + 1);
          });
        }
      } else sum -= ((to.x - from.x) * meanPower(from.y, to.y, n + 1)) / (n + 1);
    }
    return sum;
  });
}

/** Mean of yⁿ between two values: Σ y₀ᵏ·y₁ⁿ⁻ᵏ/(n + 1), without the cancellation of a difference of powers. */
function meanPower(y0: number, y1: number, n: number): number {
  let sum = 0;
  for (let k = 0; k <= n; k++) sum += y0 ** k * y1 ** (n - k);
  return sum / (n + 1);
}
