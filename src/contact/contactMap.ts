import { closeInBore } from "./closeInBore.js";
import type { GivenRing } from "./givenRing.js";

/** How a ring follows bores of one harmonic each: rows by order, columns by amplitude. */
export interface ContactMap {
  /** As asked for. */
  readonly orders: number[];
  /** As asked for, mm. */
  readonly amplitudes: number[];
  /** Share of the circumference that lets no light past, 0 to 1. */
  readonly contactShare: number[][];
  /** MPa, of all nodes but five at each end. */
  readonly smallestPressure: number[][];
}

/** How a map of contacts is computed. */
export interface ContactMapOptions {
  /** Phase of the harmonics, radians, −6.3 to 6.3. Default 0: a crest at the back. */
  phase?: number;
  /** As of {@link ClosureOptions}. */
  stations?: number;
  /** As of {@link ClosureOptions}. */
  sensitivity?: number | string;
  /** Called after each bore with how many of all are done. */
  onProgress?: (done: number, all: number) => void;
}

/** Stations at either end whose pressure is the ends' own matter. */
const BY_THE_ENDS = 5;

/**
 * Contact share and smallest pressure over a grid of bore harmonic and amplitude.
 *
 * Method: docs/theory/08-contact.md.
 *
 * @param ring a design, or `ringOfCurvature(…)`
 * @param orders of the harmonics, whole numbers from 1 to 100
 * @param amplitudes of the radius, mm; to 2 % of it
 * @param options phase, nodes and sensitivity
 * @throws SpecError as `closeInBore`
 * @throws NotFound when a contact is not found
 *
 * @example
 * contactMap(design, [3, 4], [0.005, 0.05]).contactShare.map((row) => row.map((share) => share === 1)); // [[true, false], [true, false]]
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
