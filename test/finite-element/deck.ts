import type { RingDesign } from "../../src/index.js";
import { number } from "./ccx.js";
import { halfFace, type Mesh, segmentAt } from "./mesh.js";

/** Pascal in a MPa. */
const PASCAL = 1e6;

/**
 * The input of the finite-element program: the free half ring under the design pressure as a follower load, large
 * displacements, symmetry at the back, ends free.
 *
 * Four habits of the program matter at this accuracy:
 * - it reads numbers 20 characters wide and drops the rest;
 * - its default residual tolerance, 0.5 %, leaves errors of micrometres, hence *CONTROLS: largest residual over
 *   average force as given, the other field parameters at their defaults. Rounding alone leaves about 2e-9, and some
 *   2e-8 on a mesh with elements as small as at the corner of a slot;
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
 * @param tolerance largest residual over average force
 */
export function closureDeck(design: RingDesign, mesh: Mesh, tolerance: number): string {
  const { material, section } = design.spec;
  const pressure = meanPressures(design, mesh);
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
    `${number(tolerance)}, 0.01, 0., , 0.02, 1e-5, 1e-3, 1e-8`,
    "*DLOAD",
    ...mesh.outerElements.map((element, i) => `${element.number}, P1, ${number(PASCAL * pressure[i])}`),
    "*NODE PRINT, NSET=WATCHED, FREQUENCY=1000",
    "U",
    "*END STEP",
    "",
  ].join("\n");
}

/**
 * Mean design pressure on each element of the outer face.
 *
 * A station tells both a point of the free face and the pressure there. A share of the face's length is not quite the
 * same share of its angle: bending stretches the face, more at the back than at the gap. That would misplace the
 * pressure by a thousandth of a radian or so, and where it varies, the radius by tenths of a micrometre.
 */
function meanPressures({ outline, installed }: RingDesign, { outerElements }: Mesh): number[] {
  const { length } = halfFace(outline.outer);
  const last = length.length - 1;
  const pressure = installed.pressure.slice(installed.pressure.length - 1 - last);
  // The last point is the corner, a little past the last station; the line before it is drawn on.
  const toStations = length.slice(0, last);
  const pressureAt = (share: number) => {
    const along = share * length[last];
    const i = segmentAt(toStations, along);
    const part = (along - length[i]) / (length[i + 1] - length[i]);
    return pressure[i] + part * (pressure[i + 1] - pressure[i]);
  };
  return outerElements.map(({ endsAt }, i) => {
    const startsAt = outerElements[i - 1]?.endsAt ?? 0;
    const [start, middle, end] = [startsAt, (startsAt + endsAt) / 2, endsAt].map(pressureAt);
    return (start + 4 * middle + end) / 6;
  });
}
