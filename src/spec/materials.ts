/**
 * Elastic data of a ring material.
 * `youngsModulus` and `stressLimit` in MPa; a closing stress above `stressLimit` is reported as a warning.
 */
export interface Material {
  readonly name?: string;
  readonly youngsModulus: number;
  readonly poissonRatio: number;
  readonly stressLimit?: number;
}

/**
 * Presets by designation, at 20 °C. The limits given are proof stresses (Rp0.2); where a standard's value was not
 * at hand there is no limit, and none is checked.
 *
 * Sources: EN 10088-1, table of physical properties (martensitic stainless, seen in a reprint);
 * EN 1563:1997, informative annex (ductile irons, seen in a reprint); wire tables (chrome-silicon, 29.5e6 psi).
 * Poisson's ratios: common practice, no source; a plane-stress ring does not depend on them.
 */
export const MATERIALS: Readonly<Record<string, Material>> = {
  "1.4112": { youngsModulus: 215000, poissonRatio: 0.3 },
  "1.4122": { youngsModulus: 215000, poissonRatio: 0.3 },
  "1.4125": { youngsModulus: 215000, poissonRatio: 0.3 },
  "chrome-silicon wire": { youngsModulus: 203000, poissonRatio: 0.3 },
  "EN-GJS-500-7": { youngsModulus: 169000, poissonRatio: 0.275, stressLimit: 320 },
  "EN-GJS-600-3": { youngsModulus: 174000, poissonRatio: 0.275, stressLimit: 370 },
  "EN-GJS-700-2": { youngsModulus: 176000, poissonRatio: 0.275, stressLimit: 420 },
  "EN-GJS-800-2": { youngsModulus: 176000, poissonRatio: 0.275, stressLimit: 480 },
};
