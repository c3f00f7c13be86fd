import type { GivenRing } from "../contact/givenRing.js";
import { forwardLaw, shearSlope } from "../elastica/forwardLaw.js";
import { type Interval, intervals } from "../elastica/ringTables.js";
import { pointOnFace } from "../ends/band.js";
import { findRoot } from "../numeric/newton.js";
import { integrateAdaptive } from "../numeric/rungeKutta.js";
import { wallAt } from "../section/wall.js";
import { SpecError } from "../spec/error.js";
import { gaugedRing } from "./freeLine.js";

/** How far the plates close; one of the two. */
export interface DiametralOptions {
  /** Width between the plates, mm, half to twice the bore; by default the bore. */
  width?: number;
  /** Gap at mid wall to which they close the ring instead, mm, 0 to the free gap. */
  gap?: number;
}

/** What a diametral gauge reads. mm, N. */
export interface DiametralReading {
  /** Force on the plates, Fd at the bore's diameter. */
  readonly force: number;
  /** Width between the plates. */
  readonly width: number;
  /** Distance between the ends at mid wall, along the plates' distance. */
  readonly gap: number;
}

/**
 * Presses a free ring between two plates, across the diameter at 90° to its gap.
 *
 * Exact for any opening within the bar theory: each plate touches where the outer face's tangent is parallel to it, as far from the
 * back on both sides; from there to the ends the ring is free, and between the plates M = F·(y₀ − y), N = −F·cos ψ,
 * V = F·sin ψ, y₀ the height of the force. A ring with unlike halves is held square by a little friction, which tilts
 * the force into the line through both places.
 *
 * Method: docs/theory/08-contact.md.
 *
 * @param given a design, or `ringOfCurvature(…)`
 * @param options width or gap to which it is pressed, mm
 * @throws SpecError for a width or gap that cannot be; NotFound when no equilibrium is found
 *
 * @example
 * diametralTest(design).force / tapeTest(design).force; // 2.255
 */
export function diametralTest(
  given: GivenRing & {
    /** Its tables, besides. */
    free: {
      /** Along the unloaded line from the left end, mm; computed where it is not given. */
      arcLength?: number[];
    };
  },
  options: DiametralOptions = {},
): DiametralReading {
  const gauged = gaugedRing(given);
  const { spec } = given;
  const byGap = options.gap !== undefined;
  if (byGap && options.width !== undefined) {
    throw new SpecError("width", options.width, "must not be given together with gap");
  }
  const field = byGap ? "gap" : "width";
  const wanted = options.gap ?? options.width ?? spec.bore;
  const [low, high] = byGap ? [0, gauged.freeGap + 1e-9 * spec.bore] : [spec.bore / 2, 2 * spec.bore];
  if (!(typeof wanted === "number" && wanted >= low && wanted <= high)) {
    throw new SpecError(field, wanted, `must be a number from ${low} to ${high.toFixed(4)} mm`);
  }
  const press = pressed(gauged.ring);
  const { centroidRadius: r, outerRadius: R } = gauged.ring.installed;
  const miss = (unknowns: readonly number[]): number[] => {
    const { turn, aside, width, gap } = press(unknowns as Unknowns);
    return [turn, aside / R, ((byGap ? gap : width) - wanted) / R];
  };
  const steps = [1e-4 * gauged.forceScale, 1e-4 * R, 1e-4];
  const trial: Unknowns = [2.2 * gauged.forceScale, (Math.PI / 2) * r, 0];
  const solution = findRoot(miss, trial, steps, "equilibrium between the plates") as Unknowns;
  const { width, gap } = press(solution);
  if (solution[0] < -1e-6 * gauged.forceScale) {
    throw new SpecError(field, wanted, "must be at most the width of the free ring: plates only press");
  }
  if (gap < -1e-9 * spec.bore) {
    throw new SpecError(
      field,
      wanted,
      `must be more: the ends would pass through each other by ${(-gap).toPrecision(3)} mm`,
    );
  }
  return { force: solution[0], width, gap };
}

/** Force; arc length from the back at which either plate touches; tilt of the force from square. */
type Unknowns = [force: number, reach: number, tilt: number];

interface Pressed {
  /** What the tangent misses at the left plate, radians. */
  readonly turn: number;
  /** How far the left place lies beside the force's line, mm. */
  readonly aside: number;
  readonly width: number;
  readonly gap: number;
}

/** Shape between the plates, starting at the right one with the tangent upright. */
function pressed(ring: ReturnType<typeof gaugedRing>["ring"]): (unknowns: Unknowns) => Pressed {
  const { spec, free, installed, ends, wall } = ring;
  const { radialThickness: a } = spec.section;
  const law = forwardLaw(spec, installed.centroidRadius);
  const R = installed.outerRadius;
  const pieces = intervals({
    arcLength: free.arcLength,
    curvature: free.curvature,
    nominal: a,
    wall,
  });
  /** Under a force through the outer face at the start. */
  const march = (start: number[], from: number, to: number, force: number, tilt: number) => {
    const [atX, atY] = [start[0] + a / 2, start[1]];
    const derivative =
      (piece: Interval) =>
      (s: number, [x, y, tangent]: readonly number[], out: number[]) => {
        const section = piece.wallAt(s);
        const moment = force * ((atY - y) * Math.cos(tilt) + (atX - x) * Math.sin(tilt));
        const normal = -force * Math.cos(tangent + tilt);
        const { stretch, sectionTurn } = law.deform(section, piece.curvatureAt(s), moment, normal);
        out[0] = stretch * Math.cos(tangent);
        out[1] = stretch * Math.sin(tangent);
        out[2] =
          (sectionTurn + shearSlope(law, piece, s) * force * Math.sin(tangent + tilt)) /
          (1 + law.shearCompliance(section) * normal);
      };
    const [low, high] = [Math.min(from, to), Math.max(from, to)];
    const crossed = pieces.filter((piece) => piece.to < high && piece.from > low);
    if (to < from) crossed.reverse();
    let state = start;
    for (const piece of crossed) {
      const [start, end] = [Math.max(piece.to, low), Math.min(piece.from, high)];
      const [here, there] = to < from ? [end, start] : [start, end];
      state = integrateAdaptive(derivative(piece), state, here, there, [R, R, 1]);
    }
    return state;
  };
  const last = free.curvature.length - 1;
  const middleOfEnd = (at: number, [x, y, tangent]: readonly number[], side: 1 | -1) => {
    const offset = (a - wallAt(a, wall, at).thickness) / 2;
    const [dx, dy] = pointOnFace(1 / free.curvature[at], side * tangent, offset, ends.faceToNormal);
    return [x + side * dx, y + dy];
  };
  /** Beyond a plate there is no shear force: the sections go on as they stand, the line turns by what shear had turned it. */
  const unsheared = ([x, y, tangent]: readonly number[], s: number, force: number, tilt: number) => {
    const there = pieces.find((piece) => piece.to <= s && s <= piece.from);
    const compliance = there ? law.shearCompliance(there.wallAt(s)) : 0;
    return [x, y, tangent - compliance * force * Math.sin(tangent + tilt)];
  };
  const back = free.arcLength[last / 2];
  return ([force, reach, tilt]) => {
    const start = [0, 0, Math.PI / 2];
    const across = march(start, back + reach, back - reach, force, tilt);
    const [right, left] = [back + reach, back - reach];
    const toRight = unsheared(start, right, force, tilt);
    const toLeft = unsheared(across, left, force, tilt);
    const [rightX] = middleOfEnd(last, march(toRight, right, free.arcLength[last], 0, 0), 1);
    const [leftX] = middleOfEnd(0, march(toLeft, left, 0, 0, 0), -1);
    const width = a - across[0];
    return {
      turn: across[2] + Math.PI / 2,
      aside: across[1] * Math.cos(tilt) - width * Math.sin(tilt),
      width,
      gap: rightX - leftX,
    };
  };
}
