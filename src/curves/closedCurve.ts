import type { Derivatives } from "../numeric/localPolynomial.js";
import type { Point } from "../numeric/point.js";
import { type Curve, type CurvePoint, pointOf } from "./curve.js";

/** A point of a curve in polar coordinates about a centre: angle from the back, radius (mm) and its derivatives, mm per radian. */
export interface PolarPoint {
  readonly angle: number;
  readonly radius: number;
  readonly slope: number;
  readonly second: number;
}

/** Polar coordinates, from −π to π, of a point of a curve that goes round the centre. */
export function polarOf({ x, y, cos, sin, curvature }: CurvePoint, [cx, cy]: Point): PolarPoint {
  const [dx, dy] = [x - cx, y - cy];
  const radius = Math.hypot(dx, dy);
  const outward = (cos * dx + sin * dy) / radius;
  const around = (sin * dx - cos * dy) / radius;
  const slope = (radius * outward) / around;
  // κ = (ρ² + 2ρ′² − ρρ″)/(ρ² + ρ′²)^(3/2)
  const square = radius * radius + slope * slope;
  const second = (square + slope * slope - curvature * square * Math.sqrt(square)) / radius;
  return { angle: Math.atan2(dx, -dy), radius, slope, second };
}

/** The same point again, about the origin. */
function fromPolar(angle: number, [radius, slope, second]: Derivatives): CurvePoint {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return pointOf(
    [radius * s, slope * s + radius * c, second * s + 2 * slope * c - radius * s],
    [-radius * c, radius * s - slope * c, 2 * slope * s - second * c + radius * c],
  );
}

/**
 * Closes a ring's face over its gap: by the radius about the origin as the polynomial of degree five in the angle that continues radius, slope
 * and second derivative at both ends, so that tangent and curvature do not jump.
 *
 * @param face from the left end to the right end
 * @returns a curve with the face's own parameter and, beyond `face.to`, the bridge over its angle; it goes on periodically
 */
export function closedCurve(face: Curve): Curve {
  const [start, end] = [face.from, face.to].map((t) => polarOf(face.at(t), [0, 0]));
  const angles = start.angle + 2 * Math.PI - end.angle;
  const radius = quintic(end, start, angles);
  const period = face.to - face.from + angles;
  const at = (t: number): CurvePoint => {
    const u = t - period * Math.floor((t - face.from) / period);
    return u <= face.to ? face.at(u) : fromPolar(end.angle + u - face.to, radius(u - face.to));
  };
  return { from: face.from, to: face.from + period, breaks: [...face.breaks, face.to], at };
}

/** Parameters round a closed curve at equal steps. */
export function aroundCurve({ from, to }: Curve, count = 1440): number[] {
  return Array.from({ length: count }, (_, k) => from + ((to - from) * k) / count);
}

/** Radius with its derivatives over the angle from the first point, by the polynomial that has both points' own. */
function quintic(first: PolarPoint, last: PolarPoint, angle: number): (at: number) => Derivatives {
  const [v0, a0] = [first.slope * angle, first.second * angle ** 2];
  const [v1, a1] = [last.slope * angle, last.second * angle ** 2];
  const rise = last.radius - first.radius - v0 - a0 / 2;
  const [slope, bend] = [v1 - v0 - a0, a1 - a0];
  const cubic = 10 * rise - 4 * slope + bend / 2;
  const quartic = -15 * rise + 7 * slope - bend;
  const fifth = 6 * rise - 3 * slope + bend / 2;
  return (at) => {
    const t = at / angle;
    return [
      first.radius + t * (v0 + t * (a0 / 2 + t * (cubic + t * (quartic + t * fifth)))),
      (v0 + t * (a0 + t * (3 * cubic + t * (4 * quartic + t * 5 * fifth)))) / angle,
      (a0 + t * (6 * cubic + t * (12 * quartic + t * 20 * fifth))) / angle ** 2,
    ];
  };
}
