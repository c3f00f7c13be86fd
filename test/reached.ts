import { appendFileSync } from "node:fs";
import { expect } from "vitest";
import type { CheckName } from "./checks.js";

/**
 * Checks against what others wrote, and what they reach. With REACHED_TO each figure is added to the file of that name, from which
 * `npm run report` makes docs/checks.md.
 */

/** A figure that a check reached. */
export interface Reached {
  readonly check: CheckName;
  /** What was compared. */
  readonly quantity: string;
  /** Of which ring or case. */
  readonly of: string;
  readonly error: number;
  readonly limit: number;
}

/** Expects an error within its limit, and keeps it for the report. */
export function reached(check: CheckName, quantity: string, error: number, limit: number, of = ""): void {
  const to = process.env.REACHED_TO;
  const figure: Reached = { check, quantity, of, error: Math.abs(error), limit };
  if (to !== undefined) appendFileSync(to, `${JSON.stringify(figure)}\n`);
  expect(figure.error, [check, quantity, of].join(", ")).toBeLessThanOrEqual(limit);
}
