/** A cubic c0 + c1·u + c2·u² + c3·u³, u from some point. */
export type Cubic = readonly [c0: number, c1: number, c2: number, c3: number];

/** Coefficients of δ²ʲ, j = 0 … 4, in the moments of cosine and sine over −δ … δ, each without its leading power. */
const series = (offset: 0 | 1, power: number) =>
  Array.from({ length: 5 }, (_, j) => {
    let factorial = 1;
    for (let k = 2; k <= 2 * j + offset; k++) factorial *= k;
    return (2 * (-1) ** j) / (factorial * (2 * j + power));
  });
const COSINE = series(0, 1);
const U2_COSINE = series(0, 3);
const U_SINE = series(1, 3);
const U3_SINE = series(1, 5);

/** Widest panel: at half of it the first neglected term of every series is below 1e-17 of the sum. */
export const WIDEST_PANEL = 0.2;

/** Integrals of a function, of it times cosine, and of it times sine. */
export interface TrigIntegrals {
  plain: number;
  cosine: number;
  sine: number;
}

/**
 * Adds the integrals of a cubic, plain and times cos α and sin α, over one panel; exact to rounding.
 *
 * @param cubic in powers of α − middle
 * @param middle of the panel, radians
 * @param width of the panel, radians, at most {@link WIDEST_PANEL}
 * @param sum to which they are added
 */
export function addCubicTrig(cubic: Cubic, middle: number, width: number, sum: TrigIntegrals): void {
  const delta = 0.5 * width;
  const square = delta * delta;
  const cube = delta * square;
  // Even powers meet the cosine of α − middle, odd ones its sine.
  const even = cubic[0] * delta * horner(COSINE, square) + cubic[2] * cube * horner(U2_COSINE, square);
  const odd = cube * (cubic[1] * horner(U_SINE, square) + cubic[3] * square * horner(U3_SINE, square));
  const c = Math.cos(middle);
  const s = Math.sin(middle);
  sum.plain += width * (cubic[0] + (cubic[2] * square) / 3);
  sum.cosine += even * c - odd * s;
  sum.sine += even * s + odd * c;
}

function horner(c: readonly number[], x: number): number {
  return c[0] + x * (c[1] + x * (c[2] + x * (c[3] + x * c[4])));
}

/**
 * Cuts an interval at every break inside it, and further into panels no wider than {@link WIDEST_PANEL}.
 *
 * @param from start
 * @param to end, > from
 * @param breaks increasing
 * @param visit called with start and end of each panel, in order
 */
export function eachPanel(
  from: number,
  to: number,
  breaks: readonly number[],
  visit: (from: number, to: number) => void,
): void {
  let start = from;
  const reach = (at: number) => {
    const count = Math.ceil((at - start) / WIDEST_PANEL);
    const step = (at - start) / count;
    for (let k = 0; k < count; k++) visit(start + k * step, k === count - 1 ? at : start + (k + 1) * step);
    start = at;
  };
  for (const at of breaks) if (at > start && at < to) reach(at);
  reach(to);
}
