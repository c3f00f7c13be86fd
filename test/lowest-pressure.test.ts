import { describe, expect, test } from "vitest";
import { designRing, type RingSpecInput, SpecError } from "../src/index.js";
import { DEMO_RINGS } from "./rings.js";
import { balanceOf } from "./statics.js";

/** More or less pressure at the gap, as far as it goes; and nowhere may a ring pull on its bore. */

type Pressure = NonNullable<RingSpecInput["pressure"]>;

const study = { allowNegativePressure: true };
const FERRY = DEMO_RINGS["ferry 118 mm"];

describe("moreAtGap and lessAtGap", () => {
  test.each([0, 0.45, 2])("have (1 ± strength)·p₀ at a gap of %s mm, up to the balance", (closedGap) => {
    for (const [shape, sign] of [
      ["moreAtGap", 1],
      ["lessAtGap", -1],
    ] as const) {
      for (const strength of [0.1, 0.5, 0.9]) {
        const design = designRing({ ...FERRY, closedGap, pressure: { shape, strength } });
        const last = design.installed.theta.length - 1;
        const end = design.installed.theta[last];
        const found = design.installed.pressure[last] / design.load.contactPressure;
        // The last station stands φ = s/(2r) before the gap's middle, and b = 1 − ½·(Σ i²·wᵢ)·φ² + …, Σ = 190/15.
        const tolerance = (190 / 30) * strength * (Math.PI - end) ** 2 + 1e-14;
        expect(Math.abs(found - (1 + sign * strength) - balanceOf(design)(end))).toBeLessThan(tolerance);
      }
    }
    // Without a gap no balance is needed: the orders from 2 on have no resultant.
    if (closedGap === 0) {
      const { load } = designRing({ ...FERRY, closedGap, pressure: { shape: "moreAtGap", strength: 1 } });
      expect(Math.abs(load.balance)).toBeLessThan(1e-15);
    }
  });

  const at = (shape: "moreAtGap" | "lessAtGap", strength: number, closedGap = 0) =>
    designRing({ ...FERRY, closedGap, pressure: { shape, strength } });

  test("reach their limits at strength 2.0313 and 1", () => {
    // Worked: the least of b is −0.4922826, 48.1° from the gap, so 1 + strength·b touches nil at 2.031354.
    expect(Math.min(...at("moreAtGap", 2.0313).installed.pressure)).toBeGreaterThan(0);
    expect(() => at("moreAtGap", 2.0314)).toThrow(
      /pressure\.strength = 2\.0314: must be at most 2\.031 for this ring, .*\(-?131\.9°\)/,
    );
    expect(() => at("lessAtGap", 1)).not.toThrow();
    expect(() => at("lessAtGap", 1.000001)).toThrow(/from 0 to 1/);
  });

  test.each([0.45, 2, 10])("tell the limit at a gap of %s mm, from near it or from afar", (closedGap) => {
    for (const strength of [2.5, 3, 10]) {
      let allowed = "";
      try {
        at("moreAtGap", strength, closedGap);
      } catch (error) {
        allowed = (error as SpecError).allowed;
      }
      const limit = Number(/at most ([\d.]+) /.exec(allowed)?.[1]);
      expect(() => at("moreAtGap", limit, closedGap)).not.toThrow();
      // Three decimals are given.
      expect(() => at("moreAtGap", limit + 0.0015, closedGap)).toThrow(SpecError);
    }
  });
});

describe("a pressure that is negative somewhere", () => {
  // 1 + 1.5·cos 2θ is −0.5 at ±90°; with no gap nothing is added.
  const ordered: RingSpecInput = {
    ...FERRY,
    closedGap: 0,
    pressure: { shape: "harmonics", cosine: [1.5] },
  };

  test("is refused, with value and place", () => {
    expect(() => designRing(ordered)).toThrow(SpecError);
    expect(() => designRing(ordered)).toThrow(
      /must not be negative anywhere; it is -0\.5000·p0 at -?1\.5708 rad \(-?90\.0°\) from the back as ordered/,
    );
  });

  test("is designed on request, with a warning that says the same", () => {
    const design = designRing(ordered, study);
    const { code, message } = design.warnings[1];
    expect(code).toBe("negative-pressure");
    expect(message).toMatch(/lowest -0\.5000·p0 at -?1\.5708 rad/);
    expect(Math.min(...design.installed.pressure)).toBeCloseTo(-0.5 * design.load.contactPressure, 12);
  });

  test("is found between the stations too", () => {
    // Order 40 at the fewest stations for it, 160: eight to a wave. The dip to −0.03 stands half-way between two; the
    // stations see 1 − 1.03·cos(π/8) = 0.05 at the least. The parabola there is good to 0.01.
    const shift = 40 * (Math.PI / 320);
    const cosine = [...new Array(38).fill(0), 1.03 * Math.cos(shift)];
    const sine = [...new Array(38).fill(0), 1.03 * Math.sin(shift)];
    const spec: RingSpecInput = { ...ordered, stations: 160, pressure: { shape: "harmonics", cosine, sine } };
    expect(() => designRing(spec)).toThrow(/-0\.0[2-3]\d*·p0/);
    expect(
      Math.min(...designRing({ ...spec, pressure: { shape: "harmonics", cosine: [0] } }).installed.pressure),
    ).toBeGreaterThan(0);
  });

  test("only because of its balance is told so", () => {
    // Samples over their mean are all positive; all of them stand on the right, so the balance takes much away there.
    const pressure: Pressure = {
      shape: "sampled",
      angle: ["-180 deg", "-90 deg", 0, "90 deg", "180 deg"],
      relative: [0.01, 0.01, 0.01, 3, 0.01],
    };
    expect(() => designRing({ ...FERRY, pressure })).toThrow(
      /once the first harmonic that balances it, .*·cos θ \+ .*·sin θ, is added/,
    );
    expect(() => designRing({ ...FERRY, pressure })).not.toThrow(/as ordered/);
  });
});
