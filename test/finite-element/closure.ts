import type { Point, RingDesign } from "../../src/index.js";
import { displacements } from "./ccx.js";
import { closureDeck } from "./deck.js";
import { evenGrid, type Grid, halfRingMesh } from "./mesh.js";

/** How the finite-element ring closes under its design pressure, mm. */
export interface MeasuredClosure {
  /** Mean radius of the closed outer face minus the bore's. */
  readonly meanRadiusError: number;
  /** Largest minus smallest distance of the closed outer face from its centre. */
  readonly outOfRound: number;
  /** Distance between the closed ends at mid wall. */
  readonly closedGap: number;
  /** Distances of the outer face's nodes from its centre, from the back to the end. */
  readonly distances: number[];
}

/** Mesh, and largest residual over average force; 160 × 4 elements and 1e-8 if not given. */
export interface HowToClose {
  readonly grid?: Grid;
  readonly tolerance?: number;
}

/**
 * Closes the free body of a design by finite elements.
 *
 * @param design computed with some 2000 stations, its halves alike
 */
export async function closeByFiniteElements(
  design: RingDesign,
  { grid = evenGrid(160, 4), tolerance = 1e-8 }: HowToClose = {},
): Promise<MeasuredClosure> {
  const mesh = halfRingMesh(design.outline, grid);
  const moved = await displacements(closureDeck(design, mesh, tolerance));
  const placeOf = (node: number): Point => {
    const [x, y] = mesh.nodes[node - 1];
    const [ux, uy] = moved.get(node) as Point;
    return [x + ux, y + uy];
  };
  const face = mesh.outerNodes.map(placeOf);
  const { centre, radius } = fitCircleOnAxis(face);
  const distances = face.map(([x, y]) => Math.hypot(x, y - centre));
  const [endX] = placeOf(mesh.endMid);
  return {
    meanRadiusError: radius - design.installed.outerRadius,
    outOfRound: Math.max(...distances) - Math.min(...distances),
    closedGap: 2 * endX,
    distances,
  };
}

/**
 * Least-squares circle with its centre at x = 0, for points on the right half, each with the length of face that it
 * stands for; Gauss–Newton.
 */
function fitCircleOnAxis(points: readonly Point[]): { centre: number; radius: number } {
  const apart = points.slice(1).map(([x, y], i) => Math.hypot(x - points[i][0], y - points[i][1]));
  const weights = points.map((_, i) => (apart[i - 1] ?? 0) + (apart[i] ?? 0));
  const total = sum(weights);
  const mean = (values: readonly number[]) => sum(values.map((value, i) => value * weights[i])) / total;
  let centre = 0;
  let radius = 0;
  for (let turn = 0; turn < 20; turn++) {
    const distances = points.map(([x, y]) => Math.hypot(x, y - centre));
    const slopes = points.map(([, y], i) => (y - centre) / distances[i]);
    radius = mean(distances);
    const slope = mean(slopes);
    centre +=
      mean(slopes.map((value, i) => (value - slope) * (distances[i] - radius))) /
      mean(slopes.map((value) => (value - slope) ** 2));
  }
  return { centre, radius };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
