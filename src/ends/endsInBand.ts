import { forwardLaw } from "../elastica/forwardLaw.js";
import { localPolynomial } from "../elastica/interpolate.js";
import { integrateAdaptive } from "../elastica/rungeKutta.js";
import { cutAngles } from "../shape/outline.js";
import { SpecError } from "../spec/error.js";
import type { CutRing } from "./cutRing.js";

/** The ends of a ring held part-closed. mm, N, radians; the left end is the mirror image. */
export interface HeldEnds {
  /** Distance between the ends at mid wall, as asked. */
  readonly gap: number;
  /** Pull on the band that holds it. */
  readonly pull: number;
  /** Rotation of the right end from its closed position; negative when open. */
  readonly turn: number;
  /** Angle of the faces to the symmetry axis; 0 when closed. */
  readonly faceToAxis: number;
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
  const miss = bandMiss(design, gap);
  // First trial: both unknowns in proportion to the closing.
  const share = (freeGap - gap) / (freeGap - closedGap);
  let unknowns: Pair = [share * design.load.tangentialForce, closedTangent + (1 - share) * design.ends.turn];
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
  const [pull, tangent] = unknowns;
  const turn = tangent - closedTangent;
  return { gap, pull, turn, faceToAxis: Math.abs(turn) };
}

type Pair = [number, number];

function size([first, second]: Pair): number {
  return Math.hypot(first, second);
}

/** What pull and end tangent miss at the back: its tangent, and the gap over the radius. Marches from end to back. */
function bandMiss(design: CutRing, gap: number): (unknowns: Pair) => Pair {
  const { spec, free, installed, ends } = design;
  const { radialThickness: a } = spec.section;
  const law = forwardLaw(spec, installed.centroidRadius);
  const last = free.arcLength.length - 1;
  const back = last / 2;
  const R = installed.outerRadius;
  const pieces = Array.from({ length: last - back }, (_, k) =>
    localPolynomial(free.arcLength, free.curvature, last - 1 - k),
  );
  const rho = 1 / free.curvature[last];
  const corner = cutAngles(rho, a, ends.faceToNormal).outer;
  return ([pull, endTangent]) => {
    // Height of the outer corner, where the pull leaves the ring, over the end of the centroid line.
    const height = rho * Math.cos(endTangent) - (rho + a / 2) * Math.cos(endTangent + corner);
    let state = [0, 0, endTangent];
    for (const [k, curvatureAt] of pieces.entries()) {
      const derivative = (s: number, [, y, tangent]: readonly number[], out: number[]) => {
        const c = Math.cos(tangent);
        const moment = pull * (height - y - a / 2);
        const { stretch, sectionTurn } = law.deform(curvatureAt(s), moment, -pull * (1 + c));
        out[0] = stretch * c;
        out[1] = stretch * Math.sin(tangent);
        out[2] = sectionTurn / (1 - law.shearCompliance * pull * c);
      };
      state = integrateAdaptive(derivative, state, free.arcLength[last - k], free.arcLength[last - k - 1], [
        R,
        R,
        1,
      ]);
    }
    return [state[2], (-2 * state[0] - gap) / R];
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
