import { type Arc, tangentArcs } from "../curves/arcs.js";
import { closedCurve } from "../curves/closedCurve.js";
import { cutFace } from "../curves/contour.js";
import { curveThrough, partOf } from "../curves/curve.js";
import { type CurveFit, fitContour } from "../curves/fitContour.js";
import { DEFAULT_TOLERANCE, toleranceFor } from "../curves/fitRing.js";
import {
  type AddedMetal,
  endFacePoint,
  type FreeBody,
  NO_METAL,
  ringFaces,
  type SectionLine,
} from "../curves/ringFaces.js";
import { derivative } from "../numeric/finiteDifference.js";
import type { Point } from "../numeric/point.js";
import { runningIntegral } from "../numeric/quadrature.js";
import { smoothRuns } from "../numeric/smoothRuns.js";
import { SpecError } from "../spec/error.js";
import { parse } from "../spec/issues.js";
import { checkAdded } from "./checkAdded.js";
import { type HeatSetInput, heatSetSchema } from "./makingSchema.js";

/**
 * Shape setting on a mandrel: wire of one curvature is put on a mandrel of another and soaked, and of the elastic change a share ρ remains,
 * by which it springs back: free = mandrel − ρ·(mandrel − before). Common practice, no source; ρ is found by trial.
 *
 * @param mandrel curvature on the mandrel, 1/mm
 * @param before curvature of the wire before it is put on, 1/mm; 0 if straight
 * @param remaining ρ, 0 to 1
 * @returns free curvature after the soak, 1/mm
 *
 * @example
 * 1 / curvatureAfterSoak(1 / 56, 1 / 60, 0.1); // 56.38, mm
 */
export const curvatureAfterSoak = (mandrel: number, before: number, remaining: number) =>
  mandrel - remaining * (mandrel - before);

/**
 * The inverse of {@link curvatureAfterSoak}: the mandrel for a wanted free curvature.
 *
 * @param free wanted free curvature, 1/mm
 * @param before curvature of the wire before it is put on, 1/mm; 0 if straight
 * @param remaining ρ, 0 to below 1
 * @returns curvature on the mandrel, 1/mm
 *
 * @example
 * 1 / mandrelCurvature(1 / 56, 1 / 60, 0.1); // 55.59, mm
 */
export const mandrelCurvature = (free: number, before: number, remaining: number) =>
  (free - remaining * before) / (1 - remaining);

/** A ring on its mandrel: its line from the left end over the back to the right end. mm, radians. */
export interface HeatSet {
  /** Angle that each place takes in the bore, from the back. */
  readonly theta: number[];
  /** Of the line. */
  readonly x: number[];
  /** Of the line; the back is where that of the free ring is. */
  readonly y: number[];
  /** Angle of the tangent to +x. */
  readonly tangent: number[];
  /** 1/mm. */
  readonly curvature: number[];
  /** Gap at mid wall on the mandrel. */
  readonly gap: number;
  /** Free gap after the soak. */
  readonly freeGap: {
    /** With the share as given: that of the design. */
    readonly expected: number;
    /** If as much less remains as the uncertainty says. */
    readonly ifLess: number;
    /** If as much more remains. */
    readonly ifMore: number;
  };
  /** Outline of the mandrel as arcs that touch: the ring's inner face, closed over the gap with continuous curvature. */
  readonly mandrel: CurveFit<Arc>;
}

/**
 * The mandrel for shape setting, so that the ring comes off it with its free shape.
 *
 * Method: docs/theory/10-making.md.
 *
 * @param ring a design
 * @param options `remaining`: ρ, 0 to 0.95; `before`: "straight", or the wire's mid-wall radius (mm) before it is put on;
 * `uncertainty` of ρ, 0 to 0.5, default 0.02
 * @param added metal on the faces as set, mm; none if not given
 * @param tolerance largest distance of the mandrel's arcs from the curve, mm: 0.00001 to 1/100 of the bore; default 0.001
 * @throws SpecError when a value is out of range, or the ends would overlap on the mandrel
 * @throws NotFound when no arcs come near enough to the mandrel
 *
 * @example
 * heatSet(design, { remaining: 0.1, before: "58 mm" }).gap; // 11.46, mm
 */
export function heatSet(
  ring: FreeBody,
  options: HeatSetInput,
  added: AddedMetal = NO_METAL,
  tolerance: number = DEFAULT_TOLERANCE,
): HeatSet {
  const { remaining, before, uncertainty } = parse(heatSetSchema, options, "options");
  checkAdded(ring, added);
  toleranceFor(ring, { tolerance });
  const { free } = ring;
  const back = free.theta.indexOf(0);
  const initial = before === "straight" ? 0 : 1 / before;
  // Tangents turn by curvature times length, so the relations between curvatures are also theirs.
  const unset = free.arcLength.map((s) => (s - free.arcLength[back]) * initial);
  const onMandrel = (values: readonly number[], from: (i: number) => number) =>
    values.map((value, i) => mandrelCurvature(value, from(i), remaining));
  const tangent = onMandrel(free.tangent, (i) => unset[i]);
  const line = lineOfTangent(free, tangent);
  const gap = gapOf(ring, line);
  const curvature = onMandrel(free.curvature, () => initial);
  if (curvature.some((value) => value <= 0)) {
    throw new SpecError(
      "remaining",
      remaining,
      "too much remains of the bending from this wire: the mandrel would have to be hollow; a wire coiled nearer to the free ring's radius needs less",
    );
  }
  // At the corners, too: the faces may lean together; and past one turn the ends meet again.
  const narrowest = Math.min(...[-1, 0, 1].map((where) => gapOf(ring, line, where)));
  if (!(narrowest > 0 && tangent[tangent.length - 1] - tangent[0] < 3 * Math.PI)) {
    throw new SpecError(
      "remaining",
      remaining,
      "too much remains of the bending from this wire: on the mandrel the ends would pass each other; a wire already coiled nearer to the free ring's radius needs less",
    );
  }
  const gapIf = (share: number) => {
    const after = tangent.map((angle, i) => curvatureAfterSoak(angle, unset[i], share));
    return gapOf(ring, lineOfTangent(free, after));
  };
  return {
    theta: [...free.theta],
    x: [...line.x],
    y: [...line.y],
    tangent,
    curvature,
    gap,
    freeGap: {
      expected: gapIf(remaining),
      ifLess: gapIf(Math.max(0, remaining - uncertainty)),
      ifMore: gapIf(Math.min(1, remaining + uncertainty)),
    },
    mandrel: mandrelOutline(ring, line, added, tolerance),
  };
}

/** The line that has these tangents along the free line's length; its back is at the free line's. */
function lineOfTangent({ theta, arcLength, y }: FreeBody["free"], tangent: readonly number[]): SectionLine {
  const back = theta.indexOf(0);
  const along = (component: (angle: number) => number, atBack: number) => {
    const whole: number[] = [];
    for (const [first, last] of smoothRuns(theta)) {
      const step = (theta[last] - theta[first]) / (last - first);
      const pace = derivative(arcLength.slice(first, last + 1), step);
      const rates = pace.map((rate, k) => rate * component(tangent[first + k]));
      const before = first === 0 ? 0 : whole[first - 1];
      for (const part of runningIntegral(rates, step)) whole.push(before + part);
    }
    const zero = whole[back];
    return whole.map((value) => value - zero + atBack);
  };
  return { x: along(Math.cos, 0), y: along(Math.sin, y[back]), tangent };
}

/** Distance between the ends at the middle of their faces, or at a share of the way to their outer corners. */
function gapOf(ring: FreeBody, line: SectionLine, share = 0): number {
  const [left, right] = ([-1, 1] as const).map((side) => endFacePoint(ring, line, side, share));
  // Negative where the ends have passed each other.
  return Math.sign(right[0] - left[0]) * Math.hypot(right[0] - left[0], right[1] - left[1]);
}

function mandrelOutline(
  ring: FreeBody,
  { x, y, tangent }: SectionLine,
  added: AddedMetal,
  tolerance: number,
): CurveFit<Arc> {
  const { spec, wall, free } = ring;
  const a = spec.section.radialThickness;
  const inner = x.map((value, i): Point => {
    const offset = a / 2 - (wall?.thickness[i] ?? a) - added.inner;
    return [value + offset * Math.sin(tangent[i]), y[i] - offset * Math.cos(tangent[i])];
  });
  // Cut where the free ring's inner face is.
  const { from, to } = cutFace(ring, ringFaces(ring, added).inner, added.ends);
  const curve = closedCurve(partOf(curveThrough(free.theta, inner), from, to));
  return fitContour([{ curve }], tangentArcs, true, tolerance);
}
