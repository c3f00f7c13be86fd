import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { closeInBore, ringOfCurvature } from "../../src/index.js";
import { reached } from "../reached.js";
import { judgeIsInstalled } from "./ccx.js";
import { contactByFiniteElements, type MeasuredContact } from "./contact.js";
import { steel } from "./judge.js";

/**
 * A ring that is round when free, in its round bore: it touches round the back and with its tips, and lifts between.
 * Judged by finite elements with large displacements on a true circle: see `contact.ts`.
 */
const bore = 118;
const closedGap = 0.45;
const section = { radialThickness: 4.4, axialHeight: 2 };
const material = steel;
const ring = { bore, closedGap, section, material, freeRadius: 58 };
const MESHES = [50, 80];

/**
 * Held to what is reached, with about a tenth to spare. What is off, and why:
 * - Largest clearance 0.1 µm of 123. The metal at the tip gives way under its 22 N, which a line cannot: about so much
 *   by the half-plane under a force, and 0.02 µm more clearance on the coarser mesh, which dents less. A ring that opens
 *   half as far is 0.07 µm off, so this is more a matter of the force than of the second order.
 * - Forces 0.03 % and 0.09 %, gap 1.2 µm of an opening of 8 mm: the library counts deviations from the circle to
 *   first order. A ring that opens half as far is off by less than half of these.
 * - The zone's edge, and the force before it: bending alone puts a force on a point there, shear spreads it over some
 *   tenth of a radian, and in a wall of real thickness it reaches 0.015 rad further, a fifth of the wall. The pressure is
 *   not compared there, but its sum from the back.
 */
const WITHIN = { clearance: 0.13, tip: 3.9e-4, total: 9.5e-4, lift: 0.0175, sum: 0.028, gap: 1.35 };

/** The right half by the library. */
function lie(theory: "thin" | "curved", freeRadius = ring.freeRadius) {
  const body = { bore, closedGap, section, material, theory, stations: 2000 };
  const closure = closeInBore(ringOfCurvature(body, 1 / freeRadius), {}, { stations: 1000 });
  const back = (closure.theta.length - 1) / 2;
  const length = ((closure.theta[1] - closure.theta[0]) * bore) / 2;
  const angle = closure.theta.slice(back);
  const force = closure.pressure.slice(back).map((pressure) => pressure * section.axialHeight * length);
  const lifted = force.findIndex((one) => one < 1e-6 * closure.force);
  return {
    tip: closure.pointForces.at(-1)?.force as number,
    total: closure.force,
    clearance: Math.max(...closure.clearance),
    liftsAt: angle[lifted],
    closedGap: closure.closedGap,
    /** Force from the back to an angle short of the tip. */
    sumTo(at: number): number {
      const step = angle[1];
      const share = (i: number) => Math.min(1, Math.max(0, (at - angle[i]) / step + 0.5));
      return force.reduce((sum, one, i) => sum + one * share(i), -force[0] / 2);
    },
  };
}

type Lie = ReturnType<typeof lie>;
type Errors = typeof WITHIN;

/** Without sign: µm; shares of tip force and sum; radians; share of the force on half the back; µm. */
function compare(name: string, library: Lie, judge: MeasuredContact): Errors {
  const { angle, force } = judge;
  const last = force.length - 1;
  const total = 2 * force.reduce((sum, one) => sum + one, 0);
  const clearance = Math.max(...judge.clearance);
  const tip = force[last];
  let before = force[0];
  let most = 0;
  // At corners of elements, whose nodes carry alike for both sides.
  for (let i = 2; i < last; i += 2) {
    const sum = before + force[i - 1] + force[i] / 2;
    most = Math.max(most, Math.abs(sum - library.sumTo(angle[i])));
    before += force[i - 1] + force[i];
  }
  const signed = {
    clearance: 1e3 * (library.clearance - clearance),
    tip: library.tip / tip - 1,
    total: library.total / total - 1,
    lift: library.liftsAt - judge.liftsAt,
    sum: most / (total / 2 - tip),
    gap: 1e3 * (library.closedGap - judge.closedGap),
  };
  lines.push(
    [
      name.padEnd(20),
      `largest clearance ${(1e3 * clearance).toFixed(2)} µm, library ${signed.clearance.toFixed(2)} µm more`,
      `tip ${tip.toFixed(3)} N, ${(100 * signed.tip).toFixed(3)} %`,
      `sum ${total.toFixed(2)} N, ${(100 * signed.total).toFixed(3)} %`,
      `lifts at ${judge.liftsAt.toFixed(3)}, ${signed.lift.toFixed(3)} (nodes ${judge.spacing.toFixed(3)})`,
      `sum from the back ${(100 * signed.sum).toFixed(2)} %`,
      `gap ${judge.closedGap.toFixed(4)} mm, ${signed.gap.toFixed(2)} µm`,
    ].join("  "),
  );
  return Object.fromEntries(Object.entries(signed).map(([key, value]) => [key, Math.abs(value)])) as Errors;
}

const lines: string[] = [];
const installed = await judgeIsInstalled("Contact");

describe.skipIf(!installed)("contact by finite elements", () => {
  let measured: MeasuredContact[];
  beforeAll(async () => {
    measured = await Promise.all(MESHES.map((along) => contactByFiniteElements(ring, along, 2)));
  }, 120000);
  afterAll(() => console.log(lines.join("\n")));

  it.each(MESHES.map((along, k) => [along, k]))("lies as stated on %i elements", (along, k) => {
    const errors = compare(`curved, ${along} × 2`, lie("curved"), measured[k]);
    for (const key of Object.keys(WITHIN) as (keyof Errors)[]) {
      reached("contact by finite elements", key, errors[key], WITHIN[key], `${along} elements`);
    }
    expect(Math.min(...measured[k].clearance)).toBeGreaterThan(-2e-5);
  });

  it("finds the thin-bar theory out", () => {
    const errors = compare("thin, 80 × 2", lie("thin"), measured[1]);
    for (const key of ["clearance", "lift", "sum", "gap"] as const) {
      expect(errors[key], key).toBeGreaterThan(1.3 * WITHIN[key]);
    }
  });

  it("finds a free radius out that is wrong by 5 µm", () => {
    const errors = compare("radius 58.005", lie("curved", 58.005), measured[1]);
    for (const key of ["clearance", "tip", "total"] as const) {
      expect(errors[key], key).toBeGreaterThan(2 * WITHIN[key]);
    }
  });
});
