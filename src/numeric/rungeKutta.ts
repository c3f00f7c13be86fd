import { NotFound } from "./notFound.js";

/** dy/dt at t, written into `out`. */
export type Derivative = (t: number, y: readonly number[], out: number[]) => void;

/** Dormand–Prince 5(4): nodes, stages, and the difference between the two orders. */
const NODES = [0, 1 / 5, 3 / 10, 4 / 5, 8 / 9, 1, 1];
const STAGES = [
  [],
  [1 / 5],
  [3 / 40, 9 / 40],
  [44 / 45, -56 / 15, 32 / 9],
  [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729],
  [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656],
  [35 / 384, 0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84],
];
const ERROR = [71 / 57600, 0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40];

const MOST_STEPS = 100000;

/**
 * Integrates dy/dt = f(t, y) from t0 to t1 by the adaptive Dormand–Prince method of order 5(4).
 *
 * @param f the derivative
 * @param y0 start values; not changed
 * @param t0 start
 * @param t1 end; may be below t0
 * @param scales size of each component; the local error of each step is kept below 1e-13 of it
 * @returns values at t1
 * @throws NotFound when the step shrinks without meeting the tolerance
 *
 * Source: J. R. Dormand & P. J. Prince, J. Comput. Appl. Math. 6 (1980), table 2 (from memory; tested against closed forms).
 */
export function integrateAdaptive(
  f: Derivative,
  y0: readonly number[],
  t0: number,
  t1: number,
  scales: readonly number[],
): number[] {
  const tolerance = 1e-13;
  const size = y0.length;
  const slopes = STAGES.map(() => new Array<number>(size).fill(0));
  let y = [...y0];
  // Written over stage by stage; the last stage's is the new state.
  let trial = [...y0];
  let t = t0;
  let step = t1 - t0;
  f(t, y, slopes[0]);
  for (let count = 0; t !== t1; count++) {
    if (count > MOST_STEPS)
      throw new NotFound(`integration did not reach ${t1}: stopped at ${t} with step ${step}`);
    const lastStep = Math.abs(step) >= Math.abs(t1 - t);
    if (lastStep) step = t1 - t;
    for (let stage = 1; stage < STAGES.length; stage++) {
      const weights = STAGES[stage];
      for (let i = 0; i < size; i++) {
        let sum = 0;
        for (let k = 0; k < stage; k++) sum += weights[k] * slopes[k][i];
        trial[i] = y[i] + step * sum;
      }
      f(t + NODES[stage] * step, trial, slopes[stage]);
    }
    let error = 0;
    for (let i = 0; i < size; i++) {
      let sum = 0;
      for (let k = 0; k < ERROR.length; k++) sum += ERROR[k] * slopes[k][i];
      error = Math.max(error, Math.abs(step * sum) / (scales[i] * tolerance));
    }
    if (error <= 1) {
      t = lastStep ? t1 : t + step;
      [y, trial] = [trial, y];
      // The last stage stands at the new point.
      [slopes[0], slopes[6]] = [slopes[6], slopes[0]];
    }
    step *= Math.min(5, Math.max(0.2, 0.9 * (error + 1e-10) ** -0.2));
  }
  return y;
}
