import { lineFlexibility } from "../curvature/law.js";
import { stationLaws } from "../curvature/lawsAlong.js";
import type { Geometry } from "../forces/geometry.js";
import type { BoundedQuadratic } from "../numeric/boundedQuadratic.js";
import { interpolateTable } from "../numeric/interpolateTable.js";
import { addSquare, symmetricBand } from "../numeric/symmetricBand.js";
import { wallAt } from "../section/wall.js";
import type { GivenRing } from "./givenRing.js";

/**
 * The ring's line at equal steps, close to the circle of radius ρ on which a bore of mean radius R̄ would hold it. Its
 * state is the radial deviation w at the nodes and, where the bar shears, the shear angle γ between them.
 */
export interface ElasticLine {
  /** Angle of each node when closed in the nominal bore, radians from the back. */
  readonly theta: number[];
  /** ρ, mm. */
  readonly radius: number;
  /** Angle of each node on the circle of radius ρ, radians from the back. */
  readonly angle: number[];
  readonly step: number;
  /** Place of w at node i among the unknowns, and of γ beyond it; γ is absent in the thin theory. */
  readonly stride: 1 | 2;
  /** Over which angle shear spreads a force on a point, √(c/F)/ρ, radians; 0 in the thin theory. */
  readonly shearLayer: number;
  /** Energy ½·xᵀ·H·x − fᵀ·x of the line alone, N·mm. */
  readonly matrix: BoundedQuadratic["matrix"];
  readonly linear: Float64Array;
  /** Wall at the nodes, mm. */
  readonly thickness: number[];
  /** M at the inner nodes from the state, N·mm, closing positive; none at the ends, which are free. */
  momentAt(x: Float64Array): number[];
}

/**
 * @param ring free curvature and body
 * @param geometry the ring in its nominal bore
 * @param radius ρ, mm
 * @param steps along the whole ring
 */
export function elasticLine(
  ring: GivenRing,
  { centroidLimit, centroidRadius: r }: Geometry,
  radius: number,
  steps: number,
): ElasticLine {
  const count = steps + 1;
  const theta = Array.from({ length: count }, (_, i) => centroidLimit * ((2 * i) / steps - 1));
  const angle = theta.map((at) => (at * r) / radius);
  const step = (2 * centroidLimit * r) / radius / steps;
  const { kappa0, thickness, flexibility, shear } = tablesAt(ring, theta, r);

  const shears = shear.some((value) => value > 0);
  const stride = shears ? 2 : 1;
  const matrix = symmetricBand(stride * count - (shears ? 1 : 0), 2 * stride);
  const linear = new Float64Array(matrix.count);
  // κ − 1/ρ = −(w″ + w)/ρ² − γ′/ρ, w″ + w by the difference that gives a rigid shift no curvature.
  const c = Math.cos(step);
  const bend = 1 / (2 * (1 - c) * radius * radius);
  const turn = 1 / (step * radius);
  const curvature = shears ? [-bend, turn, 2 * c * bend, -turn, -bend] : [-bend, 2 * c * bend, -bend];
  const length = radius * step;
  const excess = kappa0.map((value) => 1 / radius - value);
  for (let i = 1; i < steps; i++) {
    const stiffness = length / flexibility[i];
    const start = stride * (i - 1);
    addSquare(matrix, start, curvature, stiffness);
    curvature.forEach((value, k) => {
      linear[start + k] -= stiffness * excess[i] * value;
    });
  }
  if (shears) {
    for (let i = 0; i < steps; i++)
      addSquare(matrix, 2 * i + 1, [1], (2 * length) / (shear[i] + shear[i + 1]));
  }
  return {
    theta,
    radius,
    angle,
    step,
    stride,
    shearLayer: Math.sqrt(Math.max(...shear.map((c, i) => c / flexibility[i]))) / radius,
    matrix,
    linear,
    thickness,
    momentAt(x) {
      const moment = new Array<number>(count).fill(0);
      for (let i = 1; i < steps; i++) {
        const change = curvature.reduce((sum, value, k) => sum + value * x[stride * (i - 1) + k], 0);
        moment[i] = (excess[i] + change) / flexibility[i];
      }
      return moment;
    },
  };
}

/** Whether a tape that holds the ring to the bore's circle would have to push: M weighted with 1 + cos θ is not positive. */
export function isLoose(line: ElasticLine): boolean {
  const moment = line.momentAt(new Float64Array(line.matrix.count));
  return !(moment.reduce((sum, M, i) => sum + M * (1 + Math.cos(line.angle[i])), 0) > 0);
}

/** The ring's tables at the nodes. Where the section jumps at a node, the values before the jump. */
function tablesAt(ring: GivenRing, theta: readonly number[], r: number) {
  const { spec, free, wall } = ring;
  const laws = stationLaws(spec, r, wall, free.theta.length);
  const tables = {
    kappa0: free.curvature,
    thickness: free.theta.map((_, i) => wallAt(spec.section.radialThickness, wall, i).thickness),
    flexibility: laws.map((law, i) => lineFlexibility(law, free.curvature[i], r)),
    shear: laws.map((law) => law.shearCompliance),
  };
  const at = (table: readonly number[]) => interpolateTable(free.theta, table, theta);
  return {
    kappa0: at(tables.kappa0),
    thickness: at(tables.thickness),
    flexibility: at(tables.flexibility),
    shear: at(tables.shear),
  };
}
