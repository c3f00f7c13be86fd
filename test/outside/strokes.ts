import type { Point } from "../../src/index.js";

/** A point of print, mm. */
export const POINT = 25.4 / 72;

/** Strokes of a printed page, mm: each path's moves, lines and curves as points, curves sampled. */
export function strokesOf(svg: string): { width: number; strokes: Point[][] }[] {
  return [
    ...svg.matchAll(/<path style="fill:none;([^"]*)" d="([^"]*)"(?: transform="matrix\(([^)]*)\)")?/g),
  ].map(([, style, d, matrix]) => {
    const [a, b, c, e, f, g] = matrix ? matrix.split(/[ ,]+/).map(Number) : [1, 0, 0, 1, 0, 0];
    const placed = (x: number, y: number): Point => [
      (a * x + c * y + f) * POINT,
      (b * x + e * y + g) * POINT,
    ];
    const strokes: Point[][] = [];
    let at: Point = [0, 0];
    for (const [, command, text] of d.matchAll(/([MLCZ])([^MLCZ]*)/g)) {
      const n = (text.match(/-?[\d.]+(?:e-?\d+)?/g) ?? []).map(Number);
      if (command === "Z") continue;
      if (command === "M") strokes.push([]);
      const stroke = strokes[strokes.length - 1];
      if (command === "C") {
        for (let t = 0.05; t < 0.99; t += 0.05) {
          const [p, q, r, s] = [(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t ** 3];
          stroke.push(
            placed(p * at[0] + q * n[0] + r * n[2] + s * n[4], p * at[1] + q * n[1] + r * n[3] + s * n[5]),
          );
        }
      }
      at = [n[n.length - 2], n[n.length - 1]];
      stroke.push(placed(...at));
    }
    return { width: Number(/stroke-width:([\d.]+)/.exec(style)?.[1]), strokes };
  });
}
