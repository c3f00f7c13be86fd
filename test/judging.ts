import { expect } from "vitest";
import { SpecError } from "../src/spec/error.js";

/** What the judges of single steps share; it imports no step. */

export const near = (found: number, expected: number, tolerance: number) =>
  expect(Math.abs(found - expected)).toBeLessThanOrEqual(tolerance);

/** The error with which an attempt is refused; any other ending fails. */
export function refusalOf(attempt: () => unknown): SpecError {
  try {
    attempt();
  } catch (error) {
    expect(error).toBeInstanceOf(SpecError);
    return error as SpecError;
  }
  throw new Error("not refused");
}
