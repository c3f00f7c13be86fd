import type { Profile } from "./profile.js";
import { type Edge, edgesOf } from "./profile.js";

/** A fibre of a section: its distance outward of the ring's line and its area. mm, mm². */
export interface Fibre {
  readonly y: number;
  readonly area: number;
}

/** Gauss–Legendre nodes and weights on −1 … 1, ten points (NIST DLMF, table 3.5.2). */
const HALF: readonly (readonly [number, number])[] = [
  [0.14887433898163122, 0.2955242247147529],
  [0.4333953941292472, 0.2692667193099964],
  [0.6794095682990244, 0.219086362515982],
  [0.8650633666889845, 0.1494513491505806],
  [0.9739065285171717, 0.0666713443086881],
];
export const GAUSS_10 = HALF.flatMap(([node, weight]) => [[-node, weight] as const, [node, weight] as const]);

/**
 * A section cut into fibres, for the forward computations: columns across the axis between its corners, each cut at Gauss points. It
 * shares nothing with the boundary integrals of the inverse.
 */
export function fibresOf(profile: Profile): Fibre[] {
  const edges = edgesOf(profile);
  const levels = [...new Set(edges.flatMap(levelsOf))].sort((one, other) => one - other);
  // With arcs a sine takes their vertical tangents out of the integrand.
  const arcs = edges.some(({ from }) => from.bulge);
  const fibres: Fibre[] = [];
  for (let i = 1; i < levels.length; i++) {
    const [left, right] = [levels[i - 1], levels[i]];
    const half = (right - left) / 2;
    for (const [node, weight] of GAUSS_10) {
      const turn = (Math.PI / 2) * node;
      const x = (left + right) / 2 + half * (arcs ? Math.sin(turn) : node);
      const width = weight * half * (arcs ? (Math.PI / 2) * Math.cos(turn) : 1);
      for (const [low, high] of intervalsAt(edges, x)) {
        for (const [step, share] of GAUSS_10) {
          fibres.push({
            y: (low + high) / 2 + ((high - low) / 2) * step,
            area: width * share * ((high - low) / 2),
          });
        }
      }
    }
  }
  return fibres;
}

/** Parts of a section along a column: from y to y. */
function intervalsAt(edges: readonly Edge[], x: number): [low: number, high: number][] {
  const crossings = edges.flatMap((edge) => crossingsOf(edge, x)).sort((one, other) => one - other);
  return Array.from({ length: crossings.length >> 1 }, (_, k) => [crossings[2 * k], crossings[2 * k + 1]]);
}

/** Height along the axis that a section has at a distance outward of the ring's line, mm. */
export function heightAt(profile: Profile, y: number): number {
  // The section in the mirror of the diagonal: what runs along the axis becomes a column.
  const mirrored = edgesOf(
    profile.map((corner) => ({ x: corner.y, y: corner.x, bulge: -(corner.bulge ?? 0) })),
  );
  return intervalsAt(mirrored, y).reduce((sum, [low, high]) => sum + high - low, 0);
}

interface Circle {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

/** The circle of an arc, from three of its points. */
function circleOf({ from, to, at }: Edge): Circle {
  const { x: mx, y: my } = at(0.5);
  const [bx, by] = [mx - from.x, my - from.y];
  const [cx, cy] = [to.x - from.x, to.y - from.y];
  const d = 2 * (bx * cy - by * cx);
  const [b2, c2] = [bx * bx + by * by, cx * cx + cy * cy];
  const [ux, uy] = [(cy * b2 - by * c2) / d, (bx * c2 - cx * b2) / d];
  return { x: from.x + ux, y: from.y + uy, radius: Math.hypot(ux, uy) };
}

/** Whether a point of an arc's circle lies on the arc: on the same side of the chord as its middle. */
function isOnArc({ from, to, at }: Edge, x: number, y: number): boolean {
  const side = (px: number, py: number) => (to.x - from.x) * (py - from.y) - (to.y - from.y) * (px - from.x);
  const middle = at(0.5);
  return side(x, y) * side(middle.x, middle.y) > 0;
}

/** Places along the axis between which an edge is a function. */
function levelsOf(edge: Edge): number[] {
  if (!edge.from.bulge) return [edge.from.x];
  const { x, y, radius } = circleOf(edge);
  return [edge.from.x, ...[x - radius, x + radius].filter((level) => isOnArc(edge, level, y))];
}

/** Where an edge crosses a column. */
function crossingsOf(edge: Edge, at: number): number[] {
  const { from, to } = edge;
  if (!from.bulge) {
    if (from.x <= at === to.x <= at) return [];
    return [from.y + ((to.y - from.y) * (at - from.x)) / (to.x - from.x)];
  }
  const { x, y, radius } = circleOf(edge);
  const reach = Math.sqrt(Math.max(0, radius * radius - (at - x) ** 2));
  return [y - reach, y + reach].filter((height) => isOnArc(edge, at, height));
}
