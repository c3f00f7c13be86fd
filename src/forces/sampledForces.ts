import { addCubicTrig, type Cubic } from "../numeric/cubicTrig.js";
import type { SampledPressure } from "../pressure/sampled.js";
import type { FirstHarmonic } from "../pressure/series.js";
import type { Halves, RelativeForces } from "./relativeForces.js";
import type { Stations } from "./stations.js";

/**
 * Forces of a sampled pressure, integrated from sample to sample and station to station: to rounding those of the
 * curve through the samples. The balancing harmonic is integrated in closed form.
 */
export function sampledForces(
  pressure: SampledPressure,
  balance: FirstHarmonic,
  symmetric: boolean,
  loadLimit: number,
  stations: Stations,
): Halves<RelativeForces> {
  const right = halfIntegrals(pressure, balance, 1, loadLimit, stations);
  if (symmetric) {
    // The balance leaves no shear at the back; what rounding leaves of it goes here.
    const half = forcesBetween(right, right.atLimit.sine, 0);
    return { left: half, right: half };
  }
  const left = halfIntegrals(pressure, balance, -1, loadLimit, stations);
  // Moment and shear at the back are the same, seen from either side.
  const moment = 0.5 * (right.atLimit.sine + left.atLimit.sine);
  const shear = 0.5 * (right.atLimit.cosine - left.atLimit.cosine);
  return { left: forcesBetween(left, moment, -shear), right: forcesBetween(right, moment, shear) };
}

interface HalfIntegrals {
  readonly stations: Stations;
  readonly pressure: number[];
  /** ∫p·cos α dα and ∫p·sin α dα from the back to each station, and to θL. */
  readonly cosine: number[];
  readonly sine: number[];
  readonly atLimit: { readonly cosine: number; readonly sine: number };
}

/** Integrals of one half, seen in the mirror for side −1. */
function halfIntegrals(
  { curve, mean }: SampledPressure,
  balance: FirstHarmonic,
  side: 1 | -1,
  loadLimit: number,
  stations: Stations,
): HalfIntegrals {
  const { theta, cosine, sine } = stations;
  const [e, f] = [balance.cosine, side * balance.sine];
  const knots = side === 1 ? curve.knots : curve.knots.map((knot) => -knot).reverse();
  // ∫(e·cos α + f·sin α)·cos α dα and the same with sin α, from the back.
  const firstCosine = (angle: number, c: number, s: number) => 0.5 * (e * (angle + s * c) + f * s * s);
  const firstSine = (angle: number, c: number, s: number) => 0.5 * (e * s * s + f * (angle - s * c));
  const sum = { plain: 0, cosine: 0, sine: 0 };
  const add = (from: number, to: number) => {
    const middle = (from + to) / 2;
    const cubic = curve.around(side * middle);
    addCubicTrig(side === 1 ? cubic : inMirror(cubic), middle, to - from, sum);
  };
  let nextKnot = knots.findIndex((knot) => knot > 0);
  const advance = (from: number, to: number) => {
    let at = from;
    for (; nextKnot < knots.length && knots[nextKnot] < to; nextKnot++) {
      add(at, knots[nextKnot]);
      at = knots[nextKnot];
    }
    if (to > at) add(at, to);
  };
  const pressure: number[] = [];
  const cosines: number[] = [];
  const sines: number[] = [];
  for (let k = 0; k < theta.length; k++) {
    if (k > 0) advance(theta[k - 1], theta[k]);
    const [c, s] = [cosine[k], sine[k]];
    pressure.push(curve.at(side * theta[k]) / mean + e * c + f * s);
    cosines.push(sum.cosine / mean + firstCosine(theta[k], c, s));
    sines.push(sum.sine / mean + firstSine(theta[k], c, s));
  }
  advance(theta[theta.length - 1], loadLimit);
  const [c, s] = [Math.cos(loadLimit), Math.sin(loadLimit)];
  const atLimit = {
    cosine: sum.cosine / mean + firstCosine(loadLimit, c, s),
    sine: sum.sine / mean + firstSine(loadLimit, c, s),
  };
  return { stations, pressure, cosine: cosines, sine: sines, atLimit };
}

const inMirror = ([c0, c1, c2, c3]: Cubic): Cubic => [c0, -c1, c2, -c3];

/** M = ∫p·sin(α − θ) dα and V = ∫p·cos(α − θ) dα from θ to θL, with the totals from the back given. */
function forcesBetween(half: HalfIntegrals, totalSine: number, totalCosine: number): RelativeForces {
  const { cosine, sine } = half.stations;
  const moment = new Array<number>(cosine.length);
  const shear = new Array<number>(cosine.length);
  for (let k = 0; k < cosine.length; k++) {
    const beyondSine = totalSine - half.sine[k];
    const beyondCosine = totalCosine - half.cosine[k];
    moment[k] = beyondSine * cosine[k] - beyondCosine * sine[k];
    shear[k] = beyondCosine * cosine[k] + beyondSine * sine[k];
  }
  return { pressure: half.pressure, moment, shear };
}
