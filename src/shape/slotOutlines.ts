import { localPolynomial } from "../numeric/localPolynomial.js";
import type { Point } from "../numeric/point.js";
import { smoothRuns } from "../numeric/smoothRuns.js";
import type { SlotsSpec } from "../spec/ringSpec.js";
import type { FreeRing } from "./freeRing.js";

/**
 * Corners of the inner slots in the free body: inner face, root, root, inner face, counter-clockwise along the ring.
 * Slots have parallel sides, square to the ring's line at their middle.
 *
 * @param slots count, place and size
 * @param free the ring's line
 * @param thicknessAt wall at an angle from the back, mm
 * @param toOuter distance of the outer face from the line, mm
 */
export function slotOutlines(
  slots: SlotsSpec,
  free: FreeRing,
  thicknessAt: (theta: number) => number,
  toOuter: number,
): Point[][] {
  const spacing = (slots.to - slots.from) / slots.count;
  const line = lineOf(free);
  return Array.from({ length: slots.count }, (_, k) => {
    const theta = slots.from + (k + 0.5) * spacing;
    const [x, y, tangent] = line(theta);
    const [c, s] = [Math.cos(tangent), Math.sin(tangent)];
    const corner = (along: number, outward: number): Point => [
      x + along * c + outward * s,
      y + along * s - outward * c,
    ];
    const inner = toOuter - thicknessAt(theta);
    const half = slots.width / 2;
    return [
      corner(-half, inner),
      corner(-half, inner + slots.depth),
      corner(half, inner + slots.depth),
      corner(half, inner),
    ];
  });
}

/** x, y and tangent of the line at angles between stations, asked for in rising order. */
function lineOf({ theta, x, y, tangent }: FreeRing): (at: number) => [number, number, number] {
  const runs = smoothRuns(theta).map(([first, last]) =>
    [theta, x, y, tangent].map((table) => table.slice(first, last + 1)),
  );
  let run = 0;
  let index = 0;
  return (at) => {
    while (run < runs.length - 1 && at > (runs[run][0].at(-1) as number)) {
      run++;
      index = 0;
    }
    const [angles, ...tables] = runs[run];
    while (index < angles.length - 2 && angles[index + 1] < at) index++;
    const [atX, atY, atTangent] = tables.map((table) => localPolynomial(angles, table, index)(at));
    return [atX, atY, atTangent];
  };
}
