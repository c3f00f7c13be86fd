import * as v from "valibot";
import { quantity, wholeNumber } from "../spec/fields.js";

/** Steps per half ring. On finer meshes bending forces, small differences of w over step⁴, drown in rounding. */
export const STATIONS = { min: 8, max: 2000 };

/** What shows light: common practice, no source. */
export const sensitivityField = () =>
  v.optional(quantity("length", { above: 0, max: 1 }, "narrowest slit that shows light"), 0.002);

export const closureSchema = () =>
  v.strictObject({
    stations: v.optional(wholeNumber(STATIONS.min, STATIONS.max, "steps to a half ring")),
    sensitivity: sensitivityField(),
  });
