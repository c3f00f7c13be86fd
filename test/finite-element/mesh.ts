import type { Outline, Point } from "../../src/index.js";

/**
 * Quadratic quadrilaterals on the right half of the free ring. Nothing but the outline enters: neither the centroid
 * line nor any theory, so that the finite elements judge the shape as it would be cut.
 */
export interface Mesh {
  /** Corner and mid-side nodes, mm; node number k in a deck is index k − 1. */
  readonly nodes: Point[];
  /** Eight node numbers each, counter-clockwise, corners first; side 1 is the one nearest the outer face. */
  readonly elements: number[][];
  /** The elements on the outer face, from the back to the end, with the share of its length at which each ends. */
  readonly outerElements: { readonly number: number; readonly endsAt: number }[];
  /** Node numbers on the outer face, from the back to the end. */
  readonly outerNodes: number[];
  /** Node numbers on the section at the back. */
  readonly backNodes: number[];
  /** Node number at mid wall on the end face. */
  readonly endMid: number;
}

/** Lines from face to face and lines along them, between which the elements lie. */
export interface Grid {
  /** Where lines from face to face begin and end: shares of the lengths of outer and inner face, 0 to 1 from the back. */
  readonly columns: readonly (readonly [outer: number, inner: number])[];
  /** Shares of the wall from the outer face, 0 to 1; one of them is ½. */
  readonly rows: readonly number[];
  /** Whether there is no metal between two columns and two rows, by the number of the first; nowhere on the outer face. */
  isCut?(column: number, row: number): boolean;
}

/**
 * @param along elements from the back to the end
 * @param through elements through the wall, even
 */
export function evenGrid(along: number, through: number): Grid {
  return {
    columns: Array.from({ length: along + 1 }, (_, i) => [i / along, i / along]),
    rows: Array.from({ length: through + 1 }, (_, j) => j / through),
  };
}

/**
 * @param outline faces of the free ring, from a design with so many stations that a cubic between them is exact
 * @param grid lines of the mesh
 */
export function halfRingMesh(outline: Outline, { columns, rows, isCut }: Grid): Mesh {
  const outer = halfFace(outline.outer);
  const inner = halfFace(outline.inner);
  const [outerShares, innerShares] = [0, 1].map((face) => columns.map((shares) => shares[face]));
  const nodes: Point[] = [];
  const numbers = new Map<string, number>();
  // i and j count half elements from the back and from the outer face, so that mid-side nodes have their own.
  const node = (i: number, j: number): number => {
    const known = numbers.get(`${i} ${j}`);
    if (known) return known;
    const [outerX, outerY] = outer.at(middleAt(outerShares, i));
    const [innerX, innerY] = inner.at(middleAt(innerShares, i));
    const v = middleAt(rows, j);
    nodes.push([outerX + v * (innerX - outerX), outerY + v * (innerY - outerY)]);
    numbers.set(`${i} ${j}`, nodes.length);
    return nodes.length;
  };
  const [along, through] = [columns.length - 1, rows.length - 1];
  const elements: number[][] = [];
  const outerElements: Mesh["outerElements"] = [];
  for (let column = 0; column < along; column++) {
    for (let row = 0; row < through; row++) {
      if (isCut?.(column, row)) continue;
      const [i, j] = [2 * column, 2 * row];
      elements.push([
        ...[node(i, j), node(i + 2, j), node(i + 2, j + 2), node(i, j + 2)],
        ...[node(i + 1, j), node(i + 2, j + 1), node(i + 1, j + 2), node(i, j + 1)],
      ]);
      if (row === 0) outerElements.push({ number: elements.length, endsAt: columns[column + 1][0] });
    }
  }
  return {
    nodes,
    elements,
    outerElements,
    outerNodes: Array.from({ length: 2 * along + 1 }, (_, i) => node(i, 0)),
    backNodes: Array.from({ length: 2 * through + 1 }, (_, j) => node(0, j)),
    endMid: node(2 * along, 2 * rows.indexOf(0.5)),
  };
}

/** Place of a line, or half-way to the next: `halves` counts half spaces between the lines. */
export function middleAt(lines: readonly number[], halves: number): number {
  return (lines[Math.floor(halves / 2)] + lines[Math.ceil(halves / 2)]) / 2;
}

/** Distances from a corner, 0 to `length`, each `growth` times the one before; the first at most `finest`. */
export function graded(length: number, finest: number, growth: number): number[] {
  const steps = Math.max(2, Math.ceil(Math.log(length / finest) / Math.log(growth)));
  return [0, ...Array.from({ length: steps + 1 }, (_, k) => length / growth ** (steps - k))];
}

/** The right half of a face. */
export interface HalfFace {
  /** From the back, at every point of the outline; mm. */
  readonly length: number[];
  /** The point at a share of the whole length from the back, by local cubics. */
  at(share: number): Point;
}

export function halfFace(points: readonly Point[]): HalfFace {
  const half = points.slice((points.length - 1) / 2);
  const length = [0];
  for (let i = 1; i < half.length; i++) {
    length.push(length[i - 1] + Math.hypot(half[i][0] - half[i - 1][0], half[i][1] - half[i - 1][1]));
  }
  const last = half.length - 1;
  return {
    length,
    at(share) {
      const along = share * length[last];
      const segment = segmentAt(length, along);
      const first = Math.max(0, Math.min(segment - 1, last - 3));
      const point: Point = [0, 0];
      for (let i = first; i < first + 4; i++) {
        let weight = 1;
        for (let j = first; j < first + 4; j++) {
          if (j !== i) weight *= (along - length[j]) / (length[i] - length[j]);
        }
        point[0] += weight * half[i][0];
        point[1] += weight * half[i][1];
      }
      return point;
    },
  };
}

/** Index of the increasing value after which `at` comes, the last but one at most. */
export function segmentAt(values: readonly number[], at: number): number {
  let [low, high] = [0, values.length - 1];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (values[middle] <= at) low = middle;
    else high = middle;
  }
  return low;
}
