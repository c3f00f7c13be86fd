/** A property over the temperature, °C, straight between the points. */
export interface OverTemperature {
  /** °C, increasing. */
  readonly temperature: number[];
  /** At each of them. */
  readonly value: number[];
}

/** Data of a ring, bore or piston material, at 20 °C unless said otherwise. */
export interface Material {
  /** Designation. */
  readonly name?: string;
  /** MPa. */
  readonly youngsModulus: number;
  /** 0 to 0.5; a plane-stress ring does not depend on it. */
  readonly poissonRatio: number;
  /** Largest bending stress allowed, MPa; a closing stress above it is reported as a warning. None checked if absent. */
  readonly stressLimit?: number;
  /** Yield stress of the finished ring, MPa: beyond it a ring spread over its piston keeps a set. */
  readonly yieldStress?: number;
  /** kg/m³. */
  readonly density?: number;
  /** Young's modulus over the temperature, MPa. */
  readonly modulus?: OverTemperature;
  /** Mean coefficient of expansion from 20 °C to the temperature, 1/K. */
  readonly expansion?: OverTemperature;
}

const MARTENSITIC: Material = {
  youngsModulus: 215000,
  poissonRatio: 0.3,
  density: 7700,
  modulus: { temperature: [20, 100, 200, 300, 400], value: [215000, 212000, 205000, 200000, 190000] },
  expansion: { temperature: [100, 200, 300, 400], value: [10.4e-6, 10.8e-6, 11.2e-6, 11.6e-6] },
};

const ductile = (youngsModulus: number, proofStress: number, density: number): Material => ({
  youngsModulus,
  poissonRatio: 0.275,
  stressLimit: proofStress,
  yieldStress: proofStress,
  density,
  expansion: { temperature: [400], value: [12.5e-6] },
});

const grey = (youngsModulus: number): Material => ({
  youngsModulus,
  poissonRatio: 0.26,
  density: 7200,
  expansion: { temperature: [200, 400], value: [11.7e-6, 13e-6] },
});

/** EN 13906-1, table of moduli (from memory). */
const SPRING_STEEL: Material = { youngsModulus: 206000, poissonRatio: 0.3, density: 7850 };

/**
 * Presets by designation. The limits given are proof stresses (Rp0.2); where a standard's value was not at hand there is no limit, and
 * none is checked.
 *
 * Sources: EN 10088-1, tables of physical properties (martensitic stainless: moduli and expansions seen in a reprint, density from memory);
 * EN 1563:1997, informative annex (ductile irons: moduli and proof stresses seen in a reprint, density and expansion from memory); EN 1561,
 * annex (grey iron, middle of the range of its modulus, expansions, density; from memory); EN 13906-1
 * (spring steels, from memory); wire tables (chrome-silicon, 29.5e6 psi); its density and all Poisson's ratios: common practice, no source; a plane-stress ring does not depend on the latter.
 */
export const MATERIALS: Readonly<Record<string, Material>> = {
  "1.4112": MARTENSITIC,
  "1.4122": MARTENSITIC,
  "1.4125": MARTENSITIC,
  "chrome-silicon wire": { youngsModulus: 203000, poissonRatio: 0.3, density: 7850 },
  "EN-GJS-500-7": ductile(169000, 320, 7100),
  "EN-GJS-600-3": ductile(174000, 370, 7200),
  "EN-GJS-700-2": ductile(176000, 420, 7200),
  "EN-GJS-800-2": ductile(176000, 480, 7200),
  "EN-GJL-250": grey(110000),
  "EN 10270-2 VDSiCr": SPRING_STEEL,
  "EN 10089 51CrV4": SPRING_STEEL,
};
