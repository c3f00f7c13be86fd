import type { ProfileFeatures } from "../spec/ringSpec.js";

/**
 * A corner of a section: x along the axis from the bottom side, y radially outward from the middle of the nominal thickness, mm. The edge to
 * the next corner is straight, or an arc with this bulge: the tangent of a quarter of its angle, positive counter-clockwise.
 */
export interface Corner {
  readonly x: number;
  readonly y: number;
  readonly bulge?: number;
}

/** A closed section, counter-clockwise; the first corner is not repeated. */
export type Profile = readonly Corner[];

/**
 * The section of a ring by its features, on a rectangle a × h: face, undercut below it, bevel or step inside, inclined sides. The contact edge of the
 * face lies on the bore.
 *
 * @param a radial thickness, mm
 * @param h axial height at the outer face, mm
 */
export function profileOf(a: number, h: number, features: ProfileFeatures): Profile {
  const { outline } = features;
  // As given from the inner face; here from the middle.
  if (outline) return outline.map(({ x, y, bulge }) => corner(x, y - a / 2, bulge));
  return inclined([...innerEdge(a, h, features.inner), ...outerFace(a, h, features)], a, h, features.sides);
}

const corner = (x: number, y: number, bulge = 0): Corner => (bulge === 0 ? { x, y } : { x, y, bulge });

/** From the bottom side to the top side. */
function innerEdge(a: number, h: number, inner: ProfileFeatures["inner"]): Corner[] {
  const face = -a / 2;
  if (!inner) return [corner(0, face), corner(h, face)];
  const { shape, side, depth, height } = inner;
  // Written for the top side and, for the bottom one, seen in the mirror.
  const cut = [
    corner(h - height, face),
    ...(shape === "step" ? [corner(h - height, face + depth)] : []),
    corner(h, face + depth),
  ];
  if (side === "top") return [corner(0, face), ...cut];
  return [...cut.map(({ x, y }) => corner(h - x, y)).reverse(), corner(h, face)];
}

/** From the top side to the bottom side. */
function outerFace(a: number, h: number, { face, undercut }: ProfileFeatures): Corner[] {
  const outer = a / 2;
  const lower = undercut?.height ?? 0;
  const width = h - lower;
  const below = undercut ? [corner(lower, outer - undercut.depth), corner(0, outer - undercut.depth)] : [];
  if (!face) return [corner(h, outer), corner(lower, outer), ...below];
  if (face.shape === "taper")
    return [corner(h, outer - width * Math.tan(face.angle)), corner(lower, outer), ...below];
  // An arc as high as its drop over the width: its bulge is the rise over half the chord.
  const edge = outer - face.drop;
  return [corner(h, edge, (2 * face.drop) / width), corner(lower, edge), ...below];
}

/** Sides that come nearer to each other towards the inner face; at the outer face the height is the nominal one. */
function inclined(
  corners: readonly Corner[],
  a: number,
  h: number,
  sides: ProfileFeatures["sides"],
): Profile {
  if (!sides) return corners;
  const full = sides.shape === "keystone";
  const slope = {
    top: Math.tan(full ? sides.angle / 2 : sides.angle),
    bottom: full ? Math.tan(sides.angle / 2) : 0,
  };
  return corners.map(({ x, y, bulge }) => {
    const inward = a / 2 - y;
    const bottom = inward * slope.bottom;
    const height = h - bottom - inward * slope.top;
    return corner(bottom + (x / h) * height, y, bulge);
  });
}

/** A corner with the next one, and the arc between them. */
export interface Edge {
  readonly from: Corner;
  readonly to: Corner;
  /** Where the edge is at a share 0 … 1 of it, and the derivative with respect to that share. */
  at(share: number): { x: number; y: number; dx: number; dy: number };
}

export function edgesOf(profile: Profile): Edge[] {
  return profile.map((from, i) => {
    const to = profile[(i + 1) % profile.length];
    return { from, to, at: edge(from, to) };
  });
}

function edge(from: Corner, to: Corner): Edge["at"] {
  const [cx, cy] = [to.x - from.x, to.y - from.y];
  const { bulge = 0 } = from;
  if (bulge === 0) return (share) => ({ x: from.x + share * cx, y: from.y + share * cy, dx: cx, dy: cy });
  const angle = 4 * Math.atan(bulge);
  // Centre of the arc: from the middle of the chord, to its left for arcs that bend to the left.
  const towards = (1 - bulge * bulge) / (4 * bulge);
  const [mx, my] = [(from.x + to.x) / 2 - towards * cy, (from.y + to.y) / 2 + towards * cx];
  const [rx, ry] = [from.x - mx, from.y - my];
  return (share) => {
    const [c, s] = [Math.cos(share * angle), Math.sin(share * angle)];
    const [x, y] = [rx * c - ry * s, rx * s + ry * c];
    return { x: mx + x, y: my + y, dx: -y * angle, dy: x * angle };
  };
}
