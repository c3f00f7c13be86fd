import { fc, test as property } from "@fast-check/vitest";
import { describe, expect } from "vitest";
import { readBore } from "../src/contact/bore.js";
import { elasticLine } from "../src/contact/elasticLine.js";
import { lawAt } from "../src/curvature/lawsAlong.js";
import { closedGeometry } from "../src/forces/geometry.js";
import { type BoreInput, closeInBore, designRing, type GivenRing, ringOfCurvature } from "../src/index.js";
import { addBandProduct } from "../src/numeric/symmetricBand.js";
import { runs, type UnloadedSpec, unloadedRing, withK } from "./rings.js";

/**
 * What makes a contact the right one, for any ring in any bore: no pull, no overlap, no force across a clearance,
 * balance at each node and in each cut, and no neighbouring state of less energy. And that light gaps are those of the clearance.
 */

type Order = {
  body: UnloadedSpec;
  K: number;
  kind: "designed" | "nearly uniform" | "round";
  percent: number;
};
type Built = { ring: GivenRing; body: UnloadedSpec };

/** Rings for a K, weak ones among them, and rings that are round when free, up to 40 % wider than the bore. */
const orders: fc.Arbitrary<Order> = fc.record({
  body: unloadedRing.filter(({ closedGap, bore }) => closedGap > 0 && bore > 40),
  K: fc.constantFrom(0.0002, 0.002, 0.01, 0.03, 0.05, 0.2),
  kind: fc.constantFrom("designed" as const, "nearly uniform" as const, "round" as const),
  percent: fc.integer({ min: 1, max: 40 }),
});

function build({ body, K, kind, percent }: Order): Built {
  if (kind === "designed") return { body, ring: designRing(withK(body, K)) };
  const r = (body.bore - body.section.radialThickness) / 2;
  const { poissonRatio: _, ...material } = body.material;
  const round = 1 / (r * (1 + percent / 100));
  // The thin ring of a uniform pressure, but for the gap.
  const uniform = (theta: number) => (1 - K * (1 + Math.cos(theta))) / r;
  return { body, ring: ringOfCurvature({ ...body, material }, kind === "round" ? round : uniform) };
}

const microns = fc.integer({ min: 5, max: 100 }).map((n) => n / 1000);
const harmonic = fc.record({
  order: fc.integer({ min: 2, max: 8 }),
  amplitude: microns,
  phase: fc.integer({ min: -314, max: 314 }).map((n) => n / 100),
});
/** Waves, steps of up to 0.1 mm between 24 samples, and both with a pressure behind the ring. */
const steps = fc.array(fc.constantFrom(0, 0, 0.005, 0.03, -0.1), { minLength: 24, maxLength: 24 });
const bores: fc.Arbitrary<BoreInput> = fc
  .tuple(
    fc.array(harmonic, { minLength: 1, maxLength: 3 }),
    steps,
    fc.constantFrom(0, 1, 2),
    fc.constantFrom(0, 0, 0.5),
  )
  .map(([harmonics, deviation, kind, backPressure]) => {
    const samples = { angle: deviation.map((_, i) => -3.1 + (i * 6.2) / 24), deviation };
    return { backPressure, ...(kind !== 1 && { harmonics }), ...(kind !== 0 && { samples }) };
  });
const stationsOf = fc.constantFrom(20, 60, 180);

/** The closure with what is needed to weigh it: the state w, γ of its line, and the line's energy and its slope. */
function weighed({ ring, body }: Built, bore: BoreInput, stations: number) {
  const closure = closeInBore(ring, bore, { stations });
  const { radialThickness: a, axialHeight: h } = body.section;
  const geometry = closedGeometry(body.bore, a, body.closedGap);
  const r = geometry.centroidRadius;
  const line = elasticLine(ring, geometry, r, 2 * stations);
  const { stride, step, matrix } = line;
  const last = 2 * stations;
  const overhang = geometry.loadLimit - geometry.centroidLimit;
  const arc = (i: number) => (i === 0 || i === last ? step / 2 : step);
  const end = (i: number) => (i === 0 || i === last ? overhang : 0);
  const force = closure.pressure.map((p, i) => p * h * (arc(i) + end(i)) * (body.bore / 2));
  const behind = closure.theta.map(
    (_, i) => (bore.backPressure as number) * h * arc(i) * (body.bore / 2 - a),
  );
  const { deviationAt } = readBore(bore, body.bore);
  const limit = closure.theta.map(deviationAt);
  const w = limit.map((g, i) => g - closure.clearance[i]);
  // Without force on them, shear angles are those of the shear force, −M′/r by differences.
  const compliance = lawAt(ring.spec, r, { thickness: a, taper: 0 }).shearCompliance;
  const gamma = closure.moment.map((M, i) => (-compliance * ((closure.moment[i + 1] ?? 0) - M)) / (step * r));
  const stateOf = (v: readonly number[]) => {
    const x = new Float64Array(matrix.count);
    for (let i = 0; i <= last; i++) x[stride * i] = v[i];
    if (stride === 2) for (let i = 0; i < last; i++) x[2 * i + 1] = gamma[i];
    return x;
  };
  const slopeAt = (v: readonly number[]) => {
    const slope = new Float64Array(matrix.count);
    addBandProduct(matrix, stateOf(v), slope);
    return slope.map((value, k) => value - line.linear[k] - (k % stride === 0 ? behind[k / stride] : 0));
  };
  return { closure, force, behind, limit, w, slopeAt, line, r, step, geometry, a, h };
}
type Weighed = ReturnType<typeof weighed>;
const largest = (values: ArrayLike<number>) => Math.max(...Array.from(values, Math.abs));

/** What rounding of w makes of nodal forces: weights 12 of the fourth difference, E·I/(r·step)³ · 1e-16 · (w + r/10⁴). */
function rounding({ step, r, w, a, h }: Weighed, E: number): number {
  const EI = (E * h * a ** 3) / 12;
  return ((100 * EI) / (r * step) ** 3) * 2 ** -52 * (largest(w) + 1e-4 * r) + 1e-12;
}

describe("any ring in any bore", () => {
  property.prop([orders, bores, stationsOf], runs(120))(
    "is pushed, never pulled, stays inside, is pushed only where it touches, and balances",
    (order, bore, stations) => {
      const one = build(order);
      const all = weighed(one, bore, stations);
      const { closure, force, w, slopeAt, line, r, step } = all;
      const E = one.body.material.youngsModulus;
      const total = force.reduce((sum, value) => sum + value, 0);
      expect(Math.min(...closure.pressure)).toBeGreaterThanOrEqual(0);
      expect(Math.min(...closure.clearance)).toBeGreaterThanOrEqual(0);
      // The solver ends at 1e-20 of its scales of force and slack in the mean, which these are at least; a single one is at
      // most that times the number of nodes.
      const scale = (step * largest(closure.moment)) / r + largest(all.behind) + total / force.length + 1e-9;
      const enough = 1e-20 * scale * (0.4 + 1e-3 * r);
      expect(closure.complementarity).toBeLessThan(enough);
      for (const [i, f] of force.entries())
        expect(f * closure.clearance[i]).toBeLessThan(enough * force.length);
      expect(closure.iterations).toBeLessThanOrEqual(40);
      // Nodal balance: the slope of the energy is the force, and none on the shear angles.
      // The solver lets 1e-5 of its force scale be, and leaves 1e-7 at most (measured); ends shared unequally, so 1e-6.
      const noise = rounding(all, E) + 1e-6 * scale;
      for (const [k, value] of slopeAt(w).entries()) {
        const node = k % line.stride === 0;
        const off = node ? Math.abs(value + force[k / line.stride]) : Math.abs(value) / r;
        expect(off, `unknown ${k}`).toBeLessThan(noise);
      }
      expect(Math.abs(closure.force - total)).toBeLessThan(1e-12 * total);
      expect(closure.forceResidual * total).toBeLessThan(noise * force.length);
    },
  );

  property.prop([orders, bores], runs(60))(
    "carries in each cut the moment of the forces beyond it, whatever the theory",
    (order, bore) => {
      const one = build(order);
      const all = weighed(one, bore, 180);
      const { closure, force, behind, r, step } = all;
      const { theta, moment } = closure;
      // Σ F·r·sin(angle to the cut). A force on a node bends the exact circle by sin(step), the differences by
      // 2·(1 − cos step)/step: step²/12 apart.
      const levers = force.reduce((sum, f, i) => sum + Math.abs(f - behind[i]) * r, 0);
      for (let i = 1; i < theta.length - 1; i += 7) {
        let expected = 0;
        for (let j = i + 1; j < theta.length; j++)
          expected += (force[j] - behind[j]) * r * Math.sin(theta[j] - theta[i]);
        const noise = 1e3 * rounding(all, one.body.material.youngsModulus) * r;
        expect(Math.abs(moment[i] - expected)).toBeLessThan((step ** 2 / 12) * levers + noise);
      }
    },
  );

  const shape = fc.record({
    wave: fc.integer({ min: 0, max: 12 }),
    phase: fc.integer({ min: 0, max: 628 }).map((n) => n / 100),
    size: fc.constantFrom(1e-4, 1e-3, 0.01, 0.1),
    towards: fc.constantFrom(0.01, 0.1, 0.5, 1),
  });
  property.prop(
    [orders, bores, fc.constantFrom(20, 60), fc.array(shape, { minLength: 50, maxLength: 50 })],
    runs(40),
  )(
    "has no less energy in any of fifty states beside it that stay inside the bore, thin theory",
    (order, bore, stations, shapes) => {
      const one = build(order);
      const thin = { ...one, ring: { ...one.ring, spec: { ...one.ring.spec, theory: "thin" as const } } };
      const { closure, limit, w, behind, r, step, a, h } = weighed(thin, bore, stations);
      const EI = (one.body.material.youngsModulus * h * a ** 3) / 12;
      const { free } = thin.ring;
      // Nodes are stations of the ring when 180 to a half divide by theirs.
      const kappa0 = w.map((_, i) => free.curvature[i * (180 / stations)]);
      expect(Math.abs(free.theta[180 / stations] - closure.theta[1])).toBeLessThan(1e-12);
      // ½·E·I·(κ − κ₀)² along the line, κ = 1/r − (w″ + w)/r², less the work behind it; written out, no matrix.
      const energy = (v: readonly number[]) => {
        let sum = 0;
        for (let i = 1; i < v.length - 1; i++) {
          const bending = (v[i - 1] - 2 * Math.cos(step) * v[i] + v[i + 1]) / (2 - 2 * Math.cos(step));
          sum += 0.5 * EI * r * step * (1 / r - bending / r ** 2 - kappa0[i]) ** 2;
        }
        return v.reduce((rest, value, i) => rest - behind[i] * value, sum);
      };
      const least = energy(w);
      const others = shapes.flatMap(({ wave: count, phase, size, towards }) => {
        const wave = closure.theta.map((at) => size * Math.cos(count * at - phase));
        // Lowered until it is inside; and part of the way to another that is.
        const high = Math.max(0, ...wave.map((value, i) => value - closure.clearance[i]));
        const inside = limit.map((g, i) => g - size + wave[i]);
        return [
          w.map((value, i) => value + wave[i] - high),
          w.map((value, i) => value + towards * (inside[i] - value)),
        ];
      });
      for (const other of others) {
        // Rounding: that of the curvature, 1e-16/r and w's 1e-16 over (r·step)², in the energy's slope.
        const noise = 1e-12 * (least + largest(behind) * largest(other) * other.length) + 1e-15;
        expect(energy(other)).toBeGreaterThan(least - noise);
      }
    },
  );

  property.prop([orders, bores, stationsOf, fc.constantFrom(0.0005, 0.002, 0.01)], runs(80))(
    "shows light where the clearance, straight between nodes, passes the sensitivity",
    (order, bore, stations, sensitivity) => {
      const one = build(order);
      const { theta, clearance, lightGaps, contactShare } = closeInBore(one.ring, bore, {
        stations,
        sensitivity,
      });
      const at = (angle: number) => {
        const i = Math.min(theta.length - 2, Math.max(0, theta.findIndex((value) => value >= angle) - 1));
        const share = (angle - theta[i]) / (theta[i + 1] - theta[i]);
        return clearance[i] * (1 - share) + clearance[i + 1] * share;
      };
      let before = theta[0] - 1;
      for (const { from, to } of lightGaps) {
        expect(from).toBeGreaterThan(before);
        expect(to).toBeGreaterThan(from);
        before = to;
        for (const edge of [from, to]) {
          // Rounding of an angle times the slope between nodes.
          if (edge === theta[0] || edge === theta[theta.length - 1])
            expect(at(edge)).toBeGreaterThan(sensitivity);
          else expect(Math.abs(at(edge) - sensitivity)).toBeLessThan(1e-12 + 1e-10 * sensitivity);
        }
      }
      // Directly: of each step the part above the sensitivity and the area under it, by one formula for all steps.
      let [dark, area] = [0, 0];
      for (let i = 0; i + 1 < theta.length; i++) {
        const [low, high] = [clearance[i], clearance[i + 1]].sort((a, b) => a - b);
        if (high <= sensitivity) continue;
        const part = low > sensitivity ? 1 : (high - sensitivity) / (high - low);
        dark += part * (theta[i + 1] - theta[i]);
        area += (part * (theta[i + 1] - theta[i]) * (high + Math.max(low, sensitivity)) * one.body.bore) / 4;
      }
      const whole = theta[theta.length - 1] - theta[0];
      expect(Math.abs(contactShare - (1 - dark / whole))).toBeLessThan(1e-12);
      const told = lightGaps.reduce((sum, gap) => sum + gap.area, 0);
      expect(Math.abs(told - area)).toBeLessThan(1e-10 * (area + sensitivity));
      const widest = Math.max(0, ...clearance.filter((value) => value > sensitivity));
      expect(Math.max(0, ...lightGaps.map((gap) => gap.largest))).toBe(widest);
    },
  );
});
