import { SpecError } from "../spec/error.js";

/** A ring that has no contact in a bore: its ends would overlap there, or it lies loose in it. */
export class NoContact extends SpecError {
  readonly reason: "butts" | "loose";

  constructor(reason: "butts" | "loose", diameter: unknown, allowed: string) {
    super("bore.diameter", diameter, allowed);
    this.reason = reason;
  }
}
