import { type AngleTable, isHalfTable, tableCurve } from "../numeric/angleTable.js";
import type { SlotsSpec } from "../spec/ringSpec.js";
import { slotShare } from "./slots.js";

/**
 * The wall at one station. Its outer face lies on the bore; so a wall that is thinner than nominal has its own mid
 * wall outside the ring's line, which runs at half the nominal thickness all round.
 */
export interface Wall {
  /** Radial thickness, mm. */
  readonly thickness: number;
  /** What its slope along the ring adds to its bending, as a share; none where it does not vary. See `taperShare`. */
  readonly taper?: number;
  /** Where inner slots weaken it. */
  readonly slotted?: {
    /** Thickness left over the slots, mm. */
    readonly net: number;
    /** Share of the net section in the wall's flexibility, 0 … 1: what of a pitch bends as if the slots went through. */
    readonly share: number;
  };
}

/** The wall at the stations of a whole ring, end to end, where it is not the same all along. */
export interface WallStations {
  /** Radial thickness, mm. */
  readonly thickness: number[];
  /** Share by which the thickness's slope adds to the bending. */
  readonly taper: number[];
  /** Share of the net section in the flexibility; 0 where there are no slots. */
  readonly netShare: number[];
  /** mm; 0 without slots. */
  readonly slotDepth: number;
}

/** The wall at station i of a whole ring; nominal all along where no stations are given. */
export function wallAt(nominal: number, along: WallStations | undefined, i: number): Wall {
  if (!along) return { thickness: nominal };
  return wallOf(along.thickness[i], along.taper[i], along.netShare[i], along.slotDepth);
}

/** The wall of the values at one place of {@link WallStations}. */
export function wallOf(thickness: number, taper: number, share: number, slotDepth: number): Wall {
  return share === 0
    ? { thickness, taper }
    : { thickness, taper, slotted: { net: thickness - slotDepth, share } };
}

/**
 * What a sloping wall adds to the bending of a bar of its local section, as a share: a·a″/10 + 3·a′²/5, a′ and a″ along
 * the ring. The section's stresses follow its inner face, so that they are no longer those of a straight bar.
 *
 * Source: worked, from the plane-stress solution of a wall with one straight and one gently sloping face under M and V;
 * compared with finite elements.
 *
 * @param thickness a, mm
 * @param slope a′, mm per mm
 * @param bend a″, 1/mm
 */
export function taperShare(thickness: number, slope: number, bend: number): number {
  return (thickness * bend) / 10 + 0.6 * slope * slope;
}

/** The wall along the ring. */
export interface WallAlong {
  /** The wall at an angle; `inside` is an angle on the same side of any jump. */
  at(theta: number, inside: number): Wall;
  /** Whether the halves are alike. */
  readonly symmetric: boolean;
  /** Whether every station has the same wall. */
  readonly plain: boolean;
  /** Angles from the back, on either half, at which the wall jumps; increasing. */
  readonly breaks: number[];
}

/** Angles nearer than this are the same, but for rounding, radians. */
const SAME_ANGLE = 1e-9;

/**
 * @param nominal radial thickness that `shape` multiplies, mm
 * @param shape relative thickness over the angle from the back, if it varies
 * @param slots inner slots, if there are any
 * @param limit θC; beyond it there is no ring
 * @param r radius of the ring's line, along which the pitch is taken, mm
 */
export function wallAlong(
  nominal: number,
  shape: AngleTable | ((theta: number) => number) | undefined,
  slots: SlotsSpec | undefined,
  limit: number,
  r: number,
): WallAlong {
  const thicknessAt = relativeThickness(nominal, shape);
  const pitch = slots ? ((slots.to - slots.from) * r) / slots.count : 0;
  const breaks: number[] = [];
  for (const at of slots
    ? [Math.abs(slots.from), Math.abs(slots.to)].sort((one, other) => one - other)
    : []) {
    const before = breaks.length > 0 ? breaks[breaks.length - 1] : 0;
    if (at > before + SAME_ANGLE && at < limit - SAME_ANGLE) breaks.push(at);
  }
  let last: Wall = { thickness: Number.NaN };
  return {
    at(theta, inside) {
      const thickness = thicknessAt(theta);
      if (!slots || inside < slots.from || inside > slots.to) return { thickness };
      // Where the thickness does not vary, neither does what the slots make of it.
      if (last.thickness !== thickness) {
        const share = slotShare(thickness, slots.depth, slots.width, pitch);
        last = { thickness, slotted: { net: thickness - slots.depth, share } };
      }
      return last;
    },
    symmetric:
      (shape === undefined || (typeof shape === "object" && isHalfTable(shape))) &&
      (!slots || Math.abs(slots.from + slots.to) < SAME_ANGLE),
    plain: shape === undefined && !slots,
    breaks,
  };
}

function relativeThickness(
  nominal: number,
  shape: AngleTable | ((theta: number) => number) | undefined,
): (theta: number) => number {
  if (shape === undefined) return () => nominal;
  if (typeof shape === "function") return (theta) => nominal * shape(theta);
  const curve = tableCurve(shape);
  return (theta) => nominal * curve.at(theta);
}
