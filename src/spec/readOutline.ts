import { SpecError } from "./error.js";
import type { OutlineCorner } from "./ringSpec.js";

/** Bulges below this are straight to rounding. */
const STRAIGHT = 1e-9;

/** How far corners may be off the section's size, as a share. */
const ROUNDING = 1e-6;

/**
 * Checks a section given by its outline.
 *
 * @param corners as read
 * @param given as written, for messages
 * @param a, h radial thickness and axial height, mm
 * @throws SpecError for an outline that does not span its size, runs clockwise or crosses itself
 */
export function checkOutline(corners: readonly OutlineCorner[], given: unknown, a: number, h: number): void {
  const refuse = (allowed: string): never => {
    throw new SpecError("section.outline", given, allowed);
  };
  const outline = chorded(corners);
  const [xs, ys] = [outline.map(({ x }) => x), outline.map(({ y }) => y)];
  const reaches = (values: number[], size: number) =>
    Math.abs(Math.min(...values)) <= ROUNDING * size &&
    Math.abs(Math.max(...values) - size) <= ROUNDING * size;
  // Arcs may bulge past their corners; what counts is that corners span the size.
  if (!reaches(ys, a)) refuse(`must reach from 0 to radialThickness, ${a} mm, in y`);
  if (!(Math.min(...xs) >= -ROUNDING * h && Math.max(...xs) <= h * (1 + ROUNDING))) {
    refuse(`must stay from 0 to axialHeight, ${h} mm, in x`);
  }
  const area = outline.reduce((sum, { x, y }, i) => {
    const next = outline[(i + 1) % outline.length];
    return sum + (x * next.y - next.x * y) / 2;
  }, 0);
  if (!(area > ROUNDING * a * h)) refuse("must run counter-clockwise and enclose an area");
  if (crosses(outline)) refuse("must not cross itself");
}

/** Halvings of an arc into chords. */
const HALVINGS = 4;

/** The outline with its arcs as chords, fine enough to see whether it crosses itself or leaves its size. */
function chorded(outline: readonly OutlineCorner[]): OutlineCorner[] {
  const halved = (from: OutlineCorner, to: Place, left: number): OutlineCorner[] => {
    const { x, y, bulge = 0 } = from;
    if (Math.abs(bulge) < STRAIGHT || left === 0) return [{ x, y }];
    const half = Math.tan(Math.atan(bulge) / 2);
    const middle = {
      x: (x + to.x + bulge * (to.y - y)) / 2,
      y: (y + to.y - bulge * (to.x - x)) / 2,
      bulge: half,
    };
    return [...halved({ x, y, bulge: half }, middle, left - 1), ...halved(middle, to, left - 1)];
  };
  return outline.flatMap((from, i) => halved(from, outline[(i + 1) % outline.length], HALVINGS));
}

type Place = Pick<OutlineCorner, "x" | "y">;

/** Whether any two edges that are not neighbours cross, arcs taken by their chords. */
function crosses(outline: readonly OutlineCorner[]): boolean {
  const count = outline.length;
  const side = (p: Place, q: Place, r: Place) =>
    Math.sign((q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x));
  const at = (i: number) => outline[i % count];
  for (let i = 0; i < count; i++) {
    for (let j = i + 2; j < count; j++) {
      if (i === 0 && j === count - 1) continue;
      const [a, b, c, d] = [at(i), at(i + 1), at(j), at(j + 1)];
      if (side(a, b, c) !== side(a, b, d) && side(c, d, a) !== side(c, d, b)) return true;
    }
  }
  return false;
}
