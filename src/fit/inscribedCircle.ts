import { solveBanded } from "../numeric/banded.js";
import { type Circle, fitCircle } from "../numeric/fitCircle.js";
import type { Point } from "../numeric/point.js";

/** Rounds of linearisation; each doubles the digits. */
const MOST_ROUNDS = 30;

/**
 * The largest circle inside a ring's inner face: what passes through it. From the least-squares circle's centre the shift δ that makes the smallest
 * distance t largest, t ≤ dᵢ − uᵢ·δ, is a linear programme in three unknowns, solved by exchange; then again from the new centre.
 *
 * @param face points of the inner face, close to each other, all round but for the gap, mm
 */
export function inscribedCircle(face: readonly Point[]): Circle {
  let { x, y, radius } = fitCircle(face);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const rays = face.map(([px, py]) => {
      const distance = Math.hypot(px - x, py - y);
      return { distance, u: [(px - x) / distance, (py - y) / distance] as const };
    });
    const [dx, dy] = bestShift(rays);
    x += dx;
    y += dy;
    if (Math.hypot(dx, dy) < 1e-13 * radius) break;
  }
  radius = face.reduce(
    (least, [px, py]) => Math.min(least, Math.hypot(px - x, py - y)),
    Number.POSITIVE_INFINITY,
  );
  return { x, y, radius };
}

interface Ray {
  readonly distance: number;
  readonly u: readonly [number, number];
}

/** Three rays hold the centre between them; the one most violated takes the place of one of them until none is. */
function bestShift(rays: readonly Ray[]): [number, number] {
  const third = (rays.length - 1) / 6;
  let held = [1, 3, 5].map((sixth) => rays[Math.round(sixth * third)]);
  for (let exchange = 0; exchange < rays.length; exchange++) {
    const [dx, dy, least] = solve3(
      held.map(({ u }) => [u[0], u[1], 1]),
      held.map(({ distance }) => distance),
    );
    const room = ({ distance, u }: Ray) => distance - u[0] * dx - u[1] * dy;
    const entering = rays.reduce((worst, ray) => (room(ray) < room(worst) ? ray : worst));
    if (room(entering) >= least - 1e-14 * least) return [dx, dy];
    const columns = [0, 1].map((axis) => held.map(({ u }) => u[axis]));
    const matrix = [...columns, [1, 1, 1]];
    const weights = solve3(matrix, [0, 0, 1]);
    const shares = solve3(matrix, [entering.u[0], entering.u[1], 1]);
    // The one that leaves is the first whose weight would turn negative.
    const ratios = shares.map((share, k) => (share > 1e-12 ? weights[k] / share : Number.POSITIVE_INFINITY));
    const leaving = ratios.indexOf(Math.min(...ratios));
    held = held.map((ray, k) => (k === leaving ? entering : ray));
  }
  return [0, 0];
}

function solve3(rows: number[][], right: number[]): number[] {
  return solveBanded({ start: [0, 0, 0], rows: rows.map((row) => [...row]) }, right);
}
