import type { Closure } from "../contact/closeInBore.js";
import { inMicrometres, percent, type Row } from "./layout.js";

/** The light test in a round gauge, as a row of a report. */
export const lightRow = (
  passes: boolean,
  { contactShare, sensitivity, lightGaps }: Pick<Closure, "contactShare" | "sensitivity" | "lightGaps">,
): Row => [
  "light test, round gauge",
  passes ? "passes" : "fails",
  `${percent(contactShare)} tight at ${inMicrometres(sensitivity)}; ${lightGaps.length} light gaps`,
];
