import { expect, test } from "vitest";
import { designRing } from "../src/index.js";
import { curvedFibreStress } from "../src/stress/fibreStress.js";
import { DEMO_RINGS } from "./rings.js";

test.each(Object.entries(DEMO_RINGS))(
  "the closing stress of the %s is the largest of all stations",
  (_, spec) => {
    for (const closedGap of [0, 0.02 * 54]) {
      const { installed, free, stress, spec: checked } = designRing({ ...spec, closedGap });
      const { radialThickness: a, axialHeight: h } = checked.section;
      const all = installed.moment.flatMap((moment, i) => {
        const kappa0 = free.curvature[i];
        const { outer, inner } = curvedFibreStress(moment, installed.normal[i], kappa0, a, h);
        return [Math.abs(outer), Math.abs(inner)];
      });
      expect(stress.closing.max).toBe(Math.max(...all));
      expect(stress.closing.theta).toBe(0);
    }
  },
);
