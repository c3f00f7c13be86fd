import { type AngleTable, isHalfTable, tableCurve } from "../numeric/angleTable.js";
import { slotShare } from "./slots.js";

/**
 * The wall at one station. Its outer face lies on the bore; so a wall that is thinner than nominal has its own mid
 * wall outside the ring's line, which runs at half the nominal thickness all round.
 */
export interface Wall {
  /** Radial thickness, mm. */
  readonly thickness: number;
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
  /** Share of the net section in the flexibility; 0 where there are no slots. */
  readonly netShare: number[];
  /** mm; 0 without slots. */
  readonly slotDepth: number;
}

/** The wall at station i of a whole ring; nominal all along where no stations are given. */
export function wallAt(nominal: number, along: WallStations | undefined, i: number): Wall {
  if (!along) return { thickness: nominal };
  const [thickness, share] = [along.thickness[i], along.netShare[i]];
  return share === 0 ? { thickness } : { thickness, slotted: { net: thickness - along.slotDepth, share } };
}

/** Inner slots, evenly spaced in their zone. Lengths in mm, angles in radians from the back. */
export interface Slots {
  readonly count: number;
  readonly depth: number;
  readonly width: number;
  /** Ends of the slotted zone, half a pitch beyond the outermost slots. */
  readonly from: number;
  readonly to: number;
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
  slots: Slots | undefined,
  limit: number,
  r: number,
): WallAlong {
  const thicknessAt = relativeThickness(nominal, shape);
  const pitch = slots ? ((slots.to - slots.from) * r) / slots.count : 0;
  const zoneEnds = slots ? [slots.from, slots.to] : [];
  const breaks = [...new Set(zoneEnds.map(Math.abs))].filter((at) => at > 0 && at < limit);
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
      (!slots || slots.from === -slots.to),
    plain: shape === undefined && !slots,
    breaks: breaks.sort((one, other) => one - other),
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
