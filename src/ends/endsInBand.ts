import { forwardLaw } from "../elastica/forwardLaw.js";
import { intervals } from "../elastica/ringTables.js";
import type { Halves } from "../forces/internalForces.js";
import type { Point } from "../numeric/point.js";
import { integrateAdaptive } from "../numeric/rungeKutta.js";
import { wallAt } from "../section/wall.js";
import { cutAngle } from "../shape/outline.js";
import { SpecError } from "../spec/error.js";
import type { CutRing } from "./cutRing.js";
import type { EndFace } from "./ends.js";

/**
 * The ends of a ring held part-closed. mm, N, radians. Turns are seen from each end's own side and counted from the
 * closed position, negative when open; angles are to the square of the pull across the gap. `turn` and `faceToAxis`
 * are the mean of both ends.
 */
export interface HeldEnds extends EndFace, Halves<EndFace> {
  /** Distance between the ends at mid wall, as asked. */
  readonly gap: number;
  /** Pull on the band that holds it. */
  readonly pull: number;
}

/**
 * Angles of the end faces of a ring held part-closed by a band: what a cutter set up on the held ring needs.
 *
 * The band is a frictionless, inextensible tape round the outer face, its ends pulled straight across the gap. A cut
 * through ring and band gives the forces in any position: N = −T·(1 + cos ψ), V = T·sin ψ,
 * M = T·(H − y − a/2), with H the height of the pull's line. The elastica is exact for any opening.
 * A sleeve or a nest that touches the ring elsewhere turns the ends a little differently.
 *
 * @param design the ring, as designed
 * @param gap opening at which it is held, mm, from the closed to the free gap
 * @throws SpecError when the gap is outside that range; Error with the residual when no equilibrium is found
 *
 * @example
 * endsInBand(designRing(spec), 5).faceToAxis.toFixed(5); // "0.02631", radians
 */
export function endsInBand(design: CutRing, gap: number): HeldEnds {
  const { closedGap } = design.spec;
  const freeGap = design.free.gap;
  if (!(gap >= closedGap && gap <= freeGap)) {
    throw new SpecError("gap", gap, `must be from the closed gap ${closedGap} to the free gap ${freeGap} mm`);
  }
  const closedTangent = design.installed.theta.at(-1) as number;
  const march = bandMarch(design);
  const miss = (unknowns: Pair): Pair => {
    const { rise, opening } = march(unknowns);
    const R = design.installed.outerRadius;
    return [rise / R, (opening - gap) / R];
  };
  // First trial: both unknowns in proportion to the closing.
  const share = (freeGap - gap) / (freeGap - closedGap);
  let unknowns: Pair = [
    share * design.load.tangentialForce,
    closedTangent + (1 - share) * design.ends.right.turn,
  ];
  const steps: Pair = [1e-4 * design.load.tangentialForce, 1e-4];
  let residual = miss(unknowns);
  for (let trial = 0; trial < 20 && size(residual) > 1e-12; trial++) {
    const next = newton(miss, unknowns, residual, steps);
    const nextResidual = miss(next);
    if (size(residual) < 1e-9 && size(nextResidual) >= size(residual)) break;
    [unknowns, residual] = [next, nextResidual];
  }
  if (!(size(residual) < 1e-9))
    throw new Error(`no equilibrium in the band at ${gap} mm: residual ${residual}`);
  const [pull, rightTangent] = unknowns;
  const face = (turn: number): EndFace => ({ turn, faceToAxis: Math.abs(turn) });
  const right = rightTangent - closedTangent;
  const left = -march(unknowns).leftTangent - closedTangent;
  return { gap, pull, ...face((left + right) / 2), left: face(left), right: face(right) };
}

type Pair = [number, number];

function size([first, second]: Pair): number {
  return Math.hypot(first, second);
}

/** Where a march from the right end under a trial of pull and right-hand tangent leads. */
interface March {
  /** Height of the left outer corner over the pull's line, mm. */
  readonly rise: number;
  /** Distance between the ends at mid wall, along the pull, mm. */
  readonly opening: number;
  readonly leftTangent: number;
}

/** Marches along the ring from right to left, x along the pull; pull in N, tangent at the right end in radians. */
function bandMarch(design: CutRing): (unknowns: Pair) => March {
  const { spec, free, installed, ends, wall } = design;
  const { radialThickness: a } = spec.section;
  const law = forwardLaw(spec, installed.centroidRadius);
  const R = installed.outerRadius;
  const last = free.curvature.length - 1;
  const pieces = intervals({
    arcLength: free.arcLength,
    curvature: free.curvature,
    pressure: installed.pressure,
    nominal: a,
    wall,
  }).reverse();

  /** A point of an end face from the line's end, at an offset outward of the line; seen from the end's own side. */
  const onFace = (at: number, tangent: number, offset: number): Point => {
    const rho = 1 / free.curvature[at];
    const angle = tangent + cutAngle(rho, offset, ends.faceToNormal);
    return [
      (rho + offset) * Math.sin(angle) - rho * Math.sin(tangent),
      rho * Math.cos(tangent) - (rho + offset) * Math.cos(angle),
    ];
  };
  const midWall = (at: number) => (a - wallAt(a, wall, at).thickness) / 2;

  return ([pull, rightTangent]) => {
    const rightCorner = onFace(last, rightTangent, a / 2);
    let state = [0, 0, rightTangent];
    for (const { from, to, curvatureAt, wallAt: wallBetween } of pieces) {
      const derivative = (s: number, [, y, tangent]: readonly number[], out: number[]) => {
        const c = Math.cos(tangent);
        const moment = pull * (rightCorner[1] - y - a / 2);
        const section = wallBetween(s);
        const { stretch, sectionTurn } = law.deform(section, curvatureAt(s), moment, -pull * (1 + c));
        out[0] = stretch * c;
        out[1] = stretch * Math.sin(tangent);
        out[2] = sectionTurn / (1 - law.shearCompliance(section) * pull * c);
      };
      state = integrateAdaptive(derivative, state, from, to, [R, R, 1]);
    }
    const [x, y, leftTangent] = state;
    // Of points on both faces, at their offsets: from the left one to the right one.
    const between = (leftOffset: number, rightOffset: number): Point => {
      const [dx, dy] = onFace(0, -leftTangent, leftOffset);
      const right = onFace(last, rightTangent, rightOffset);
      return [right[0] - (x - dx), right[1] - (y + dy)];
    };
    return {
      rise: -between(a / 2, a / 2)[1],
      opening: between(midWall(0), midWall(last))[0],
      leftTangent,
    };
  };
}

/** One Newton step in two unknowns, slopes by central differences. */
function newton(miss: (unknowns: Pair) => Pair, [p, q]: Pair, [f, g]: Pair, [dp, dq]: Pair): Pair {
  const slope = (plus: Pair, minus: Pair, step: number): Pair => [
    (plus[0] - minus[0]) / (2 * step),
    (plus[1] - minus[1]) / (2 * step),
  ];
  const [fp, gp] = slope(miss([p + dp, q]), miss([p - dp, q]), dp);
  const [fq, gq] = slope(miss([p, q + dq]), miss([p, q - dq]), dq);
  const determinant = fp * gq - fq * gp;
  return [p - (f * gq - g * fq) / determinant, q - (g * fp - f * gp) / determinant];
}
