import { runningIntegral } from "../numeric/quadrature.js";
import { steppedTrig } from "../numeric/steppedTrig.js";

/** Stations first … last stand at equal steps, and nothing jumps between them. */
export interface Run {
  readonly first: number;
  readonly last: number;
  readonly step: number;
}

/** Stations of the half ring, from the back (index 0) to the gap; angles in radians from the back. */
export interface Stations {
  readonly theta: number[];
  readonly cosine: number[];
  readonly sine: number[];
  /** Where the section jumps, one run ends and the next begins: that station stands twice. */
  readonly runs: readonly Run[];
}

/** The running integral takes eight points. */
const FEWEST_STEPS = 7;

/**
 * @param limit θC, radians
 * @param count steps to the half ring; a few more where breaks cut it into short runs
 * @param breaks increasing angles within 0 … limit at which the section jumps
 */
export function halfStations(limit: number, count: number, breaks: readonly number[] = []): Stations {
  if (breaks.length === 0) {
    const step = limit / count;
    const theta = new Array<number>(count + 1);
    for (let i = 0; i <= count; i++) theta[i] = i * step;
    const { cosine, sine } = steppedTrig(count, step);
    return { theta, cosine, sine, runs: [{ first: 0, last: count, step }] };
  }
  const theta: number[] = [];
  const runs: Run[] = [];
  let from = 0;
  for (const to of [...breaks, limit]) {
    const steps = Math.max(FEWEST_STEPS, Math.round((count * (to - from)) / limit));
    const step = (to - from) / steps;
    const first = theta.length;
    for (let i = 0; i < steps; i++) theta.push(from + i * step);
    theta.push(to);
    runs.push({ first, last: first + steps, step });
    from = to;
  }
  return { theta, cosine: theta.map(Math.cos), sine: theta.map(Math.sin), runs };
}

/** Running integral over θ of a quantity given at the stations, from the back; it may jump between runs. */
export function integralFromBack(f: number[], { runs }: Stations): number[] {
  if (runs.length === 1) return runningIntegral(f, runs[0].step);
  const whole: number[] = [];
  for (const { first, last, step } of runs) {
    const before = first === 0 ? 0 : whole[first - 1];
    for (const part of runningIntegral(f.slice(first, last + 1), step)) whole.push(before + part);
  }
  return whole;
}
