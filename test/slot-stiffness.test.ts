import { fc, test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { designRing, type RingDesign, type RingSpecInput } from "../src/index.js";
import { crackRotation } from "../src/section/slots.js";
import { reached } from "./reached.js";
import { relativeError, runs } from "./rings.js";
import { A, FERRY, H, LIMIT, MEAN_DIAMETER, slotted } from "./slotted-ferry.js";
import { integral } from "./statics.js";

/**
 * How much inner slots soften the ring: a single crack against fracture mechanics, rows of slots between bounds.
 */

const lineGap = ({ free }: RingDesign) => (free.x.at(-1) as number) - free.x[0];

describe("crackRotation", () => {
  // A cracked strip under M turns by 2U/M with U = ∫G·h da, G = K²/E, K = σ·√(πa)·F, σ = 6·M/(h·W²). In units of
  // 24·M/(E·h·W²) that is S = 3π·∫x·F² dx, x = a/W.
  test.each([0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6])("at a depth of %s is 3π·∫x·F² dx to 0.6 %", (depth) => {
    // F: H. Tada, P. C. Paris & G. R. Irwin, The Stress Analysis of Cracks Handbook, single edge notch in pure bending,
    // x ≤ 0.6, said to be good to 0.2 % there, so S to 0.4 % (from memory).
    const F = (x: number) => 1.122 - 1.4 * x + 7.33 * x ** 2 - 13.08 * x ** 3 + 14 * x ** 4;
    const S = 3 * Math.PI * integral((x) => x * F(x) ** 2, 0, depth);
    reached("crack", "depths 0.05 to 0.6", relativeError(crackRotation(depth), S), 0.006);
  });

  test("tends to 3π·1.1215²/2·x² for a shallow crack and to 3.975²/24/(1 − x)² for a deep one", () => {
    // The crack at a half plane's edge, K = 1.1215·σ·√(πa), and the deep one, K = 3.975·M/(h·c^1.5) with c left of the
    // wall (same book, from memory); the rotations as above.
    reached(
      "crack",
      "shallow",
      relativeError(crackRotation(1e-6), ((3 * Math.PI * 1.1215 ** 2) / 2) * 1e-12),
      1e-4,
    );
    reached("crack", "deep", relativeError(crackRotation(1 - 1e-6), 3.975 ** 2 / 24 / 1e-12), 2e-4);
  });
});

const size = fc.record({
  count: fc.integer({ min: 1, max: 90 }),
  depth: fc.integer({ min: 1, max: 60 }).map((n) => (n / 100) * A),
  width: fc.integer({ min: 1, max: 150 }).map((n) => n / 100),
});
const theory = fc.constantFrom("thin" as const, "curved" as const);

describe("the softer ring:", () => {
  property.prop(
    [size, fc.integer({ min: 2, max: 50 }), fc.constantFrom("count", "depth", "width"), theory],
    runs(60),
  )(
    "more, deeper or wider slots never lower the free gap at a given force, nor K",
    (slots, percent, what, theory) => {
      const ring: RingSpecInput = { ...FERRY, theory, load: { tangentialForce: 4 } };
      const more = { ...slots, [what]: slots[what] * (1 + percent / 100) };
      more.count = Math.ceil(more.count);
      const [fewer, design] = [slotted(slots, ring), slotted(more, ring)];
      // Rounding of coordinates of 60 mm; an effect of one shallow, narrow slot may be as small.
      expect(design.free.gap - fewer.free.gap).toBeGreaterThan(-1e-12);
      expect(design.stiffnessParameter / fewer.stiffnessParameter - 1).toBeGreaterThan(-1e-14);
      expect(fewer.free.gap).toBeGreaterThan(designRing(ring).free.gap);
      for (const share of fewer.wall?.netShare ?? []) {
        const pitch = (LIMIT * MEAN_DIAMETER) / slots.count;
        expect(share).toBeGreaterThanOrEqual(slots.width / pitch - 1e-15);
        expect(share).toBeLessThanOrEqual(1);
      }
    },
  );

  property.prop([size], runs(40))(
    "it stands between net section in the slots only and net section everywhere, in the thin theory",
    (slots) => {
      // There only the flexibility counts: a wall all round with that of either bound, 1/a³ on the average.
      const ring: RingSpecInput = { ...FERRY, theory: "thin", load: { tangentialForce: 4 } };
      const [whole, net] = [A ** -3, (A - slots.depth) ** -3];
      const width = (slots.width * slots.count) / (LIMIT * MEAN_DIAMETER);
      const bound = (mean: number) =>
        lineGap(designRing({ ...ring, section: { ...FERRY.section, wall: () => mean ** (-1 / 3) / A } }));
      const gap = lineGap(slotted(slots, ring));
      expect(gap).toBeGreaterThan(bound(whole + width * (net - whole)) - 1e-12);
      expect(gap).toBeLessThan(bound(net) + 1e-12);
    },
  );

  test("slots that grow shallow leave the plain ring: narrow ones by depth², wide ones by depth", () => {
    const plain = designRing(FERRY).free.gap;
    const extra = (count: number, width: number, depth: number) =>
      slotted({ count, width, depth }).free.gap - plain;
    for (const count of [1, 60]) {
      // Cracks soften by x², and slots by 3·x of their width; each next term is a few x.
      expect(extra(count, 1e-6, 0.02) / extra(count, 1e-6, 0.01) / 4).toBeCloseTo(1, 1);
      expect(extra(count, 1.5, 0.002) / extra(count, 1.5, 0.001) / 2).toBeCloseTo(1, 1);
      expect(extra(count, 1e-6, 0.01)).toBeLessThan(1e-3);
      expect(extra(count, 1e-6, 0.01)).toBeGreaterThan(0);
    }
  });

  test("slots that grow narrow leave cracks, not nothing", () => {
    const gap = (width: number) => slotted({ count: 30, depth: 1, width }).free.gap;
    expect(gap(1e-3) - gap(1e-6)).toBeLessThan(2e-3);
    expect(gap(1e-6) - designRing(FERRY).free.gap).toBeGreaterThan(2);
  });

  test("a single crack adds its own turn, M·24·S/(E·h·a²), to the thin ring", () => {
    // One slot in the middle of its zone, at 90°: far from its neighbours there are none. By hand with M = Ft·r and S at
    // depth x = ¼; the ring beyond turns by so much more. The zone is short, so M is nearly one there.
    const ring: RingSpecInput = { ...FERRY, closedGap: 0, theory: "thin", load: { tangentialForce: 0.4 } };
    const [from, to] = [Math.PI / 2 - 0.3, Math.PI / 2 + 0.3];
    const design = slotted({ count: 1, depth: A / 4, width: 1e-9, from, to }, ring);
    const turn = design.ends.left.turn - design.ends.right.turn;
    const [E, r] = [FERRY.material.youngsModulus, MEAN_DIAMETER / 2];
    const expected = ((0.4 * r * 24) / (E * H * A ** 2)) * crackRotation(0.25);
    // 1 + cos θ has the mean 1 over the zone; a spread over 7.7 walls instead of all there is leaves exp(−u − 0.3·u²).
    expect(relativeError(turn, expected)).toBeLessThan(1e-6);
  });
});
