import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inscribedCircle } from "../src/fit/inscribedCircle.js";
import type { Point } from "../src/index.js";
import { runs } from "./rings.js";

/** The largest circle inside a ring's inner face, against closed forms and against trying every circle through three points. */

/** Points at equal steps of the angle from −span/2 to span/2, the gap above. */
function face(radius: (angle: number) => Point, span: number, count = 97): Point[] {
  return Array.from({ length: count }, (_, i) => radius((i / (count - 1) - 0.5) * span));
}

const polar =
  (length: (angle: number) => number) =>
  (angle: number): Point => [length(angle) * Math.sin(angle), -length(angle) * Math.cos(angle)];

const room = (points: readonly Point[], [x, y]: Point) =>
  Math.min(...points.map(([px, py]) => Math.hypot(px - x, py - y)));

/** Of all circles through three points, with the centre between the three, the largest that holds none of the others. */
function byTrial(points: readonly Point[]): number {
  let best = 0;
  const side = (one: Point, other: Point, [x, y]: Point) =>
    (other[0] - one[0]) * (y - one[1]) - (other[1] - one[1]) * (x - one[0]);
  for (const [i, p] of points.entries()) {
    for (const [j, q] of points.slice(0, i).entries()) {
      for (const o of points.slice(0, j)) {
        const [bx, by, cx, cy] = [q[0] - p[0], q[1] - p[1], o[0] - p[0], o[1] - p[1]];
        const area = 2 * (bx * cy - by * cx);
        const [bb, cc] = [bx * bx + by * by, cx * cx + cy * cy];
        const centre: Point = [p[0] + (cy * bb - by * cc) / area, p[1] + (bx * cc - cx * bb) / area];
        const radius = Math.hypot(centre[0] - p[0], centre[1] - p[1]);
        if (!(radius > best)) continue;
        const sides = [side(p, q, centre), side(q, o, centre), side(o, p, centre)];
        if (!(sides.every((one) => one >= 0) || sides.every((one) => one <= 0))) continue;
        if (room(points, centre) > radius - 1e-10) best = radius;
      }
    }
  }
  return best;
}

// Rounds double the digits until the shift is 1e-13 of the radius; what is left is rounding of coordinates near 50 mm.
const WITHIN = 1e-11;

describe("inscribedCircle", () => {
  test("finds the circle of which the points are an arc, however much of it is missing", () => {
    for (const degrees of [355, 300, 240, 200, 185]) {
      const arc = face(
        polar(() => 50),
        (degrees * Math.PI) / 180,
      ).map(([x, y]): Point => [x + 3, y - 7]);
      const { x, y, radius } = inscribedCircle(arc);
      expect(Math.abs(x - 3)).toBeLessThan(WITHIN);
      expect(Math.abs(y + 7)).toBeLessThan(WITHIN);
      expect(Math.abs(radius - 50)).toBeLessThan(WITHIN);
    }
  });

  test("touches a flat face at the back and both ends", () => {
    // x = 55·sin t, y = −50·cos t up to t = τ: the centre (0, c) is as far from (0, −50) as from (55·sin τ, −50·cos τ), so
    // c = [55²·sin²τ − 50²·(1 − cos²τ)]/[2·50·(1 − cos τ)] = 5.25·(1 + cos τ) (worked).
    for (const degrees of [340, 300, 240, 200]) {
      const span = (degrees * Math.PI) / 180;
      const ellipse = face((t): Point => [55 * Math.sin(t), -50 * Math.cos(t)], span);
      const { x, y, radius } = inscribedCircle(ellipse);
      const expected = 5.25 * (1 + Math.cos(span / 2));
      expect(Math.abs(x)).toBeLessThan(WITHIN);
      expect(Math.abs(y - expected)).toBeLessThan(WITHIN);
      expect(Math.abs(radius - 50 - expected)).toBeLessThan(WITHIN);
    }
  });

  test("touches a high face at its sides, about the middle", () => {
    // x = 50·sin t, y = −55·cos t: the largest circle in an ellipse has its smaller half axis, and at the sides the face has the
    // radius 55²/50 = 60.5. Between points 2.4 mm apart it may reach out by (1/50 − 1/60.5)·2.4²/8 = 2.5e-3 mm, and lie off the
    // middle by half their distance times (60.5 − 50)/60.5.
    const { x, y, radius } = inscribedCircle(
      face((t): Point => [50 * Math.sin(t), -55 * Math.cos(t)], (345 * Math.PI) / 180, 139),
    );
    expect(Math.abs(x)).toBeLessThan(WITHIN);
    expect(radius - 50).toBeGreaterThan(-WITHIN);
    expect(radius - 50).toBeLessThan(2.5e-3);
    expect(Math.abs(y)).toBeLessThan(0.21);
  });

  test("leans on a bump and on the arc opposite", () => {
    // A circle inside one of radius 50 that passes a point at 48 from its centre: its diameter is 50 + 48 at most (worked). Points 0.65 mm apart:
    // next to the place opposite, 0.33²/2·(1/49 − 1/50) = 2e-5 mm at most.
    const bump = 60;
    const points = face(
      polar(() => 50),
      (345 * Math.PI) / 180,
      461,
    );
    const angle = Math.atan2(points[bump][0], -points[bump][1]);
    points[bump] = polar(() => 48)(angle);
    const { x, y, radius } = inscribedCircle(points);
    expect(Math.abs(radius - 49)).toBeLessThan(3e-5);
    expect(Math.abs(Math.hypot(x, y) - 1)).toBeLessThan(3e-5);
  });

  test("holds none of the points and touches three", () => {
    const points = face(
      polar((t) => 50 + 0.4 * Math.cos(2 * t) - 0.3 * Math.sin(3 * t)),
      6,
      120,
    );
    const { x, y, radius } = inscribedCircle(points);
    const distances = points.map(([px, py]) => Math.hypot(px - x, py - y) - radius);
    expect(Math.min(...distances)).toBe(0);
    expect(distances.filter((distance) => distance < WITHIN)).toHaveLength(3);
  });

  const waves = fc.array(fc.integer({ min: -100, max: 100 }), { minLength: 8, maxLength: 8 });
  const uneven = fc.record({
    waves,
    span: fc.integer({ min: 270, max: 358 }),
    count: fc.integer({ min: 33, max: 65 }),
    turned: fc.integer({ min: 0, max: 628 }),
  });
  /** A face of four waves of up to 0.3 mm each, in any position. */
  const unevenFace = ({ waves: sizes, span, count, turned }: Record<string, number> & { waves: number[] }) =>
    face(
      (angle) =>
        polar((t) =>
          sizes.reduce(
            (sum, size, k) =>
              sum + (size / 333) * (k % 2 ? Math.sin : Math.cos)((2 + (k >> 1)) * (t - turned / 100)),
            50,
          ),
        )(angle + turned / 100),
      (span * Math.PI) / 180,
      count,
    );

  test("finds what trying every circle through three points finds", () => {
    fc.assert(
      fc.property(uneven, (shape) => {
        const points = unevenFace(shape as never);
        const short = byTrial(points) - inscribedCircle(points).radius;
        expect(short).toBeGreaterThan(-1e-9);
        // Where it leans on a tip and on a place opposite, each two points there have a largest circle of their own. One may be found that is not
        // quite the largest: with these coarse faces by some 1e-6 mm, a small share of what their chords leave out.
        expect(short).toBeLessThan(2e-5);
      }),
      runs(50),
    );
  });

  test("moves, turns and grows with the points", () => {
    fc.assert(
      fc.property(uneven, (shape) => {
        const points = unevenFace(shape as never);
        const first = inscribedCircle(points);
        const [c, s] = [Math.cos(1), Math.sin(1)];
        const place = (x: number, y: number): Point => [20 + 3 * (c * x - s * y), -90 + 3 * (s * x + c * y)];
        const second = inscribedCircle(points.map(([x, y]) => place(x, y)));
        expect(Math.abs(second.radius - 3 * first.radius)).toBeLessThan(1e-9);
      }),
      runs(30),
    );
  });

  test("is not led astray by points that stand twice", () => {
    // As at the ends of a slotted zone.
    const points = face(
      polar((t) => 50 + 0.4 * Math.cos(2 * t) - 0.3 * Math.sin(3 * t)),
      6,
      60,
    );
    const twice = points.flatMap((point) => [point, point]);
    expect(Math.abs(inscribedCircle(twice).radius - inscribedCircle(points).radius)).toBeLessThan(WITHIN);
  });
});
