import type { RingDesign } from "../../src/index.js";
import { number } from "./ccx.js";
import type { Mesh } from "./mesh.js";

/** Pascal in a MPa. */
const PASCAL = 1e6;

/**
 * The input of the finite-element program: the free half ring under the design pressure as a follower load, large
 * displacements, symmetry at the back, ends free.
 *
 * Four habits of the program matter at this accuracy:
 * - it reads numbers 20 characters wide and drops the rest;
 * - its default residual tolerance, 0.5 %, leaves errors of micrometres, hence *CONTROLS: largest residual over
 *   average force 1e-8, the other field parameters at their defaults. Rounding alone leaves about 2e-9;
 * - it takes a residual below 1e-6 as zero, whatever the tolerance and the units; with N that is far too coarse for a
 *   model this thin, so stresses are in Pa and forces in µN;
 * - it expands plane-stress elements to bricks whose faces stay plane, so a model as thick as the ring is neither
 *   plane stress nor plane strain. With pressure given rather than force the thickness cancels: take it ≪ the wall.
 *
 * Elements: reduced integration. At 160 × 4 of them the ferry ring of the tests is within 1 nm of finer meshes in
 * radius and out-of-round; with full integration it is 5 nm off.
 *
 * @param design the ring: its section, material and pressure
 * @param mesh of its free half
 */
export function closureDeck(design: RingDesign, mesh: Mesh): string {
  const { material, section } = design.spec;
  const pressure = meanPressures(design, mesh.outerElements.length);
  return [
    "*NODE, NSET=ALL",
    ...mesh.nodes.map(([x, y], i) => `${i + 1}, ${number(x)}, ${number(y)}, 0.`),
    "*ELEMENT, TYPE=CPS8R, ELSET=RING",
    ...mesh.elements.map((corners, i) => [i + 1, ...corners].join(", ")),
    "*NSET, NSET=WATCHED",
    ...[...mesh.outerNodes, mesh.endMid].map(String),
    "*MATERIAL, NAME=METAL",
    "*ELASTIC",
    `${number(PASCAL * material.youngsModulus)}, ${number(material.poissonRatio)}`,
    "*SOLID SECTION, ELSET=RING, MATERIAL=METAL",
    number(section.radialThickness / 100),
    "*BOUNDARY",
    ...mesh.backNodes.map((node) => `${node}, 1`),
    `${mesh.backNodes[0]}, 2`,
    "*STEP, NLGEOM, INC=1000",
    "*STATIC",
    "1., 1., 0.05",
    "*CONTROLS, PARAMETERS=FIELD",
    "1e-8, 0.01, 0., , 0.02, 1e-5, 1e-3, 1e-8",
    "*DLOAD",
    ...mesh.outerElements.map((element, i) => `${element}, P1, ${number(PASCAL * pressure[i])}`),
    "*NODE PRINT, NSET=WATCHED, FREQUENCY=1000",
    "U",
    "*END STEP",
    "",
  ].join("\n");
}

/**
 * Mean design pressure on each of `count` equal parts of the right half of the outer face. A share of the face's
 * length is the same share of its angle: the face stretches so little, and the pressure varies so slowly along it.
 */
function meanPressures({ spec, installed }: RingDesign, count: number): number[] {
  const { theta, pressure, outerRadius } = installed;
  const limit = Math.PI - Math.asin(spec.closedGap / (2 * outerRadius));
  const step = theta[1] - theta[0];
  // The face reaches a little past the last station; the last line is drawn on.
  const pressureAt = (angle: number) => {
    const i = Math.min(Math.floor((angle - theta[0]) / step), theta.length - 2);
    return pressure[i] + ((angle - theta[i]) / step) * (pressure[i + 1] - pressure[i]);
  };
  const width = limit / count;
  return Array.from({ length: count }, (_, i) => {
    const [start, middle, end] = [i, i + 0.5, i + 1].map((part) => pressureAt(part * width));
    return (start + 4 * middle + end) / 6;
  });
}
