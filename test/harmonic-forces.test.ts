import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { designRing, type RingDesign, type RingSpecInput } from "../src/index.js";
import { backOf, DEMO_NAMES, DEMO_RINGS, relativeError, runs } from "./rings.js";
import { balanceOf, harmonics, integral, loadLimit, smallLoadLimit } from "./statics.js";

/**
 * Internal forces of a pressure with harmonics: against a symbolic result for the closed gap, against quadrature of
 * the statics for any gap; and what they do to the ring while it stays linear.
 */

const FERRY: RingSpecInput = DEMO_RINGS["ferry 118 mm"];
const study = { allowNegativePressure: true };
const amplitude = fc.integer({ min: -40, max: 40 }).map((n) => n / 100);
const amplitudes = fc.array(amplitude, { maxLength: 12 });

function withHarmonics(ring: RingSpecInput, cosine: number[], sine: number[] = []): RingDesign {
  return designRing({ ...ring, pressure: { shape: "harmonics", cosine, sine } }, study);
}

property.prop([fc.constantFrom(...DEMO_NAMES), amplitudes, amplitudes], runs(60))(
  "without a gap the forces are the symbolic ones",
  (name, cosine, sine) => {
    // Worked. M″ + M = p for p = cos iθ, sin iθ has the particular solutions cos iθ/(1 − i²), sin iθ/(1 − i²); adding
    // A·cos θ + B·sin θ so that M = M′ = 0 at both ends, θ = ±π, gives, over p₀·h·R·r,
    //   M = 1 + cos θ + Σ ci·[cos iθ + (−1)^i·cos θ]/(1 − i²) + Σ si·[sin iθ + (−1)^i·i·sin θ]/(1 − i²),
    // V/(p₀·h·R) = −dM/dθ, N/(p₀·h·R) = −M.
    const { installed, load } = withHarmonics({ ...DEMO_RINGS[name], closedGap: 0 }, cosine, sine);
    const { theta, moment, normal, shear, centroidRadius: r } = installed;
    const force = load.tangentialForce;
    for (const [k, t] of theta.entries()) {
      let [M, V] = [1 + Math.cos(t), Math.sin(t)];
      for (let i = 2; i < 14; i++) {
        const [c, s, sign] = [cosine[i - 2] ?? 0, sine[i - 2] ?? 0, (-1) ** i];
        M +=
          (c * (Math.cos(i * t) + sign * Math.cos(t)) + s * (Math.sin(i * t) + sign * i * Math.sin(t))) /
          (1 - i * i);
        V +=
          (c * (i * Math.sin(i * t) + sign * Math.sin(t)) - s * i * (Math.cos(i * t) + sign * Math.cos(t))) /
          (1 - i * i);
      }
      // Rounding of two dozen terms below 1.
      expect(Math.abs(moment[k] / (force * r) - M)).toBeLessThan(1e-14);
      expect(Math.abs(normal[k] / force + M)).toBeLessThan(1e-14);
      expect(Math.abs(shear[k] / force - V)).toBeLessThan(1e-14);
    }
  },
);

property.prop(
  [fc.constantFrom(...DEMO_NAMES), fc.constantFrom(0.001, 0.01, 0.03, 0.2, 0.5), amplitudes, amplitudes],
  runs(40),
)(
  "with a gap the forces are the statics integrals of the pressure beyond, in both halves",
  (name, share, cosine, sine) => {
    const ring = { ...DEMO_RINGS[name], closedGap: share * DEMO_RINGS[name].bore };
    const design = withHarmonics(ring, cosine, sine);
    const { theta, moment, normal, shear, centroidRadius: r } = design.installed;
    const force = design.load.tangentialForce;
    const limit = loadLimit(design);
    const balance = balanceOf(design);
    const p = (alpha: number) => 1 + harmonics(alpha, cosine, sine) + balance(alpha);
    const last = theta.length - 1;
    for (const i of [0, 1, 20, 77, 150, backOf(design), backOf(design) + 1, 270, 333, last - 1, last]) {
      const M = integral((alpha) => p(alpha) * Math.sin(alpha - theta[i]), theta[i], limit);
      const V = integral((alpha) => p(alpha) * Math.cos(alpha - theta[i]), theta[i], limit);
      // Three hundred terms of size 3 at the most.
      expect(Math.abs(moment[i] / (force * r) - M)).toBeLessThan(5e-14);
      expect(Math.abs(normal[i] / force + M)).toBeLessThan(5e-14);
      expect(Math.abs(shear[i] / force - V)).toBeLessThan(5e-14);
    }
  },
);

describe("the free gap of a soft thin ring without a closed gap", () => {
  const thin = { ...FERRY, closedGap: 0, theory: "thin" } as const;
  /** m/(K·r) for a vanishing load. */
  const opening = (cosine: number[], sine: number[] = []) =>
    smallLoadLimit((share) => {
      const design = withHarmonics({ ...thin, load: { contactPressure: 1e-4 * share } }, cosine, sine);
      return design.free.gap / (design.stiffnessParameter * design.installed.centroidRadius);
    });
  // K is 1.3e-5 to 5e-5: what the extrapolation leaves is of order K³. Rounding of coordinates of 57 mm, 1e-14, over gaps
  // from 7 µm, times 5 for the extrapolation.
  const LIMIT = 1e-8;

  test.each([2, 3, 4, 5, 9])("is 3π·K·r·[1 + ci·(−1)^i/(3·(1 − i²))] with order %i", (i) => {
    // Worked: m = K·r·∫M·(1 + cos θ) dθ over the ring with M above: 3π for 1 + cos θ, and of each harmonic only its
    // share in cos θ counts, ci·(−1)^i·π/(1 − i²).
    const c = 0.3;
    const cosine = [...new Array(i - 2).fill(0), c];
    const expected = 3 * Math.PI * (1 + (c * (-1) ** i) / (3 * (1 - i * i)));
    expect(Math.abs(opening(cosine) - expected)).toBeLessThan(LIMIT);
  });

  test("is drawn out by sine terms to the hypotenuse, with the ends π·K·r·Σ si·(−1)^i·i/(1 − i²) apart in height", () => {
    // Worked, by the unit load along the axis: ∫M·sin θ dθ over the ring. Across the axis sine terms move nothing.
    const across = 3 * Math.PI * (1 + 0.1 / (3 * (1 - 4)));
    const along = Math.PI * ((0.2 * 2) / (1 - 4) - (-0.1 * 3) / (1 - 9));
    expect(Math.abs(opening([0.1], [0.2, -0.1]) - Math.hypot(across, along))).toBeLessThan(LIMIT);
  });
});

describe("small pressures superpose:", () => {
  /** How far the sum of two rings' displacements misses the displacement under both pressures, mm. */
  function miss(spec: RingSpecInput, contactPressure: number): number {
    const ring = { ...spec, load: { contactPressure } };
    const both = withHarmonics(ring, [0.2, -0.15], [0, 0.1]).free;
    const one = withHarmonics(ring, [0.2]).free;
    const other = withHarmonics(ring, [0, -0.15], [0, 0.1]).free;
    const uniform = withHarmonics(ring, []).free;
    const errors = (["x", "y"] as const).flatMap((axis) =>
      both[axis].map((value, i) => Math.abs(one[axis][i] + other[axis][i] - uniform[axis][i] - value)),
    );
    return Math.max(...errors);
  }

  test.each(["thin", "curved"] as const)("in the %s theory, to second order in the load", (theory) => {
    const spec: RingSpecInput = { ...FERRY, theory };
    const [full, half, quarter] = [0.15, 0.075, 0.0375].map((p) => miss(spec, p));
    // The miss is a·K² + b·K³ …, K = 0.02 at the first: halving the load quarters it but for a few K.
    expect(Math.abs(full / half / 4 - 1)).toBeLessThan(0.05);
    expect(Math.abs(half / quarter / 4 - 1)).toBeLessThan(0.025);
    // Its size: displacements of some 3π/2·K·r by harmonic shares 0.2·0.15/(3·8), so well below K²·r.
    const { stiffnessParameter: K, installed } = withHarmonics(
      { ...spec, load: { contactPressure: 0.15 } },
      [],
    );
    expect(full).toBeLessThan(K ** 2 * installed.centroidRadius);
    expect(miss(spec, 1.5e-4)).toBeLessThan(1.1e-6 * full);
  });
});

test("samples of a harmonic pressure tend to it: pressure with order 2, moment and free gap nearly with order 4", () => {
  // Without a gap both have the same mean. The curve's slope is off by its step at each crest and trough, so the pressure
  // by step²; but only in the two intervals there, whose share falls as step does, and up and down alike.
  const [cosine, sine] = [[0.2, -0.1], [0.1]];
  const exact = withHarmonics({ ...FERRY, closedGap: 0 }, cosine, sine);
  const size = Math.max(...exact.installed.moment);
  const errors = [16, 32, 64, 128, 256].map((count) => {
    const angle = Array.from({ length: 2 * count + 1 }, (_, k) => Math.PI * (k / count - 1));
    const relative = angle.map((theta) => 1 + harmonics(theta, cosine, sine));
    const design = designRing({ ...FERRY, closedGap: 0, pressure: { shape: "sampled", angle, relative } });
    const largest = (key: "pressure" | "moment") =>
      Math.max(...design.installed[key].map((value, i) => Math.abs(value - exact.installed[key][i])));
    return {
      step: Math.PI / count,
      pressure: largest("pressure") / exact.load.contactPressure,
      moment: largest("moment") / size,
      gap: relativeError(design.free.gap, exact.free.gap),
    };
  });
  for (const [i, { step, pressure, moment, gap }] of errors.entries()) {
    // |p″|/8 ≤ (4·0.2 + 9·0.1 + 4·0.1)/8 = 0.26 bounds a crest cut off flat; twice that for the slopes beside it.
    expect(pressure).toBeLessThan(0.52 * step ** 2);
    if (i === 0) continue;
    expect(errors[i - 1].moment / moment).toBeGreaterThan(11);
    expect(errors[i - 1].gap / gap).toBeGreaterThan(11);
  }
  expect(errors[4].gap).toBeLessThan(1e-9);
});
