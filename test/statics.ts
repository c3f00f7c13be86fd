import type { RingDesign } from "../src/index.js";

/** Statics by quadrature, for the tests: what a pressure does, without the library's closed forms. */

/** Gauss–Legendre nodes and weights on −1 … 1, ten points (NIST DLMF, table 3.5.2). */
const GAUSS = [
  [0.14887433898163122, 0.2955242247147529],
  [0.4333953941292472, 0.2692667193099964],
  [0.6794095682990244, 0.219086362515982],
  [0.8650633666889845, 0.1494513491505806],
  [0.9739065285171717, 0.0666713443086881],
] as const;

/** Integral, panel by panel between the breaks, each cut so that 0.2 rad is the widest: good to rounding up to order 60. */
export function integral(
  f: (x: number) => number,
  from: number,
  to: number,
  breaks: readonly number[] = [],
): number {
  const bounds = [from, ...breaks.filter((at) => at > from && at < to), to];
  let sum = 0;
  for (let k = 1; k < bounds.length; k++) {
    const pieces = Math.ceil(Math.abs(bounds[k] - bounds[k - 1]) / 0.2);
    const half = (bounds[k] - bounds[k - 1]) / pieces / 2;
    for (let piece = 0; piece < pieces; piece++) {
      const middle = bounds[k - 1] + (2 * piece + 1) * half;
      for (const [node, weight] of GAUSS) {
        sum += half * weight * (f(middle - half * node) + f(middle + half * node));
      }
    }
  }
  return sum;
}

/** Where the outer face and so the pressure ends: θL = π − asin(s/(2R)). */
export const loadLimit = ({ spec }: Pick<RingDesign, "spec">) =>
  Math.PI - Math.asin(spec.closedGap / spec.bore);

/** Σ ci·cos iθ + si·sin iθ of amplitudes that start at order 2. */
export function harmonics(theta: number, cosine: readonly number[], sine: readonly number[] = []): number {
  const sum = (amplitudes: readonly number[], wave: (x: number) => number) =>
    amplitudes.reduce((total, value, k) => total + value * wave((k + 2) * theta), 0);
  return sum(cosine, Math.cos) + sum(sine, Math.sin);
}

/** The first harmonic that a design adds to the ordered pressure, over p₀. */
export const balanceOf =
  ({ load }: RingDesign) =>
  (theta: number) =>
    load.balance * Math.cos(theta) + load.balanceSine * Math.sin(theta);

/** A coefficient's limit for a vanishing load, from three loads each half the last (Richardson). */
export function smallLoadLimit(coefficientAt: (share: number) => number): number {
  const [coarse, middle, fine] = [4, 2, 1].map(coefficientAt) as [number, number, number];
  return (8 * fine - 6 * middle + coarse) / 3;
}
