import type { RingDesign } from "../design/ringDesign.js";
import { findRoot } from "../numeric/newton.js";
import { secondMoment } from "../section/rectangle.js";
import { wallAt } from "../section/wall.js";
import { SpecError } from "../spec/error.js";
import { inscribedCircle } from "./inscribedCircle.js";
import type { OpenShape, openMarch } from "./openMarch.js";

/** The ways to spread a ring until a diameter passes: each finds the load and the shape in equilibrium under it. */

type March = ReturnType<typeof openMarch>;

/** A ring held open. N, N·mm, mm; see `Spread`. */
export interface Held {
  readonly shape: OpenShape;
  readonly load: { readonly force?: number; readonly couple?: number; readonly overlap?: number };
}

/** Couple that opens a ring of one section by a radius, for a first trial; N·mm. */
function typicalCouple({ spec, installed }: RingDesign, opening: number): number {
  const { radialThickness: a, axialHeight: h } = spec.section;
  return (spec.material.youngsModulus * secondMoment(a, h) * opening) / installed.centroidRadius ** 2;
}

/**
 * Tips pulled apart along one line, at mid wall.
 *
 * @param diameter to pass, mm
 * @param opening by which the ring's inner radius is too small, mm, for a first trial
 */
export function byHand(ring: RingDesign, march: March, diameter: number, opening: number): Held {
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

/** Bent open by couples at both ends. */
export function byPliers(ring: RingDesign, march: March, diameter: number, opening: number): Held {
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

/** Riding on a cylinder with its tips and its back; for rings whose halves are alike. */
export function onPlates(ring: RingDesign, march: March, diameter: number, opening: number): Held {
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
