import { type GivenRing, ringOfCurvature } from "../contact/givenRing.js";
import { type BarLaw, lineFlexibility } from "../curvature/law.js";
import { lawAt, stationLaws } from "../curvature/lawsAlong.js";
import { closedGeometry, type Geometry } from "../forces/geometry.js";
import { interpolateTable } from "../numeric/interpolateTable.js";
import type { BodySpec } from "../spec/ringSpec.js";
import type { BodySpecInput } from "../spec/schema.js";
import { curvatureTerms, pressureTerms } from "./pressureModes.js";

/**
 * All rings of one body, by the moment that they have in their bore: M = (1 − Σ cⱼ·termⱼ)/(f₁·r), so that
 * κ·r = 1 − f/f₁·(1 − Σ cⱼ·termⱼ) with f/f₁ the bar's flexibility over that of a plain wall. The moment does not jump with the section, and the
 * pressure is made of it alone.
 */
export interface MomentSeries {
  readonly geometry: Geometry;
  /** Of the body, mm. */
  readonly radialThickness: number;
  /** Terms beyond those of a uniform pressure. */
  readonly uneven: number;
  /** Angles of the stations from the back. */
  readonly theta: readonly number[];
  /** f/f₁ at the stations. */
  readonly share: readonly number[];
  /** f₁, 1/(N·mm²). */
  readonly plain: number;
  /** Laws and f/f₁ at other angles, non-decreasing. */
  barAt(theta: readonly number[]): { laws: BarLaw[]; share: number[] };
  /** The ring of some coefficients, its moment moved along it by an angle. */
  ringOf(coefficients: ArrayLike<number>, by?: number): GivenRing;
  /** r·M·f₁ after M″ + M: the pressure, but for a constant factor. */
  pressureOf(coefficients: ArrayLike<number>, by?: number): number[];
}

export function momentSeries(body: BodySpecInput, spec: BodySpec, uneven: number): MomentSeries {
  const { radialThickness } = spec.section;
  const geometry = closedGeometry(spec.bore, radialThickness, spec.closedGap);
  const { centroidRadius: r, centroidLimit: c } = geometry;
  const round = ringOfCurvature(body, 1 / r);
  const { wall } = round;
  const { theta } = round.free;
  const plain = lineFlexibility(lawAt(spec, r, { thickness: radialThickness }), 1 / r, r);
  const sharesOf = (laws: readonly BarLaw[]) => laws.map((law) => lineFlexibility(law, 1 / r, r) / plain);
  const share = sharesOf(stationLaws(spec, r, wall, theta.length));
  const termsAt = (terms: typeof curvatureTerms, by: number) =>
    theta.map((angle) => terms(Math.max(-c, Math.min(c, angle + by)), c, uneven));
  // Worked out once: a scan asks for hundreds of rings.
  const own = termsAt(curvatureTerms, 0);
  /** 1 − Σ cⱼ·termⱼ at the stations. */
  const lack = (terms: readonly (readonly number[])[], coefficients: ArrayLike<number>) =>
    terms.map((here) => here.reduce((left, term, j) => left - term * coefficients[j], 1));
  return {
    geometry,
    radialThickness,
    uneven,
    theta,
    share,
    plain,
    barAt(angles) {
      const at = (values: readonly number[]) => interpolateTable(theta, values, angles);
      const there = wall && {
        thickness: at(wall.thickness),
        taper: at(wall.taper),
        netShare: at(wall.netShare),
        slotDepth: wall.slotDepth,
      };
      const laws = stationLaws(spec, r, there, angles.length);
      return { laws, share: sharesOf(laws) };
    },
    ringOf: (coefficients, by = 0) => {
      const terms = by === 0 ? own : termsAt(curvatureTerms, by);
      const curvature = lack(terms, coefficients).map((value, i) => (1 - share[i] * value) / r);
      return { ...round, free: { theta, curvature } };
    },
    pressureOf: (coefficients, by = 0) => lack(termsAt(pressureTerms, by), coefficients),
  };
}
