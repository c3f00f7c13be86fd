import { describe, expect, test } from "vitest";
import type { BoreInput } from "../src/contact/boreSchema.js";
import { closedEnds } from "../src/contact/closedEnds.js";
import { type ClosureOptions, closeInBore } from "../src/contact/closeInBore.js";
import { contactMap } from "../src/contact/contactMap.js";
import { type ElasticLine, elasticLine, isLoose } from "../src/contact/elasticLine.js";
import type { GivenRing } from "../src/contact/givenRing.js";
import { lightGaps } from "../src/contact/lightGaps.js";
import { NoContact } from "../src/contact/noContact.js";
import { pointForces } from "../src/contact/pointForces.js";
import { lineFlexibility } from "../src/curvature/law.js";
import { lawAt } from "../src/curvature/lawsAlong.js";
import { closedGeometry } from "../src/forces/geometry.js";
import { addBandProduct } from "../src/numeric/symmetricBand.js";
import { assembled } from "./assembled.js";
import { near, refusalOf } from "./judging.js";

/** Rings in bores and all that closing them takes: equilibrium at each node, and pieces by hand. */

const [bore, a, h, s, E, FORCE, HALF] = [118, 4.4, 2, 3, 205000, 20, 24];
const [R, r] = [bore / 2, (bore - a) / 2];
const EI = (E * h * a ** 3) / 12;
const section = { shape: "rectangle", radialThickness: a, axialHeight: h } as const;
const material = { youngsModulus: E, poissonRatio: 0.3 };
const specOf = (change: object = {}) => ({
  ...{ section, material, theory: "curved" as const, closedGap: s, bore },
  ...change,
});
const designed = (change: object = {}, more: object = {}) => {
  const spec = specOf(change);
  return { ...assembled(spec, bore, FORCE, { steps: HALF, ...more }), spec };
};
/** A ring of the free curvature κ₀(θ), with stations of its own. */
const given = (kappa: (t: number) => number, change: object = {}, half = 30): GivenRing => {
  const spec = specOf({ theory: "thin", ...change });
  const limit = Math.PI - Math.asin(spec.closedGap / (2 * r));
  const theta = Array.from({ length: 2 * half + 1 }, (_, i) => limit * (i / half - 1));
  return { spec, free: { theta, curvature: theta.map(kappa) } };
};
const round = (radius: number, change: object = {}) => given(() => 1 / radius, change);
const wall = (t: number) => 1 - 0.08 * Math.cos(t) + 0.05 * Math.sin(t);

describe("light gaps of a clearance that is straight between nodes", () => {
  const angle = [0, 1, 3, 4, 5, 7, 9, 10];

  test("run from where it passes the eye's limit to where it does again", () => {
    // 3 down to 1 by the angle 1; 0 to 2 passes 1 halfway; 4 at the angle 7; down to 0 passes 1 at ¾ of the step.
    expect(lightGaps(angle, [3, 1, 0, 0, 2, 4, 0, 0.5], 1, 10)).toEqual([
      { from: 0, to: 1, largest: 3, area: 20 },
      { from: 4.5, to: 8.5, largest: 4, area: 10 * (0.5 * 1.5 + 6 + 1.5 * 2.5) },
    ]);
  });

  test("end with the ring", () => {
    expect(lightGaps(angle, [0, 0, 0, 0, 0, 0, 1, 3], 1, 10)).toEqual([
      { from: 9, to: 10, largest: 3, area: 20 },
    ]);
    expect(lightGaps(angle, [2, 2, 2, 2, 2, 2, 2, 2], 1, 10)).toEqual([
      { from: 0, to: 10, largest: 2, area: 200 },
    ]);
  });

  test("are none at the limit itself", () => {
    expect(lightGaps(angle, [1, 1, 1, 1, 0, 1, 1, 1], 1, 10)).toEqual([]);
  });
});

describe("forces on points", () => {
  const find = (force: number[], lifted: number[], layer = 0, share: (i: number) => number = () => 2) =>
    pointForces(
      force.map((_, i) => i / 10),
      force,
      force.map((_, i) => (lifted.includes(i) ? 0.01 : 0)),
      share,
      layer,
      0.002,
    ).map(({ theta, force: one }) => [Number(theta.toFixed(12)), Number(one.toFixed(9))]);
  const zeros = (count: number) => new Array<number>(count).fill(0);

  test("are what the three outermost nodes of a zone carry over the fourth", () => {
    // Left: 9 + 3 + 2 − 3·2 = 8 at (7·0 + 1·0.1)/8; right: 3 + 4 + 8 − 3·2 = 9 at (1·0.9 + 2·1 + 6·1.1)/9.
    const force = [9, 3, 2, 2, 3, 1, 4, 2, 2, 3, 4, 8];
    const ends = [
      [0.0125, 8],
      [Number((9.5 / 9).toFixed(12)), 9],
    ];
    expect(find(force, [])).toEqual(ends);
    // Beside lifted nodes the same, further on.
    const moved = ends.map(([theta, one]) => [Number((theta + 0.2).toFixed(12)), one]);
    expect(find([0, 0, ...force, 0], [0, 1, 14])).toEqual(moved);
    // The pressure of the fourth, 2/4, on nodes with unequal shares: 9 − 2.5, 3 − 2, 2 − 2 at the left.
    const shares = [5, 4, 4, 4, 4, 4, 4, 4, 4, 4, 4, 4];
    expect(find(force, [], 0, (i) => shares[i])[0]).toEqual([Number((0.1 / 7.5).toFixed(12)), 7.5]);
    expect(find(force, [], 0, (i) => shares[11 - i])[1]).toEqual([
      Number(((0.9 + 2 + 5.5 * 1.1) / 8.5).toFixed(12)),
      8.5,
    ]);
  });

  test("take in three lengths of the shear layer", () => {
    // 3·1.3 are four nodes: 9 + 3 + 3 + 2.5 − 4·2 = 9.5 over the fifth.
    const force = [9, 3, 3, 2.5, 2, 2, 2, 2, 2, 2];
    expect(find(force, [], 1.3)).toEqual([[Number((0.45 / 9.5).toFixed(12)), 9.5]]);
    expect(find(force, [], 1)[0][1]).toBe(7.5);
  });

  test("are all that a short zone carries", () => {
    expect(find([0, 0, 10, 0, 0], [0, 1, 3, 4])).toEqual([[0.2, 10]]);
    const seven = [1, 2, 3, 4, 5, 6, 7];
    // Σ i·(i + 1)/10 over 28.
    expect(find([0, ...seven, 0], [0, 8])).toEqual([[0.5, 28]]);
    // Eight nodes are two edges of three, with one beside each.
    expect(find([9, 2, 2, 2, 2, 2, 2, 9], [])).toEqual([
      [0, 7],
      [0.7, 7],
    ]);
    // At each end of a row of zones.
    expect(find([4, 0, 5, 6, 0, 0, 7], [1, 4, 5])).toEqual([
      [0, 4],
      [Number((2.8 / 11).toFixed(12)), 11],
      [0.6, 7],
    ]);
  });

  test("are none where they are less than half a percent of the whole, or negative", () => {
    const inside = new Array<number>(18).fill(5);
    // 0.52 and 0.4 over 5, of 100.92 in all; half a percent is 0.5046.
    expect(find([5.52, ...inside, 5.4], []).map(([, one]) => one)).toEqual([0.52]);
    expect(find([1, ...inside, 5], [])).toEqual([]);
  });

  test("stand where a node carries something, or is nearer than the eye could see by far", () => {
    // 1e-6 of the force, or of the sensitivity, on a lifted node.
    const touching = (force: number, clearance: number) =>
      pointForces(
        zeros(5).map((_, i) => i),
        [5, 0, force, 0, 5],
        [0, 1, clearance, 1, 0],
        () => 1,
        0,
        0.002,
      ).length;
    expect(touching(0.1, 1)).toBe(3);
    expect(touching(0, 1)).toBe(2);
    const joined = (force: number, clearance: number) =>
      pointForces([0, 1, 2], [5, force, 5], [0, clearance, 0], () => 1, 0, 0.002).length;
    expect([joined(1.2e-5, 1), joined(0.8e-5, 1)]).toEqual([1, 2]);
    expect([joined(0, 1.9e-9), joined(0, 2.1e-9)]).toEqual([1, 2]);
  });
});

describe("the ends of a line of radius ρ, by its way w off its circle", () => {
  const [rho, gap, count] = [50, 3, 200];
  const geometry = closedGeometry(104, 4, gap);
  const limit = geometry.centroidLimit;
  const step = (2 * limit) / count;
  const angle = Array.from({ length: count + 1 }, (_, i) => limit * ((2 * i) / count - 1));
  const ends = (w: (t: number) => number, offsets: [number, number] = [0, 0]) =>
    closedEnds(angle.map(w), { angle, step, radius: rho } as unknown as ElasticLine, geometry, offsets);

  test("stay as they are without any, at any height of their faces", () => {
    for (const offsets of [
      [0, 0],
      [1, -2],
      [-0.5, 2],
    ] as [number, number][]) {
      near(ends(() => 0, offsets).closedGap, gap, 1e-12);
      near(ends(() => 0, offsets).facesAngle, 0, 1e-15);
    }
  });

  test("stay as they are when the ring is shifted", () => {
    // To e²/ρ; trapezoids miss step²/12 of e.
    for (const phase of [0, 1, 2.5, -1.3]) {
      const { closedGap, facesAngle } = ends((t) => 0.01 * Math.cos(t - phase));
      near(closedGap, gap, 5e-6);
      near(facesAngle, 0, 1e-6);
    }
  });

  test("move apart on a wider circle by the length that it is longer, and turn with it", () => {
    const c = 0.5;
    const { closedGap, facesAngle } = ends(() => c);
    near(closedGap, 2 * (rho + c) * Math.sin(limit * (1 - c / rho)), 1e-10);
    near(facesAngle, (2 * c * limit) / rho, 1e-13);
    // Further out the faces stand wider apart by the angle between them, half of it each.
    for (const offsets of [
      [0.1, 0],
      [0, 0.1],
      [0.05, 0.05],
    ] as [number, number][])
      near(ends(() => c, offsets).closedGap - closedGap, 0.05 * facesAngle, 2e-5);
  });

  test("follow one half alone as far as either: carried along by −∫w, turned by that less w′", () => {
    const c = 2;
    const square = (side: number) => (t: number) => (side * t > 0 ? c * (t / limit) ** 2 : 0);
    const [right, left] = [1, -1].map((side) => ends(square(side), side > 0 ? [0, 1] : [1, 0]));
    near(left.closedGap, right.closedGap, 1e-12);
    near(left.facesAngle, right.facesAngle, 1e-13);
    // ∫c·(t/θ)² = c·θ/3, w′ = 2c/θ; trapezoids miss step²/12 of w′.
    const carried = (c * limit) / 3;
    near(right.facesAngle, (carried + (2 * c) / limit) / rho, 1e-5);
    const moved = ends(square(1));
    // From the other end square to the mean of both faces.
    const place = limit - carried / rho;
    const across = (rho + c) * Math.sin(place) + rho * Math.sin(limit);
    const up = -(rho + c) * Math.cos(place) + rho * Math.cos(limit);
    const tilt = -right.facesAngle / 2;
    near(moved.closedGap, across * Math.cos(tilt) + up * Math.sin(tilt), 2e-4);
    near(right.closedGap - moved.closedGap, right.facesAngle / 2, 2e-4);
  });
});

describe("the elastic line", () => {
  const geometry = closedGeometry(bore, a, s);
  const rho = 56.9;
  const kappa = (t: number) => (1 - 0.02 * (1 + Math.cos(t)) + 0.003 * Math.sin(2 * t)) / r;

  test("stands at equal steps, drawn together on a wider circle", () => {
    const line = elasticLine(given(kappa), geometry, rho, 48);
    expect([line.angle.length, line.theta.length, line.radius, line.stride]).toEqual([49, 49, rho, 1]);
    near(line.theta[0], -geometry.centroidLimit, 1e-14);
    near(line.theta[24], 0, 1e-14);
    near(line.step, (geometry.centroidLimit * r) / rho / 24, 1e-15);
    for (const [i, at] of line.angle.entries()) near(at, line.step * (i - 24), 1e-13);
    expect(line.shearLayer).toBe(0);
    for (const value of line.thickness) expect(value).toBe(a);
  });

  test("bends by 1/ρ − κ₀ − (w″ + w)/ρ², a wave of three by 8·w, a shift by nothing; its ends are free", () => {
    const line = elasticLine(given(kappa), geometry, rho, 48);
    for (const [order, factor] of [
      [0, 1],
      [1, 0],
      [3, -8],
    ]) {
      const w = line.angle.map((t) => 0.1 * Math.cos(order * t + 0.4));
      const M = line.momentAt(Float64Array.from(w));
      expect([M.length, M[0], M[48]]).toEqual([49, 0, 0]);
      for (let i = 1; i < 48; i++) {
        const expected = EI * (1 / rho - kappa(line.theta[i]) - (factor * w[i]) / rho ** 2);
        // The difference misses (order² − 1)·(order² + …)·step²/12 of w; 1.3 % of the wave of three.
        near(M[i], expected, 1e-5 + (order === 3 ? (0.016 * 8 * 0.1 * EI) / rho ** 2 : 0));
      }
    }
  });

  test.each([
    ["thin", {}],
    ["curved", {}],
    ["curved", { wall }],
    ["thin", { wall }],
  ] as const)("has the energy of its bending and shear: %s theory, %o", (theory, extra) => {
    const ring = designed({ theory, section: { ...section, ...extra } });
    const line = elasticLine(ring, geometry, rho, 2 * HALF);
    const { matrix, linear, stride, step } = line;
    expect(stride).toBe(theory === "thin" ? 1 : 2);
    expect(matrix.count).toBe(theory === "thin" ? 49 : 97);
    const laws = line.theta.map((_, i) =>
      lawAt(ring.spec, r, {
        thickness: ring.wall?.thickness[i] ?? a,
        taper: ring.wall?.taper[i] ?? 0,
      }),
    );
    const flexibility = laws.map((law, i) => lineFlexibility(law, ring.free.curvature[i], r));
    const shear = laws.map((law) => law.shearCompliance);
    const x = Float64Array.from({ length: matrix.count }, (_, k) => 0.01 * Math.sin(7 * k * k + 1));
    const w = line.angle.map((_, i) => x[stride * i]);
    const gamma = line.angle.map((_, i) => (stride === 2 ? x[2 * i + 1] : 0));
    const c = Math.cos(step);
    const energy = (state: number) => {
      let sum = 0;
      for (let i = 1; i < 48; i++) {
        const bent = (w[i - 1] - 2 * c * w[i] + w[i + 1]) / (2 - 2 * c) / rho ** 2;
        const sheared = (gamma[i] - gamma[i - 1]) / (step * rho);
        const excess = 1 / rho - ring.free.curvature[i] - state * (bent + sheared);
        sum += (0.5 * rho * step * excess ** 2) / flexibility[i];
        if (state === 1)
          near(line.momentAt(x)[i], excess / flexibility[i], 1e-6 * Math.abs(excess / flexibility[i]) + 1e-6);
      }
      if (stride === 2)
        for (let i = 0; i < 48; i++)
          sum += (rho * step * (state * gamma[i]) ** 2) / (shear[i] + shear[i + 1]);
      return sum;
    };
    const product = new Float64Array(matrix.count);
    addBandProduct(matrix, x, product);
    const found = product.reduce((sum, value, k) => sum + (0.5 * value - linear[k]) * x[k], 0);
    const expected = energy(1) - energy(0);
    near(found, expected, 1e-9 * Math.abs(expected));
    for (const [i, value] of line.thickness.entries())
      near(value, a * ("wall" in extra ? wall(line.theta[i]) : 1), 1e-12);
    // √(c/F)/ρ with 12/(5·E·A) and E·I is a/(√5·ρ), where the wall is thickest and to (a/r)²/30.
    const thickest = Math.max(...line.thickness);
    near(line.shearLayer, theory === "thin" ? 0 : thickest / Math.sqrt(5) / rho, 0.01 * (thickest / rho));
  });

  test("is loose where a tape would have to push it to the circle", () => {
    const loose = (free: (t: number) => number) => isLoose(elasticLine(given(free), geometry, r, 48));
    expect(loose(() => 1 / r)).toBe(true);
    expect(loose(() => 1.001 / r)).toBe(true);
    expect(loose(() => 0.999 / r)).toBe(false);
    // Bent open at the back counts twice, at the gap not at all.
    expect(loose((t) => (1 - 0.01 * (Math.cos(t) - 0.3)) / r)).toBe(false);
    expect(loose((t) => (1 + 0.01 * (Math.cos(t) - 0.3)) / r)).toBe(true);
    expect(loose((t) => (1 - 0.01 * (Math.cos(t) - 0.6)) / r)).toBe(true);
  });
});

/** A closure, with its forces, its way off the circle and what its ring's law is at the nodes. */
function weighed(
  ring: GivenRing,
  input: BoreInput,
  off: (t: number) => number,
  options: ClosureOptions = {},
) {
  const closure = closeInBore(ring, input, options);
  const { theta, pressure, clearance } = closure;
  const mean = ((input.diameter as number | undefined) ?? bore) / 2;
  const rho = mean - a / 2;
  const last = theta.length - 1;
  const step = (2 * theta[last]) / last;
  const thickness = theta.map((t) => (ring.spec.section.wall ? a * wall((t * rho) / r) : a));
  const gap = ring.spec.closedGap;
  const overhang = ((Math.asin(gap / (2 * r)) - Math.asin(gap / (2 * R))) * r) / rho;
  const isEnd = (i: number) => i === 0 || i === last;
  const share = (i: number) => mean * (isEnd(i) ? step / 2 + overhang : step);
  const force = pressure.map((p, i) => p * h * share(i));
  const back = (input.backPressure as number | undefined) ?? 0;
  const behind = thickness.map((t, i) => back * h * (mean - t) * (isEnd(i) ? step / 2 : step));
  const w = clearance.map((value, i) => off(theta[i]) - value);
  return { closure, force, behind, w, mean, rho, step, share, last };
}

describe("a ring in a bore", () => {
  const lobes: BoreInput = {
    harmonics: [
      { order: 3, amplitude: 0.2, phase: 0.8 },
      { order: 5, amplitude: -0.04, phase: -1 },
    ],
    rotation: 0.3,
  };
  const off = (t: number) => 0.2 * Math.cos(3 * (t + 0.3) - 0.8) - 0.04 * Math.cos(5 * (t + 0.3) + 1);
  const flat = () => 0;
  const kinds: [string, () => GivenRing, BoreInput, (t: number) => number, number?][] = [
    ["a designed ring in its own bore", designed, {}, flat],
    [
      "one of a varying wall, with pressure behind it",
      () => designed({ section: { ...section, wall } }),
      { backPressure: 0.4 },
      flat,
    ],
    ["one in a wider bore out of round", designed, { ...lobes, diameter: 118.6 }, off],
    [
      "a thin one there, with pressure behind it",
      () => designed({ theory: "thin" }),
      { ...lobes, diameter: 118.6, backPressure: 0.3 },
      off,
    ],
    [
      "one of a varying wall in a narrower bore",
      () => designed({ section: { ...section, wall } }),
      { ...lobes, diameter: 117.5, backPressure: 0.1 },
      off,
    ],
    ["one that was turned round", () => round(60), { diameter: 118.2 }, flat],
    // Its shear layer is wider than a step, so that point forces spread over more nodes.
    ["a curved one on more nodes", () => round(60, { theory: "curved" }), {}, flat, 5 * HALF],
    ["a loose one with pressure behind it", () => round(56), { backPressure: 0.2 }, flat],
  ];

  test.each(kinds)(
    "is in balance at each node, and touches where it presses: %s",
    (_, make, input, way, stations = HALF) => {
      const ring = make();
      const { closure, force, behind, w, rho, step, last, share } = weighed(ring, input, way, {
        stations,
      });
      const { moment, clearance, pressure } = closure;
      expect(closure.theta).toHaveLength(2 * stations + 1);
      near(closure.theta[last], (closedGeometry(bore, a, s).centroidLimit * r) / rho, 1e-13);
      const total = force.reduce((sum, one) => sum + one, 0);
      expect(total).toBeGreaterThan(1);
      near(closure.force, total, 1e-12 * total);
      // The solver leaves 1e-5 of a node's share at the most.
      const left = (1e-5 * total) / last;
      const most = Math.max(...moment.map(Math.abs));
      let product = 0;
      for (let i = 0; i <= last; i++) {
        expect(Math.min(clearance[i], pressure[i])).toBeGreaterThanOrEqual(0);
        product += (force[i] * clearance[i]) / (last + 1);
        // Where moments on either side meet at an angle, there is a force: −(M″ + M)/ρ by the difference that is nil for a shift.
        const bend = (moment[i - 1] ?? 0) - 2 * Math.cos(step) * moment[i] + (moment[i + 1] ?? 0);
        near((bend * step) / (2 - 2 * Math.cos(step)) / rho, force[i] - behind[i], left);
      }
      near(closure.complementarity, product, 1e-6 * product + 1e-30);
      expect(product).toBeLessThan(1e-17 * total);
      // No force is left over, but for rounding.
      const [x, y] = [Math.sin, Math.cos].map((f) =>
        force.reduce((sum, one, i) => sum + (one - behind[i]) * f(closure.theta[i]), 0),
      );
      near(closure.forceResidual, Math.hypot(x, y) / total, 1e-12);
      expect(closure.forceResidual).toBeLessThan(1e-6);
      // The law: M·F = 1/ρ − κ₀ − (w″ + w)/ρ² − γ′/ρ, γ from the shear force −M′/ρ.
      const laws = closure.theta.map((_, i) =>
        lawAt(ring.spec, r, { thickness: ring.wall?.thickness[i] ?? a, taper: ring.wall?.taper[i] ?? 0 }),
      );
      const same = ring.free.theta.length === last + 1;
      const gamma = moment.map((M, i) => {
        const compliance = (laws[i].shearCompliance + (laws[i + 1] ?? laws[i]).shearCompliance) / 2;
        return (-compliance * ((moment[i + 1] ?? 0) - M)) / (step * rho);
      });
      for (let i = 1; i < last; i++) {
        const kappa0 = ring.free.curvature[same ? i : 0];
        const bent = (w[i - 1] - 2 * Math.cos(step) * w[i] + w[i + 1]) / (2 - 2 * Math.cos(step)) / rho ** 2;
        const change = 1 / rho - kappa0 - bent - (gamma[i] - gamma[i - 1]) / (step * rho);
        near(moment[i], change / lineFlexibility(laws[i], kappa0, r), 1e-4 * most);
      }
      // What is told of it is what its clearance and forces tell.
      const { sensitivity } = closure;
      const mean = rho + a / 2;
      expect(closure.lightGaps).toEqual(lightGaps(closure.theta, clearance, sensitivity, mean));
      const dark = closure.lightGaps.reduce((sum, { from, to }) => sum + to - from, 0);
      near(closure.contactShare, 1 - dark / (closure.theta[last] - closure.theta[0]), 1e-13);
      const layer = elasticLine(ring, closedGeometry(bore, a, s), rho, last).shearLayer / step;
      const points = pointForces(closure.theta, force, clearance, share, layer, sensitivity);
      expect(closure.pointForces.length).toBe(points.length);
      for (const [k, { theta, force: one }] of points.entries()) {
        near(closure.pointForces[k].theta, theta, 1e-10);
        near(closure.pointForces[k].force, one, 1e-10 * total);
      }
    },
  );

  test("in its own bore touches all round with the pressure, force and gap of its design", () => {
    const ring = designed();
    const closure = closeInBore(ring);
    expect(closure.theta).toHaveLength(2 * HALF + 1);
    const p0 = FORCE / (R * h);
    // Differences miss step²/12 = 1.4e-3 of the part that is the shear's; five nodes by each end are its own matter.
    for (const p of closure.pressure.slice(5, -5)) near(p / p0, 1, 2e-3 + s / (Math.PI * R));
    for (const [i, p] of closure.pressure.slice(5, -5).entries())
      near(p / p0, ring.installed.pressure[i + 5] / p0, 2e-3);
    near(Math.max(...closure.clearance), 0, 1e-10);
    near(closure.closedGap, s, 1e-9);
    near(closure.facesAngle, 0, 1e-10);
    expect([closure.contactShare, closure.lightGaps, closure.endsTouch]).toEqual([1, [], false]);
    expect(closure.sensitivity).toBe(0.002);
    expect(closure.iterations).toBeGreaterThan(3);
    expect(closure.iterations).toBeLessThan(30);
    // Rounding, told all the same.
    expect(closure.forceResidual).toBeGreaterThan(0);
  });

  test("has the gap that its faces' middles leave, where its ends are thinner", () => {
    const thin = (t: number) => 1 + 0.15 * Math.cos(t) + 0.03 * Math.sin(t);
    const ring = designed({ section: { ...section, wall: thin } });
    const closure = closeInBore(ring, { diameter: 118.6 });
    const { centroidLimit, ...geometry } = closedGeometry(bore, a, s);
    const rho = (118.6 - a) / 2;
    const w = closure.clearance.map((value) => -value);
    const middle = (t: number) => (a - a * thin(t)) / 2;
    const line = elasticLine(ring, { centroidLimit, ...geometry }, rho, 2 * HALF);
    const ends = closedEnds(w, line, { centroidLimit, ...geometry }, [
      middle(-centroidLimit),
      middle(centroidLimit),
    ]);
    near(closure.closedGap, ends.closedGap, 1e-9);
    near(closure.facesAngle, ends.facesAngle, 1e-11);
    // Another gap than without offsets, or with them changed over.
    expect(
      Math.abs(closedEnds(w, line, { centroidLimit, ...geometry }, [0, 0]).closedGap - closure.closedGap),
    ).toBeGreaterThan(1e-4);
  });

  test("lies in the mirror image of a bore as the mirror image of itself", () => {
    const one = closeInBore(designed(), lobes);
    const image = closeInBore(designed(), {
      harmonics: lobes.harmonics?.map((wave) => ({ ...wave, phase: -(wave.phase as number) })),
      rotation: -0.3,
    });
    for (const [i, p] of [...image.pressure].reverse().entries()) near(p, one.pressure[i], 1e-6);
    near(image.closedGap, one.closedGap, 1e-8);
    near(image.facesAngle, one.facesAngle, 1e-8);
    expect(one.lightGaps.length).toBeGreaterThan(0);
    expect(image.lightGaps.length).toBe(one.lightGaps.length);
  });

  test.each([
    ["a motorcycle", 54],
    ["a gas engine", 340],
  ])("of the size of %s is pressed as hard in a bore as much out of round", (_, size) => {
    const k = size / bore;
    const larger = { ...section, radialThickness: k * a, axialHeight: k * h };
    const spec = specOf({ bore: size, closedGap: k * s, section: larger });
    const ring = { ...assembled(spec, size, k * k * FORCE, { steps: HALF }), spec };
    const harmonics = [{ order: 3, amplitude: 0.2, phase: 0.8 }];
    const one = closeInBore(designed(), { harmonics });
    const scaled = [{ ...harmonics[0], amplitude: k * 0.2 }];
    const other = closeInBore(ring, { harmonics: scaled }, { sensitivity: 0.002 * k });
    for (const [i, p] of other.pressure.entries()) near(p, one.pressure[i], 1e-6);
    for (const [i, value] of other.clearance.entries()) near(value / k, one.clearance[i], 1e-7);
    for (const [i, M] of other.moment.entries()) near(M / k ** 3, one.moment[i], 1e-4);
    near(other.force / k ** 2, one.force, 1e-6);
    near(other.closedGap / k, one.closedGap, 1e-7);
    near(other.contactShare, one.contactShare, 1e-7);
    expect(one.lightGaps.length).toBeGreaterThan(0);
    for (const [i, { from, area }] of other.lightGaps.entries()) {
      near(from, one.lightGaps[i].from, 1e-6);
      near(area / k ** 2, one.lightGaps[i].area, 1e-6);
    }
  });

  test("shows light to an eye as sharp as asked", () => {
    const ring = designed();
    const light = (sensitivity: number) => closeInBore(ring, lobes, { sensitivity });
    expect(light(0.0005).contactShare).toBeLessThan(light(0.05).contactShare);
    expect(light(0.05).sensitivity).toBe(0.05);
    expect(closeInBore(ring, lobes).sensitivity).toBe(0.002);
    expect(closeInBore(ring, lobes, { sensitivity: "1 mm" }).sensitivity).toBe(1);
    for (const sensitivity of [0, -1, 1.001, Number.NaN, Number.POSITIVE_INFINITY]) {
      const error = refusalOf(() => closeInBore(ring, {}, { sensitivity }));
      expect([error.field, error.value]).toEqual(["sensitivity", sensitivity]);
      expect(error.allowed).toMatch(/^must be above 0 to 1 mm/);
    }
  });

  test("has eight to two thousand steps to a half, or its own", () => {
    const ring = designed();
    expect(closeInBore(ring, {}, { stations: 8 }).theta).toHaveLength(17);
    expect(closeInBore(given(() => 1 / 60, {}, 9)).theta).toHaveLength(19);
    // Of two thousand, and of more of its own, only the bore is wrong: so the work is spared.
    for (const [one, options] of [
      [ring, { stations: 2000 }],
      [given(() => 1 / 60, {}, 2100), {}],
    ] as const)
      expect(refusalOf(() => closeInBore(one, { diameter: 200 }, options)).field).toBe("bore.diameter");
    for (const stations of [7, 8.5, 2001, Number.NaN, "9" as unknown as number]) {
      const error = refusalOf(() => closeInBore(ring, {}, { stations }));
      expect([error.field, error.value, error.allowed]).toEqual([
        ...["stations", stations],
        "must be a whole number from 8 to 2000",
      ]);
    }
  });

  test("is checked before all else", () => {
    const ring = round(60);
    const { theta, curvature } = ring.free;
    const short = { ...ring, free: { theta, curvature: curvature.slice(1) } };
    expect(refusalOf(() => closeInBore(short)).field).toBe("free.curvature");
  });

  test("does not go into a bore that is shorter round than its line", () => {
    const ring = designed();
    const length = 2 * closedGeometry(bore, a, s).centroidLimit * r;
    const closing = length / Math.PI + a;
    const error = refusalOf(() => closeInBore(ring, { diameter: closing - 0.1 })) as NoContact;
    expect(error).toBeInstanceOf(NoContact);
    expect([error.reason, error.field, error.value]).toEqual(["butts", "bore.diameter", closing - 0.1]);
    // π·0.1.
    expect(error.allowed).toBe("must be wider: the ring's ends would overlap by 0.314 mm");
    expect(closeInBore(ring, { diameter: closing + 1e-6 }).force).toBeGreaterThan(0);
    // Without a gap it just goes into its own.
    const closed = closeInBore(designed({ closedGap: 0 }));
    expect(closed.endsTouch).toBe(false);
    near(closed.closedGap, 0, 1e-9);
  });

  test("whose ends would pass through each other is told", () => {
    // A ring turned round stands off beside its ends, so that its line is shorter than the bore it goes into.
    const { endsTouch, closedGap } = closeInBore(round(60, { closedGap: 0.02 }));
    expect(closedGap).toBeLessThan(0);
    expect(endsTouch).toBe(true);
    expect(closeInBore(round(60)).endsTouch).toBe(false);
  });

  test("may be loose in it", () => {
    for (const [input, value] of [
      [{}, bore],
      [{ diameter: 119 }, 119],
    ] as const) {
      const error = refusalOf(() => closeInBore(round(56), input)) as NoContact;
      expect(error).toBeInstanceOf(NoContact);
      expect([error.reason, error.field, error.value]).toEqual(["loose", "bore.diameter", value]);
      expect(error.allowed).toMatch(/^must be narrower: the ring is loose in it.* presses nowhere$/);
    }
  });
});

describe("the map of contacts", () => {
  test("has each wave's closure, by order and amplitude, and tells of each", () => {
    const ring = designed();
    const told: number[][] = [];
    const [orders, amplitudes] = [
      [2, 5],
      [0.001, 0.004, 0.1],
    ];
    const options = { phase: 0.3, stations: 20, sensitivity: 0.01 };
    const map = contactMap(ring, orders, amplitudes, {
      ...options,
      onProgress: (done, all) => told.push([done, all]),
    });
    expect(told).toEqual([1, 2, 3, 4, 5, 6].map((done) => [done, 6]));
    expect([map.orders, map.amplitudes]).toEqual([orders, amplitudes]);
    for (const [i, order] of orders.entries()) {
      for (const [k, amplitude] of amplitudes.entries()) {
        const harmonics = [{ order, amplitude, phase: 0.3 }];
        const { contactShare, pressure } = closeInBore(
          ring,
          { harmonics },
          { stations: 20, sensitivity: 0.01 },
        );
        expect(map.contactShare[i][k]).toBe(contactShare);
        expect(map.smallestPressure[i][k]).toBe(Math.min(...pressure.slice(5, 36)));
      }
    }
  });

  test("has a crest at the back by default", () => {
    const ring = designed();
    const { pressure } = closeInBore(ring, { harmonics: [{ order: 3, amplitude: 0.003 }] });
    expect(contactMap(ring, [3], [0.003]).smallestPressure).toEqual([[Math.min(...pressure.slice(5, -5))]]);
  });
});
