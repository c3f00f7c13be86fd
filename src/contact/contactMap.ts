import { closeInBore } from "./closeInBore.js";
import type { GivenRing } from "./givenRing.js";

/** How a ring follows bores of one harmonic each: rows by order, columns by amplitude. */
export interface ContactMap {
  readonly orders: number[];
  /** mm. */
  readonly amplitudes: number[];
  readonly contactShare: number[][];
  /** MPa, of all nodes but five at each end. */
  readonly smallestPressure: number[][];
}

export interface ContactMapOptions {
  /** Phase of the harmonics, radians. Default 0: a crest at the back. */
  phase?: number;
  stations?: number;
  sensitivity?: number;
  /** Called after each bore. */
  onProgress?: (done: number, all: number) => void;
}

/** Stations at either end whose pressure is the ends' own matter. */
const BY_THE_ENDS = 5;

/**
 * Contact share and smallest pressure over a grid of bore harmonic and amplitude.
 *
 * @param ring a design, or `ringOfCurvature(…)`
 * @param orders of the harmonics, whole numbers
 * @param amplitudes of the radius, mm
 * @throws SpecError as `closeInBore`
 */
export function contactMap(
  ring: GivenRing,
  orders: readonly number[],
  amplitudes: readonly number[],
  options: ContactMapOptions = {},
): ContactMap {
  const { phase = 0, onProgress, ...closure } = options;
  const all = orders.length * amplitudes.length;
  let done = 0;
  const cells = orders.map((order) =>
    amplitudes.map((amplitude) => {
      const { contactShare, pressure } = closeInBore(
        ring,
        { harmonics: [{ order, amplitude, phase }] },
        closure,
      );
      onProgress?.(++done, all);
      return { contactShare, smallest: Math.min(...pressure.slice(BY_THE_ENDS, -BY_THE_ENDS)) };
    }),
  );
  return {
    orders: [...orders],
    amplitudes: [...amplitudes],
    contactShare: cells.map((row) => row.map((cell) => cell.contactShare)),
    smallestPressure: cells.map((row) => row.map((cell) => cell.smallest)),
  };
}
