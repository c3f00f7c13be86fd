import type { HalfRing } from "./halfRing.js";

/**
 * The free centroid line, end to end: counter-clockwise from the left end (−θC) over the back to the right end
 * (+θC), 2·stations + 1 points; the first point is not repeated. mm, radians, 1/mm.
 */
export interface FreeRing {
  /** Distance between the ends at mid wall, mm. */
  readonly gap: number;
  /** Installed angle of each station, from the back. */
  readonly theta: number[];
  readonly x: number[];
  readonly y: number[];
  /** Angle of the tangent to +x; 0 at the back. */
  readonly tangent: number[];
  readonly curvature: number[];
  /** From the left end. */
  readonly arcLength: number[];
}

/** Which sign a quantity takes on the left half, seen in the mirror. */
type Parity = 1 | -1;

/** Joins half arrays that start at the back into one array from end to end, times `scale`. */
export function mirrored(half: readonly number[], parity: Parity, scale = 1): number[] {
  const last = half.length - 1;
  const whole = new Array<number>(2 * last + 1);
  for (let i = 0; i <= last; i++) {
    const value = scale * half[i];
    whole[last - i] = parity * value;
    whole[last + i] = value;
  }
  return whole;
}

/** Station angles −θC … θC. */
export function stationAngles(stations: number, stationStep: number): number[] {
  const theta = new Array<number>(2 * stations + 1);
  for (let i = -stations; i <= stations; i++) theta[i + stations] = i * stationStep;
  return theta;
}

/** The whole free ring from its right half. */
export function joinHalves(half: HalfRing, theta: number[]): FreeRing {
  const last = half.x.length - 1;
  const halfLength = half.arcLength[last];
  const arcLength = mirrored(half.arcLength, -1);
  for (let i = 0; i < arcLength.length; i++) arcLength[i] += halfLength;
  return {
    gap: 2 * half.x[last],
    theta,
    x: mirrored(half.x, -1),
    y: mirrored(half.y, 1),
    tangent: mirrored(half.tangent, -1),
    curvature: mirrored(half.curvature, 1),
    arcLength,
  };
}
