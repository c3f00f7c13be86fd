import type { RingSpec } from "../spec/ringSpec.js";
import type { ClosingStress } from "../stress/closing.js";
import type { NegativePressure } from "./lowestPressure.js";
import type { Warning } from "./ringDesign.js";

/** a/r up to which closure was compared with finite elements. */
const CHECKED_WALL = 1 / 6;
/** h²/(r·a) from which a wide strip starts to bend as a plate, stiffer by up to 1/(1 − ν²). From memory. */
const PLATE_LIKE = 1;
/** Strain past which a linear stress–strain law is doubtful for any ring metal. Common practice, no source. */
const LARGE_STRAIN = 0.01;

/** What a user must know about a design that was computed all the same. */
export function warningsFor(
  spec: RingSpec,
  r: number,
  stress: ClosingStress,
  negative: NegativePressure | undefined,
): Warning[] {
  const warnings: Warning[] = [];
  const { radialThickness: a, axialHeight: h } = spec.section;
  const { stressLimit, youngsModulus, poissonRatio } = spec.material;
  if (stressLimit !== undefined && stress.max > stressLimit) {
    warnings.push({
      code: "stress-over-limit",
      message: `closing stress ${stress.max.toFixed(0)} MPa is over the material's limit of ${stressLimit} MPa`,
    });
  }
  if (stress.max > LARGE_STRAIN * youngsModulus) {
    warnings.push({
      code: "large-strain",
      message: `closing strains the faces by ${((100 * stress.max) / youngsModulus).toFixed(1)} %; few ring materials stay elastic there`,
    });
  }
  if (a > CHECKED_WALL * r) {
    warnings.push({
      code: "thick-wall",
      message: `wall over radius a/r = ${(a / r).toFixed(3)} is beyond 1/6, up to which the curved-bar law was compared with finite elements`,
    });
  }
  if (h * h > PLATE_LIKE * r * a) {
    warnings.push({
      code: "tall-section",
      message: `h²/(r·a) = ${((h * h) / (r * a)).toFixed(2)}: so tall a ring bends partly as a plate, stiffer by up to ${(100 * (1 / (1 - poissonRatio ** 2) - 1)).toFixed(0)} % than this plane-stress design`,
    });
  }
  if (spec.closedGap === 0) {
    warnings.push({
      code: "ends-touch",
      message:
        "closedGap is 0: the ends touch when cold and butt when hot; a value for theory, not for an engine",
    });
  }
  if (negative) {
    warnings.push({
      code: "negative-pressure",
      message: `the pressure is negative, lowest ${negative.relative.toFixed(4)}·p0 at ${negative.theta.toFixed(4)} rad from the back: the ring would lift there, and this shape is for study only`,
    });
  }
  if (spec.section.slots) {
    warnings.push({
      code: "slots",
      message:
        "slots: the stiffness is a model good to some 2 %, the stress is nominal, without the notch effect of the slots' roots, which cracks start from",
    });
  }
  return warnings;
}
