import * as v from "valibot";
import type { RingDesign } from "../design/ringDesign.js";
import { findRoot } from "../numeric/newton.js";
import { secondMoment } from "../section/rectangle.js";
import { wallAt } from "../section/wall.js";
import { SpecError } from "../spec/error.js";
import { positive, quantity } from "../spec/fields.js";
import { parse } from "../spec/issues.js";
import { type FibreStress, fibreStresses } from "../stress/fibreStress.js";
import { inscribedCircle } from "./inscribedCircle.js";
import { type OpenShape, openMarch } from "./openMarch.js";
import { setLeft } from "./setLeft.js";

/** How the ring is spread: tips pulled apart by hand, bent open by ring pliers that grip its ends, or riding on the piston on thin plates. */
export type SpreadBy = "hand" | "pliers" | "plates";

export const spreadSchema = () =>
  v.strictObject({
    diameter: positive("length", "diameter that the ring must pass"),
    by: v.optional(
      v.pipe(
        v.picklist(["hand", "pliers", "plates"], 'must be "hand", "pliers" or "plates"'),
        v.description("tips pulled apart, ends bent apart, or riding on thin plates"),
      ),
      "hand",
    ),
    plate: v.optional(quantity("length", { min: 0, max: 10 }, "thickness of the plates"), 0),
    yieldStress: v.optional(positive("pressure", "yield stress of the ring; the material's if not given")),
  });

/** How far a ring is to be spread, and how: see docs/reference/inputs.md#spreading. */
export type SpreadOptions = v.InferInput<ReturnType<typeof spreadSchema>>;

/** A ring spread wide enough to pass a diameter. mm, N, MPa, radians. */
export interface Spread {
  /** As asked for. */
  readonly by: SpreadBy;
  /** As asked for. */
  readonly diameter: number;
  /** Pull on each tip, by hand; radial force under each tip, on plates. */
  readonly force?: number;
  /** On plates: how deep the sides of the ring would lie inside the cylinder; in truth they rest on it, and the stress is some per cent lower. */
  readonly overlap?: number;
  /** Couple on each end, N·mm, by pliers. */
  readonly couple?: number;
  /** Distance between the ends at mid wall while it is spread. */
  readonly tipGap: number;
  /** How much that is more than the free gap; 0 where the free ring passes. */
  readonly opened: number;
  /** Largest stress while it is spread and its place from the back; inner fibre in tension. */
  readonly stress: FibreStress & {
    /** Of either fibre, without sign. */
    readonly max: number;
    /** Where, radians from the back. */
    readonly theta: number;
  };
  /** Where a yield stress is given. */
  readonly yield?: {
    /** Largest stress over it. */
    readonly share: number;
    /** By how much wider the free gap stays; an estimate. */
    readonly set: number;
  };
  /** The spread ring's line from the left end to the right one, in the ring's frame: back at (0, −r), tangent +x. */
  readonly x: number[];
  /** As many. */
  readonly y: number[];
}

/** How much wider or narrower than its bore a diameter may be. */
const WIDEST = 1.15;

/**
 * The opening a ring needs to pass over its piston, and the stress that costs, by the elastica of its true free shape: exact for any opening
 * within the bar theory.
 *
 * The ring passes where the diameter fits as a circle inside its inner face, ends included. By hand the tips are pulled apart along one line at
 * mid wall; pliers bend it by couples at both ends; on plates it touches the cylinder, plates included, with its tips and its back,
 * without friction; that its sides may rest on it, too, is left out, which errs on the safe side (see `overlap`). The set is an estimate: what Gardiner's relation leaves of each place's bending, as for springback, if the opening is forced.
 *
 * Method: docs/theory/09-sections-and-engine.md.
 *
 * @param ring a designed ring
 * @param options diameter to pass; how; plate thickness; yield stress
 * @throws SpecError when an option is out of range, or the halves differ and plates are asked for; NotFound with the residual when no equilibrium is
 * found
 *
 * @example
 * spreadRing(design, { diameter: 117.4 }).stress.max; // 644.5, MPa
 */
export function spreadRing(ring: RingDesign, options: SpreadOptions): Spread {
  const { diameter, by, plate, yieldStress = ring.spec.material.yieldStress } = parse(spreadSchema, options);
  const { spec, free } = ring;
  const widest = WIDEST * spec.bore;
  if (!(diameter <= widest)) {
    throw new SpecError("diameter", options.diameter, `must be at most ${widest} mm, 15 % over the bore`);
  }
  const march = openMarch(ring);
  const unloaded = march({ force: [0, 0], couple: 0, offset: 0 }, free.tangent[free.tangent.length - 1]);
  const inside = 2 * inscribedCircle(unloaded.inner).radius;
  /** What it must pass, plates included. */
  const needed = by === "plates" ? diameter + 2 * plate : diameter;
  if (inside >= needed) {
    return { ...spreadOf(ring, by, diameter, unloaded, {}, yieldStress), tipGap: free.gap, opened: 0 };
  }
  const how = { hand: byHand, pliers: byPliers, plates: onPlates }[by];
  const { shape, load } = how(ring, march, needed, (needed - inside) / 2);
  return spreadOf(ring, by, diameter, shape, load, yieldStress);
}

type March = ReturnType<typeof openMarch>;
interface Held {
  readonly shape: OpenShape;
  readonly load: { readonly force?: number; readonly couple?: number; readonly overlap?: number };
}

/** Couple that opens a ring of one section by a radius, for a first trial; N·mm. */
function typicalCouple({ spec, installed }: RingDesign, opening: number): number {
  const { radialThickness: a, axialHeight: h } = spec.section;
  return (spec.material.youngsModulus * secondMoment(a, h) * opening) / installed.centroidRadius ** 2;
}

function byHand(ring: RingDesign, march: March, diameter: number, opening: number): Held {
  const r = ring.installed.centroidRadius;
  const scale = typicalCouple(ring, opening) / r;
  const { spec, wall, free } = ring;
  const last = free.theta.length - 1;
  const offset =
    (spec.section.radialThickness - wallAt(spec.section.radialThickness, wall, last).thickness) / 2;
  const shapeOf = ([pull, tangent]: readonly number[]) =>
    march({ force: [pull * scale, 0], couple: 0, offset }, tangent);
  const miss = (unknowns: readonly number[]) => {
    const shape = shapeOf(unknowns);
    const rise = shape.middles.left[1] - shape.middles.right[1];
    return [rise / r, (2 * inscribedCircle(shape.inner).radius - diameter) / diameter];
  };
  const trial = [1, free.tangent[last] - (2 * opening) / r];
  const found = findRoot(miss, trial, [1e-3, 1e-4], "equilibrium of the ring spread by hand");
  return { shape: shapeOf(found), load: { force: found[0] * scale } };
}

function byPliers(ring: RingDesign, march: March, diameter: number, opening: number): Held {
  const scale = typicalCouple(ring, opening);
  const { tangent } = ring.free;
  const shapeOf = (couple: number) =>
    march({ force: [0, 0], couple: -couple * scale, offset: 0 }, tangent[tangent.length - 1]);
  const miss = ([couple]: readonly number[]) => [
    (2 * inscribedCircle(shapeOf(couple).inner).radius - diameter) / diameter,
  ];
  const [found] = findRoot(miss, [1], [1e-3], "equilibrium of the ring in the pliers");
  return { shape: shapeOf(found), load: { couple: found * scale } };
}

function onPlates(ring: RingDesign, march: March, diameter: number, opening: number): Held {
  const { free, spec, installed, wall } = ring;
  if (!hasAlikeHalves(ring)) {
    throw new SpecError("by", "plates", 'must be "hand" or "pliers" for a ring whose halves differ');
  }
  const a = spec.section.radialThickness;
  const last = free.theta.length - 1;
  const back = free.theta.indexOf(0);
  const rho = diameter / 2;
  const offset = a / 2 - wallAt(a, wall, last).thickness;
  const scale = typicalCouple(ring, opening) / installed.centroidRadius;
  const shapeOf = ([force, tangent, beta]: readonly number[]) =>
    march(
      { force: [force * scale * Math.sin(beta), force * scale * Math.cos(beta)], couple: 0, offset },
      tangent,
    );
  const miss = (unknowns: readonly number[]) => {
    const shape = shapeOf(unknowns);
    // Stations run from the right end; the cylinder touches the inner face at the back.
    const touched = shape.inner[last - back];
    const [tipX, tipY] = shape.inner[0];
    return [
      shape.tangent[last - back],
      (tipX - touched[0]) / rho - Math.sin(unknowns[2]),
      (tipY - touched[1] - rho) / rho - Math.cos(unknowns[2]),
    ];
  };
  const gapAngle = (free.gap / 2 + 3 * opening) / rho;
  const trial = [0.6, free.tangent[last] - (2 * opening) / rho, gapAngle];
  const found = findRoot(miss, trial, [1e-3, 1e-4, 1e-4], "equilibrium of the ring on plates");
  const shape = mirroredHalf(shapeOf(found), last - back);
  const [cx, cy] = [shape.inner[last - back][0], shape.inner[last - back][1] + rho];
  const least = shape.inner.reduce((low, [x, y]) => Math.min(low, Math.hypot(x - cx, y - cy)), rho);
  return { shape, load: { force: found[0] * scale, overlap: rho - least } };
}

/** Whether a ring is its own mirror image. */
export function hasAlikeHalves({ free }: Pick<RingDesign, "free">): boolean {
  const last = free.curvature.length - 1;
  return free.curvature.every(
    (kappa, i) => Math.abs(kappa - free.curvature[last - i]) <= 1e-12 * Math.abs(kappa),
  );
}

/** A shape from its right half, up to the back. */
function mirroredHalf(shape: OpenShape, back: number): OpenShape {
  const axis = shape.x[back];
  const both = <T>(values: readonly T[], seen: (value: T) => T): T[] => [
    ...values.slice(0, back + 1),
    ...values.slice(0, back).reverse().map(seen),
  ];
  const same = (value: number) => value;
  const point = ([x, y]: readonly [number, number]): [number, number] => [2 * axis - x, y];
  return {
    x: both(shape.x, (x) => 2 * axis - x),
    y: both(shape.y, same),
    tangent: both(shape.tangent, (angle) => -angle),
    moment: both(shape.moment, same),
    normal: both(shape.normal, same),
    bending: both(shape.bending, same),
    inner: both(shape.inner, point),
    middles: { right: shape.middles.right, left: point(shape.middles.right) },
  };
}

function spreadOf(
  ring: RingDesign,
  by: SpreadBy,
  diameter: number,
  shape: OpenShape,
  load: Held["load"],
  yieldStress: number | undefined,
): Spread {
  const { free, spec, wall, installed } = ring;
  const last = free.theta.length - 1;
  const stressAt = fibreStresses(spec, wall);
  let stress = { outer: 0, inner: 0, max: 0, theta: 0 };
  for (let k = 0; k <= last; k++) {
    const i = last - k;
    const { outer, inner } = stressAt(i, shape.moment[k], shape.normal[k], free.curvature[i]);
    const max = Math.max(Math.abs(outer), Math.abs(inner));
    if (max > stress.max * (1 + 1e-12)) stress = { outer, inner, max, theta: free.theta[i] };
  }
  const { left, right } = shape.middles;
  const tipGap = Math.hypot(right[0] - left[0], right[1] - left[1]);
  const back = last - free.theta.indexOf(0);
  // Into the ring's frame: back at (0, −r) with its tangent along +x.
  const [c, s] = [Math.cos(shape.tangent[back]), -Math.sin(shape.tangent[back])];
  const placed = shape.x.map((x, k) => {
    const [dx, dy] = [x - shape.x[back], shape.y[k] - shape.y[back]];
    return [dx * c - dy * s, dx * s + dy * c - installed.centroidRadius];
  });
  placed.reverse();
  return {
    by,
    diameter,
    ...load,
    tipGap,
    opened: tipGap - free.gap,
    stress,
    ...(yieldStress !== undefined && {
      yield: { share: stress.max / yieldStress, set: setLeft(ring, shape.bending, yieldStress) },
    }),
    x: placed.map(([x]) => x),
    y: placed.map(([, y]) => y),
  };
}
