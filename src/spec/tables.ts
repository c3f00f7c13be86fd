import { SpecError } from "./error.js";

/** A table as read: angles from the back in radians, one value each. */
interface Table {
  readonly angle: readonly number[];
  readonly relative: readonly number[];
}

/** Refuses a list that does not have one value for each angle. */
export function checkLength(field: string, values: readonly unknown[], count: number): void {
  if (values.length === count) return;
  throw new SpecError(field, values, `must have ${count} values, one for each angle; has ${values.length}`);
}

/** How far a table may stop short of the end of the ring, radians; users round. */
const SHORT = 1e-4;

const degrees = (angle: number) => `${((angle * 180) / Math.PI).toFixed(2)}°`;

/**
 * Checks what a table's numbers must be to each other and to the ring.
 *
 * @param field where the table stands
 * @param table angles and values
 * @param limit the angle from the back that the table must reach, radians
 * @param given the table as written, for messages
 * @throws SpecError for angles unsorted or repeated, lists of different length, a table that leaves part of the ring out
 */
export function checkTable(field: string, { angle, relative }: Table, limit: number, given: unknown): void {
  const givenAngle = (k: number) => (given as { angle: unknown[] }).angle[k];
  checkLength(`${field}.relative`, relative, angle.length);
  for (let k = 1; k < angle.length; k++) {
    if (angle[k] > angle[k - 1]) continue;
    const what = angle[k] === angle[k - 1] ? "is given twice" : "is out of order";
    throw new SpecError(
      `${field}.angle.${k}`,
      givenAngle(k),
      `${what}: must be above the angle before it, ${givenAngle(k - 1)}`,
    );
  }
  const [first, last] = [angle[0], angle[angle.length - 1]];
  const reach = `${limit.toFixed(4)} rad (${degrees(limit)})`;
  if (!(last >= limit - SHORT)) {
    throw new SpecError(
      `${field}.angle.${angle.length - 1}`,
      givenAngle(angle.length - 1),
      `must reach the end of the ring, ${reach} from the back`,
    );
  }
  if (first !== 0 && !(first <= -limit + SHORT)) {
    throw new SpecError(
      `${field}.angle.0`,
      givenAngle(0),
      `must be 0 for a table of one half, or reach the other end, -${reach}, for the whole ring`,
    );
  }
}
