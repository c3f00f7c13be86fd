import type { Profile } from "./profile.js";
import { type Edge, edgesOf, turnsOf } from "./profile.js";

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

const TWO_PANELS = GAUSS_10.flatMap(([node, weight]) =>
  [-0.5, 0.5].map((middle) => [middle + node / 2, weight / 2] as const),
);

/**
 * A section cut into fibres, for the forward computations: columns across the axis between its corners, each cut at Gauss points. It
 * shares nothing with the boundary integrals of the inverse.
 */
export function fibresOf(profile: Profile): Fibre[] {
  const edges = edgesOf(profile);
  const levels = [...new Set(edges.flatMap(levelsOf))].sort((one, other) => one - other);
  // With arcs a sine takes their vertical tangents out of the integrand.
  const arcs = edges.some(({ from }) => from.bulge);
  const nodes = arcs ? TWO_PANELS : GAUSS_10;
  const fibres: Fibre[] = [];
  for (let i = 1; i < levels.length; i++) {
    const [left, right] = [levels[i - 1], levels[i]];
    const half = (right - left) / 2;
    for (const [node, weight] of nodes) {
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

/** Places along the axis between which an edge is a function. */
function levelsOf(edge: Edge): number[] {
  const turns = turnsOf(edge, "x").slice(1, -1);
  return [edge.from.x, ...turns.map((share) => edge.at(share).x)];
}

/** Where an edge crosses a column. */
function crossingsOf(edge: Edge, at: number): number[] {
  const { from, to } = edge;
  if (!from.bulge) {
    if (from.x <= at === to.x <= at) return [];
    return [from.y + ((to.y - from.y) * (at - from.x)) / (to.x - from.x)];
  }
  const turns = turnsOf(edge, "x");
  const xAt = (share: number) => (share === 0 ? from.x : share === 1 ? to.x : edge.at(share).x);
  const found: number[] = [];
  for (let k = 1; k < turns.length; k++) {
    let [low, high] = [turns[k - 1], turns[k]];
    const first = xAt(low) <= at;
    if (first === xAt(high) <= at) continue;
    // Bisection: it cannot leave the arc, however flat that is.
    for (let turn = 0; turn < 60; turn++) {
      const middle = (low + high) / 2;
      if (xAt(middle) <= at === first) low = middle;
      else high = middle;
    }
    found.push(edge.at((low + high) / 2).y);
  }
  return found;
}
