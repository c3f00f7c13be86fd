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
  /** Numbers of the elements on the outer face, from the back to the end. */
  readonly outerElements: number[];
  /** Node numbers on the outer face, from the back to the end. */
  readonly outerNodes: number[];
  /** Node numbers on the section at the back. */
  readonly backNodes: number[];
  /** Node number at mid wall on the end face. */
  readonly endMid: number;
}

/**
 * @param outline faces of the free ring, from a design with so many stations that a cubic between them is exact
 * @param along elements from the back to the end
 * @param through elements through the wall, even, so that mid wall is a line of corners
 */
export function halfRingMesh(outline: Outline, along = 160, through = 4): Mesh {
  const outer = faceFromBack(outline.outer);
  const inner = faceFromBack(outline.inner);
  const nodes: Point[] = [];
  // numbers[i][j]: i half elements from the back, j half elements from the outer face; no node inside an element.
  const numbers: number[][] = [];
  for (let i = 0; i <= 2 * along; i++) {
    const [outerX, outerY] = outer(i / (2 * along));
    const [innerX, innerY] = inner(i / (2 * along));
    numbers.push([]);
    for (let j = 0; j <= 2 * through; j++) {
      if (i % 2 === 1 && j % 2 === 1) continue;
      const v = j / (2 * through);
      nodes.push([outerX + v * (innerX - outerX), outerY + v * (innerY - outerY)]);
      numbers[i][j] = nodes.length;
    }
  }
  const elements: number[][] = [];
  const outerElements: number[] = [];
  for (let i = 0; i < 2 * along; i += 2) {
    for (let j = 0; j < 2 * through; j += 2) {
      const [left, middle, right] = numbers.slice(i, i + 3);
      elements.push([
        ...[left[j], right[j], right[j + 2], left[j + 2]],
        ...[middle[j], right[j + 1], middle[j + 2], left[j + 1]],
      ]);
      if (j === 0) outerElements.push(elements.length);
    }
  }
  return {
    nodes,
    elements,
    outerElements,
    outerNodes: numbers.map((row) => row[0]),
    backNodes: numbers[0],
    endMid: numbers[2 * along][through],
  };
}

/** The right half of a face as a function of the share of its length from the back, by local cubics. */
function faceFromBack(points: readonly Point[]): (share: number) => Point {
  const half = points.slice((points.length - 1) / 2);
  const length = [0];
  for (let i = 1; i < half.length; i++) {
    length.push(length[i - 1] + Math.hypot(half[i][0] - half[i - 1][0], half[i][1] - half[i - 1][1]));
  }
  const last = half.length - 1;
  let segment = 0;
  return (share) => {
    const at = share * length[last];
    // Shares come in rising order.
    while (segment < last - 1 && length[segment + 1] < at) segment++;
    const first = Math.max(0, Math.min(segment - 1, last - 3));
    const point: Point = [0, 0];
    for (let i = first; i < first + 4; i++) {
      let weight = 1;
      for (let j = first; j < first + 4; j++) {
        if (j !== i) weight *= (at - length[j]) / (length[i] - length[j]);
      }
      point[0] += weight * half[i][0];
      point[1] += weight * half[i][1];
    }
    return point;
  };
}
