import type { SectionLine } from "../curves/ringFaces.js";
import { solveBanded } from "../numeric/banded.js";

/** Least squares ends when the motion is below this, mm and mm at a radius of 1 mm. */
const STILL = 1e-12;

/**
 * How far one ring's line lies outward of another's, place by place along the ring, once it is laid over it as well as can be: with the
 * least sum of squares. Of rings of one wall it is the same for the faces.
 *
 * @param made that is laid over
 * @param drawn at the same stations
 * @returns mm, along the drawn line's normal
 */
export function alignedDeviation(made: SectionLine, drawn: SectionLine): number[] {
  const normals = drawn.tangent.map((angle) => [Math.sin(angle), -Math.cos(angle)] as const);
  let [turn, dx, dy] = [0, 0, 0];
  const deviation = () => {
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    return normals.map(
      ([nx, ny], i) =>
        (c * made.x[i] - s * made.y[i] + dx - drawn.x[i]) * nx +
        (s * made.x[i] + c * made.y[i] + dy - drawn.y[i]) * ny,
    );
  };
  for (let round = 0; round < 20; round++) {
    const rows = [0, 1, 2].map(() => [0, 0, 0]);
    const right = [0, 0, 0];
    for (const [i, off] of deviation().entries()) {
      const [nx, ny] = normals[i];
      const row = [nx, ny, ny * drawn.x[i] - nx * drawn.y[i]];
      for (let j = 0; j < 3; j++) {
        right[j] -= row[j] * off;
        for (let k = 0; k < 3; k++) rows[j][k] += row[j] * row[k];
      }
    }
    const [stepX, stepY, stepTurn] = solveBanded({ start: [0, 0, 0], rows }, right);
    dx += stepX - stepTurn * dy;
    dy += stepY + stepTurn * dx;
    turn += stepTurn;
    if (Math.max(Math.abs(stepX), Math.abs(stepY), Math.abs(stepTurn)) < STILL) break;
  }
  return deviation();
}
