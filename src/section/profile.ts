import type { ProfileFeatures } from "../spec/ringSpec.js";

/**
 * A corner of a section: x along the axis from the bottom side, y radially outward from the middle of the nominal thickness, mm. The edge to
 * the next corner is straight, or an arc with this bulge: the tangent of a quarter of its angle, positive counter-clockwise.
 */
export interface Corner {
  /** Along the axis from the bottom side, mm. */
  readonly x: number;
  /** Outward from the middle of the nominal thickness, mm. */
  readonly y: number;
  /** Of the edge that follows; straight without. */
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

/** Flatter arcs are straight lines, and would divide by nothing. */
const STRAIGHT = 1e-100;

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
    return corner(bottom + (x / h) * height, y, bulge ? (bulge * h) / height : 0);
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
  if (Math.abs(bulge) < STRAIGHT)
    return (share) => ({ x: from.x + share * cx, y: from.y + share * cy, dx: cx, dy: cy });
  const angle = 4 * Math.atan(bulge);
  // By the chord, which keeps its digits however far away the centre is.
  const whole = Math.sin(angle / 2);
  return (share) => {
    const ratio = Math.sin((share * angle) / 2) / whole;
    const turn = ((share - 1) * angle) / 2;
    const [c, s] = [ratio * Math.cos(turn), ratio * Math.sin(turn)];
    const along = (share - 0.5) * angle;
    const speed = angle / 2 / whole;
    const [dc, ds] = [speed * Math.cos(along), speed * Math.sin(along)];
    return {
      x: from.x + cx * c - cy * s,
      y: from.y + cx * s + cy * c,
      dx: cx * dc - cy * ds,
      dy: cx * ds + cy * dc,
    };
  };
}

/** Shares of an edge, ends included, between which a coordinate runs one way. */
export function turnsOf({ from, to }: Edge, axis: "x" | "y"): number[] {
  const { bulge = 0 } = from;
  if (Math.abs(bulge) < STRAIGHT) return [0, 1];
  const angle = 4 * Math.atan(bulge);
  const chord = Math.atan2(to.y - from.y, to.x - from.x) + (axis === "x" ? Math.PI / 2 : 0);
  const inside: number[] = [];
  for (let k = -3; k <= 3; k++) {
    const share = 0.5 + (k * Math.PI - chord) / angle;
    if (share > 0 && share < 1) inside.push(share);
  }
  return [0, ...inside.sort((one, other) => one - other), 1];
}
