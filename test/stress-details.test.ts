import { describe, expect, test } from "vitest";
import { closingStress } from "../src/stress/closing.js";
import { curvedFibreStress, fibreStresses, thinFibreStress } from "../src/stress/fibreStress.js";

/** Fibre stresses by handbook formulas, and which station is named. */

const RELATIVE = 1e-12;
const near = (found: number, expected: number) =>
  expect(Math.abs(found - expected)).toBeLessThan(RELATIVE * Math.abs(expected));

/** A trapezoid of thickness 4, 1.2 high inside and 2.4 outside, as a section of its own. */
const [a, inside, outside] = [4, 1.2, 2.4];
const section = {
  shape: "profile" as const,
  radialThickness: a,
  axialHeight: outside,
  outline: [
    { x: 0.6, y: 0 },
    { x: 1.8, y: 0 },
    { x: outside, y: a },
    { x: 0, y: a },
  ],
};
const material = { youngsModulus: 200000, poissonRatio: 0.3 };
const [moment, normal, radius] = [700, -30, 20];

describe("the stress of a trapezoidal section", () => {
  test("is that of the curved beam, N/A + M·(ρ − rn)/(A·e·ρ)", () => {
    // Shigley's Mechanical Engineering Design, curved beams (from memory, worked): ∫dA/ρ of a trapezoid is
    // [(bi·ro − bo·ri)/(ro − ri)]·ln(ro/ri) − (bi − bo), rn = A/∫dA/ρ, e = rc − rn; M about the centroid.
    const [ri, ro] = [radius - a / 2, radius + a / 2];
    const area = ((inside + outside) * a) / 2;
    const centroid = ri + ((a / 3) * (inside + 2 * outside)) / (inside + outside);
    const overRadius = ((inside * ro - outside * ri) / (ro - ri)) * Math.log(ro / ri) - (inside - outside);
    const neutral = area / overRadius;
    const own = moment - normal * (centroid - radius);
    const at = (rho: number) => normal / area + (own * (rho - neutral)) / (area * (centroid - neutral) * rho);
    const stress = fibreStresses({ theory: "curved", section, material }, undefined)(
      0,
      moment,
      normal,
      1 / radius,
    );
    near(stress.outer, at(ro));
    near(stress.inner, at(ri));
    expect(stress.overSlot).toBe(false);
  });

  test("is M·y/I in the thin theory, y from the centroid", () => {
    // Handbook, trapezoid: centroid a·(bi + 2bo)/(3·(bi + bo)) from the inner side, I = a³·(bi² + 4bi·bo + bo²)/(36·(bi + bo)).
    const up = (a * (inside + 2 * outside)) / (3 * (inside + outside));
    const I = (a ** 3 * (inside ** 2 + 4 * inside * outside + outside ** 2)) / (36 * (inside + outside));
    const stress = fibreStresses({ theory: "thin", section, material }, undefined)(
      0,
      moment,
      normal,
      1 / radius,
    );
    near(stress.outer, (moment * (a - up)) / I);
    near(stress.inner, (-moment * up) / I);
    expect(stress.overSlot).toBe(false);
  });
});

test("a wall that is thinner, or left over a slot, bears M − N·(distance of its middle)", () => {
  // Outer faces flush: a wall of 3 under a nominal 4 has its middle 0.5 outside, where the radius is that much larger.
  const bar = {
    theory: "curved",
    section: { shape: "rectangle", radialThickness: 4, axialHeight: 2 },
    material,
  } as const;
  const wall = { thickness: [3, 4], taper: [0, 0], netShare: [0, 0.3], slotDepth: 1 };
  const at = fibreStresses(bar, wall);
  const { outer, inner } = curvedFibreStress(moment - normal * 0.5, normal, 1 / (radius + 0.5), 3, 2);
  for (const [station, overSlot] of [false, true].entries()) {
    const stress = at(station, moment, normal, 1 / radius);
    near(stress.outer, outer);
    near(stress.inner, inner);
    expect(stress.overSlot).toBe(overSlot);
  }
});

describe("closingStress", () => {
  const bar = {
    theory: "thin",
    section: { shape: "rectangle", radialThickness: 3, axialHeight: 2 },
    material,
  } as const;
  const theta = [-2, -1, 0, 1, 2];
  const stressUnder = (moments: number[], thickness?: number[]) =>
    closingStress(
      bar,
      { moment: moments, normal: moments.map((M) => -M / 20), theta },
      theta.map(() => 1 / 20),
      thickness && { thickness, taper: theta.map(() => 0), netShare: theta.map(() => 0), slotDepth: 0 },
    );

  // σ = 6·M/(h·a²) is M/3 here.
  test.each([
    ["at the back", [1, 2, 9, 2, 1], 0, 3],
    ["left of it", [1, 9, 6, 2, 1], -1, 3],
    ["at the left end", [9, 2, 3, 2, 1], -2, 3],
    ["at the right end", [1, 2, 3, 2, 9], 2, 3],
    ["where the moment opens", [1, 2, 3, -9, 1], 1, -3],
    ["on the right of two equal ones", [1, 9, 3, 9, 1], 1, 3],
    ["at the back, when it is as large as any", [9, 9, 9, 9, 9], 0, 3],
  ])("stands %s", (_, moments, at, outer) => {
    expect(stressUnder(moments)).toEqual({ max: 3, theta: at, outer, inner: -outer, overSlot: false });
  });

  test("stands where the wall is thin rather than where the moment is largest", () => {
    // 6·8/(2·2²) = 6 beside 6·9/(2·3²) = 3.
    const stress = stressUnder([1, 8, 9, 2, 1], [3, 2, 3, 3, 3]);
    expect(stress).toEqual({ max: 6, theta: -1, ...thinFibreStress(8, 2, 2), overSlot: false });
    expect(stress.outer).toBe(6);
  });

  test("is that of the inner face where the bar is curved, since it bears more", () => {
    const thick = { ...bar, theory: "curved" } as const;
    const forces = { moment: [700], normal: [-30], theta: [0] };
    const { max, outer, inner } = closingStress(thick, forces, [1 / 8]);
    expect({ outer, inner }).toEqual(curvedFibreStress(700, -30, 1 / 8, 3, 2));
    expect(max).toBe(-inner);
    expect(max).toBeGreaterThan(outer);
  });
});
