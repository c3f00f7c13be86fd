/** One limit, with what the proposal reaches. */
export interface LimitMet {
  /** What is limited, with its unit. */
  readonly limit: string;
  /** What the proposal reaches, in that unit. */
  readonly value: number;
  /** What would be good, in words. */
  readonly allowed: string;
  /** Whether it is. */
  readonly met: boolean;
  /** Where the limit comes from. */
  readonly source: string;
}

const ZEYNETDINOV = "usual range, Zeynetdinov, Dyakov & Yarygin, p. 90";

/** Mean pressures of compression rings, MPa; largest usual closing and fitting stress, MPa. */
export const USUAL = { pressure: [0.11, 0.37] as const, closing: 450, fitting: 500 };

/** @param own limit of the material, if it has one */
export function atMost(limit: string, value: number, own: number | undefined, usual: number): LimitMet {
  const most = own ?? usual;
  return {
    limit,
    value,
    allowed: `at most ${most}`,
    met: value <= most,
    source: own === undefined ? `upper end of the ${ZEYNETDINOV}` : "the material's",
  };
}

/** A pressure within the range ordered, or the usual one. */
export function between(limit: string, value: number, own: readonly [number, number] | undefined): LimitMet {
  const [least, most] = own ?? USUAL.pressure;
  const slack = 1e-9 * most;
  return {
    limit,
    value,
    allowed: `${least} to ${most}`,
    met: value >= least - slack && value <= most + slack,
    source: own ? "as ordered" : ZEYNETDINOV,
  };
}
