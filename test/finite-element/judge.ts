import { expect } from "vitest";
import type { RingDesign, RingSpecInput } from "../../src/index.js";
import { reached } from "../reached.js";
import { closeByFiniteElements, type HowToClose, type MeasuredClosure } from "./closure.js";

/** Radius and out-of-round in µm per 100 mm of bore, gap as a share of the opening; all without sign. */
export type Limits = { radius: number; outOfRound: number; gap: number };

/** What a ring of usual wall and opening is held to. */
export const WITHIN: Limits = { radius: 0.1, outOfRound: 0.2, gap: 5e-5 };

export const steel = { youngsModulus: 205000, poissonRatio: 0.3 };
export const iron = { youngsModulus: 105000, poissonRatio: 0.3 };

export function ring(
  bore: number,
  radialThickness: number,
  closedGap: number,
  material: { youngsModulus: number; poissonRatio: number },
  contactPressure: number,
): RingSpecInput {
  const section = { radialThickness, axialHeight: 2 };
  return { bore, closedGap, section, material, load: { contactPressure }, stations: 2000 };
}

export const ferry = ring(118, 4.4, 0.45, steel, 0.15);
export const stiff = ring(100, 4, 0.4, steel, 0.285);

/** A ring and the same with other fields in its section. */
export function withSection(spec: RingSpecInput, section: Partial<RingSpecInput["section"]>): RingSpecInput {
  return { ...spec, section: { ...spec.section, ...section } };
}

/** Closes designs by finite elements, and keeps what comes out as lines of a table. */
export class Judge {
  readonly #lines: string[] = [];

  async close(
    name: string,
    design: RingDesign,
    how?: HowToClose,
  ): Promise<Limits & { closure: MeasuredClosure; signedGap: number }> {
    const { spec, installed, load, stiffnessParameter: K } = design;
    const closure = await closeByFiniteElements(design, how);
    const { meanRadiusError, outOfRound, closedGap } = closure;
    const perBore = 1e5 / spec.bore;
    const signedGap = (closedGap - spec.closedGap) / (load.freeGap - spec.closedGap);
    const rOverA = installed.centroidRadius / spec.section.radialThickness;
    this.#lines.push(
      [
        name.padEnd(26),
        `K ${K.toFixed(4)}`,
        `a/r 1/${rOverA.toFixed(1).padEnd(4)}`,
        `radius ${(1e3 * meanRadiusError).toFixed(3).padStart(7)} µm`,
        `out-of-round ${(1e3 * outOfRound).toFixed(3).padStart(6)} µm`,
        `gap ${signedGap.toExponential(1).padStart(8)}`,
        `per 100 mm: ${(perBore * meanRadiusError).toFixed(3).padStart(7)}, ${(perBore * outOfRound).toFixed(3)} µm`,
      ].join("  "),
    );
    return {
      radius: Math.abs(perBore * meanRadiusError),
      outOfRound: perBore * outOfRound,
      gap: Math.abs(signedGap),
      signedGap,
      closure,
    };
  }

  print(): void {
    console.log(this.#lines.join("\n"));
  }
}

const MEASURES = ["radius", "outOfRound", "gap"] as const;

export function expectWithin(of: string, measured: Limits, limits: Limits): void {
  for (const measure of MEASURES) reached("closure", measure, measured[measure], limits[measure], of);
}

/** What is wrong on purpose must be so by every measure. */
export function expectFarOutside(measured: Limits, limits: Limits): void {
  for (const measure of MEASURES) expect(measured[measure], measure).toBeGreaterThan(2 * limits[measure]);
}
