import type { Point, RingDesign } from "../../src/index.js";
import { displacements } from "./ccx.js";
import { closureDeck } from "./deck.js";
import { halfRingMesh } from "./mesh.js";

/** How the finite-element ring closes under its design pressure, mm. */
export interface MeasuredClosure {
  /** Mean radius of the closed outer face minus the bore's. */
  readonly meanRadiusError: number;
  /** Largest minus smallest distance of the closed outer face from its centre. */
  readonly outOfRound: number;
  /** Distance between the closed ends at mid wall. */
  readonly closedGap: number;
}

/**
 * Closes the free body of a design by finite elements.
 *
 * @param design computed with some 2000 stations
 * @param along elements along the half ring
 * @param through elements through the wall
 */
export async function closeByFiniteElements(
  design: RingDesign,
  along = 160,
  through = 4,
): Promise<MeasuredClosure> {
  const mesh = halfRingMesh(design.outline, along, through);
  const moved = await displacements(closureDeck(design, mesh));
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
  };
}

/** Least-squares circle with its centre at x = 0, for points on the right half; Gauss–Newton. */
function fitCircleOnAxis(points: readonly Point[]): { centre: number; radius: number } {
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

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
