import { OUTCOMES, type Outcome } from "../src/batch/variationSchema.js";
import {
  type BoreInput,
  closeInBore,
  designRing,
  type GivenRing,
  planVariation,
  type RingSpecInput,
  ringOfCurvature,
  type TolerancesInput,
  tapeTest,
  variationSlice,
} from "../src/index.js";

/** Rings with deviations, as `variation` has them, and built here. */

export type Outcomes = Record<Outcome, number>;
/** The one deviation that a tolerance without width leaves. */
export const just = (deviation: number) => ({ lower: deviation, upper: deviation });

export function outcomesAt(spec: RingSpecInput, tolerances: TolerancesInput, sensitivity = 0.002): Outcomes {
  const plan = planVariation(spec, tolerances, { samples: 8, sensitivity });
  const [variant] = variationSlice(plan, { index: 1, of: 8 }).rows[0];
  if (typeof variant === "string") throw new Error(variant);
  return Object.fromEntries(OUTCOMES.map((name, k) => [name, variant[k]])) as Outcomes;
}

/** Through the four stations nearest to `at`, by Lagrange's formula; beyond the ends as there. */
function between(t: readonly number[], f: readonly number[], at: number): number {
  const x = Math.max(t[0], Math.min(t[t.length - 1], at));
  const after = t.findIndex((one) => one >= x);
  const from = Math.max(0, Math.min(t.length - 4, after - 2));
  const four = [from, from + 1, from + 2, from + 3];
  return four.reduce(
    (sum, i) => sum + f[i] * four.reduce((all, k) => (k === i ? all : (all * (x - t[k])) / (t[i] - t[k])), 1),
    0,
  );
}

export interface Change {
  radialThickness?: number;
  axialHeight?: number;
  youngsModulus?: number;
  closedGap?: number;
  /** Share by which all of the bend is more. */
  more?: number;
  /** By which the free radius is wider, mm, at an angle from the back. */
  wider?: (theta: number) => number;
}

/** A ring of wire bent to the drawing's curvature at each length from the back, of its own dimensions. */
export function ownRing(input: RingSpecInput, change: Change): GivenRing {
  const { spec, free, installed } = designRing(input);
  const { section, material, bore, closedGap, theory, stations } = spec;
  const wall = section.radialThickness + (change.radialThickness ?? 0);
  const [drawn, own] = [installed.centroidRadius, (bore - wall) / 2];
  return ringOfCurvature(
    {
      bore,
      theory,
      stations,
      closedGap: closedGap + (change.closedGap ?? 0),
      section: {
        ...section,
        radialThickness: wall,
        axialHeight: section.axialHeight + (change.axialHeight ?? 0),
      },
      material: { ...material, youngsModulus: material.youngsModulus + (change.youngsModulus ?? 0) },
    },
    (theta) => {
      const bent = between(free.theta, free.curvature, (theta * own) / drawn);
      const more = bent + (change.more ?? 0) * (bent - 1 / drawn);
      return 1 / (1 / more + (change.wider?.(theta) ?? 0));
    },
  );
}

/** The share of more bend at which the free gap is wider by a length, by the secant rule. */
export function bendForGap(input: RingSpecInput, length: number): number {
  const gapAt = (more: number) => tapeTest(ownRing(input, { more })).freeGap;
  const drawn = gapAt(0);
  let [one, other] = [0, length / drawn];
  for (let k = 0; k < 4; k++) {
    const slope = (gapAt(other) - gapAt(one)) / (other - one);
    [one, other] = [other, other - (gapAt(other) - drawn - length) / slope];
  }
  return other;
}

/** The same outcomes by the exact tape, the contact, and the thin bar's stress. */
export function ownOutcomes(ring: GivenRing, bore: BoreInput = {}): Outcomes {
  const { theta, pressure, moment, closedGap, contactShare } = closeInBore(ring, bore);
  const { force, freeGap } = tapeTest(ring);
  const limit = theta[theta.length - 1] - Math.PI / 18;
  const along = pressure.filter((_, i) => Math.abs(theta[i]) < limit);
  const { radialThickness: a, axialHeight: h } = ring.spec.section;
  return {
    tangentialForce: force,
    freeGap,
    closedGap,
    contactShare,
    lowestPressure: Math.min(...along),
    highestPressure: Math.max(...along),
    closingStress: (6 * Math.max(...moment.map(Math.abs))) / (h * a * a),
  };
}
