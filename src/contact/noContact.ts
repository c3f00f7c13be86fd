import { SpecError } from "../spec/error.js";

/** A ring that has no contact in a bore: its ends would overlap there, or it lies loose in it. */
export class NoContact extends SpecError {
  /** Which of the two. */
  readonly reason: "butts" | "loose";

  /**
   * @param reason which of the two
   * @param diameter of the bore, mm, as given
   * @param allowed what would have been accepted, in words
   */
  constructor(reason: "butts" | "loose", diameter: unknown, allowed: string) {
    super("bore.diameter", diameter, allowed);
    this.reason = reason;
  }
}
