import { SpecError } from "../spec/error.js";

/** Refuses points, with what they must be instead. */
export type Refuse = (what: string) => never;

/** @param given how many points there are */
export function refusing(given: number): Refuse {
  return (what) => {
    throw new SpecError("points", given, `must ${what}`);
  };
}
