import type { SectionLine } from "../curves/ringFaces.js";
import { solveBanded } from "../numeric/banded.js";

/** The search ends when the motion is below this, mm and radians. */
const STILL = 1e-12;
const MOST_TURNS = 30;

/**
 * How far one ring's line lies outward of another's, place by place along the other's normals, once it is laid over it: shifted to the least sum
 * of squares, and turned so that places of the same station lie beside each other on average. (Turning a nearly round ring moves it along
 * itself: squares alone would let it slide anywhere.) Of rings of one wall it is the same for the faces.
 *
 * @param made that is laid over
 * @param drawn at the same stations
 * @returns mm, along the drawn line's normal
 */
export function alignedDeviation(made: SectionLine, drawn: SectionLine): number[] {
  let line = rigidly(made, drawn);
  for (let round = 0; ; round++) {
    const rows = [0, 1, 2].map(() => [0, 0, 0]);
    const right = [0, 0, 0];
    const offs = drawn.x.map((_, i) => {
      const { off, x, y, nx, ny } = crossing(line, drawn, i);
      const row = [nx, ny, ny * x - nx * y];
      for (let j = 0; j < 2; j++) {
        right[j] -= row[j] * off;
        for (let k = 0; k < 3; k++) rows[j][k] += row[j] * row[k];
      }
      const [c, s] = [Math.cos(drawn.tangent[i]), Math.sin(drawn.tangent[i])];
      right[2] -= (line.x[i] - drawn.x[i]) * c + (line.y[i] - drawn.y[i]) * s;
      for (const [k, value] of [c, s, s * line.x[i] - c * line.y[i]].entries()) rows[2][k] += value;
      return off;
    });
    const step = solveBanded({ start: [0, 0, 0], rows }, right);
    if (round === MOST_TURNS || Math.max(...step.map(Math.abs)) < STILL) return offs;
    line = moved(line, step[2], step[0], step[1]);
  }
}

function moved({ x, y, tangent }: SectionLine, turn: number, dx: number, dy: number): SectionLine {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return {
    x: x.map((value, i) => c * value - s * y[i] + dx),
    y: x.map((value, i) => s * value + c * y[i] + dy),
    tangent: tangent.map((angle) => angle + turn),
  };
}

/** Laid over so that places of the same station lie as near as can be: a first guess, in closed form. */
function rigidly(made: SectionLine, drawn: SectionLine): SectionLine {
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [mx, my, dx, dy] = [made.x, made.y, drawn.x, drawn.y].map(mean);
  let [cross, dot] = [0, 0];
  for (let i = 0; i < drawn.x.length; i++) {
    const [ax, ay, bx, by] = [made.x[i] - mx, made.y[i] - my, drawn.x[i] - dx, drawn.y[i] - dy];
    cross += ax * by - ay * bx;
    dot += ax * bx + ay * by;
  }
  const turn = Math.atan2(cross, dot);
  const centred = { ...made, x: made.x.map((value) => value - mx), y: made.y.map((value) => value - my) };
  return moved(centred, turn, dx, dy);
}

/** Where a line crosses the normal of another at a station, by the circle through its nearest station. */
function crossing(line: SectionLine, drawn: SectionLine, i: number) {
  const [c, s] = [Math.cos(drawn.tangent[i]), Math.sin(drawn.tangent[i])];
  const along = (k: number) => (line.x[k] - drawn.x[i]) * c + (line.y[k] - drawn.y[i]) * s;
  let k = i;
  let far = along(k);
  for (;;) {
    const next = k - Math.sign(far);
    if (!(next >= 0 && next < line.x.length)) break;
    const there = along(next);
    if (!(Math.abs(there) < Math.abs(far))) break;
    k = next;
    far = there;
  }
  const [before, after] = [Math.max(0, k - 1), Math.min(line.x.length - 1, k + 1)];
  const bend =
    (line.tangent[after] - line.tangent[before]) /
    Math.hypot(line.x[after] - line.x[before], line.y[after] - line.y[before]);
  // On along the line by so much; its direction against the drawn one on the way.
  const lean = line.tangent[k] - drawn.tangent[i];
  const length = -far / Math.cos(lean);
  const middle = line.tangent[k] + (bend * length) / 2;
  const x = line.x[k] + length * Math.cos(middle);
  const y = line.y[k] + length * Math.sin(middle);
  const direction = line.tangent[k] + bend * length;
  const slant = Math.cos(direction - drawn.tangent[i]);
  return {
    off: (x - drawn.x[i]) * s - (y - drawn.y[i]) * c,
    x,
    y,
    nx: Math.sin(direction) / slant,
    ny: -Math.cos(direction) / slant,
  };
}
