import type { Point, RingDesign } from "../../src/index.js";
import { displacements, number } from "./ccx.js";
import { evenGrid, halfRingMesh, type Mesh } from "./mesh.js";

/** A ring with its tips pulled apart by hand, as measured; mm, MPa, N·mm. */
export interface MeasuredSpread {
  /** Distance between the ends at mid wall. */
  readonly tipGap: number;
  /** From the middle of the back to the line of the pull. */
  readonly leverArm: number;
  /** Force per undeformed area of the inner and outer fibre at the back. */
  readonly inner: number;
  readonly outer: number;
}

const PASCAL = 1e6;

/**
 * Pulls the free half ring apart by finite elements: a force on its end face, even over the face and along one line however the
 * face turns; symmetry at the back; large displacements. Units, controls and elements as in `deck.ts`.
 *
 * @param design computed with some 2000 stations, its halves alike
 * @param force on each tip, N
 * @param along elements from the back to the end
 * @param through elements through the wall, even
 */
export async function pullByFiniteElements(
  design: RingDesign,
  force: number,
  along: number,
  through: number,
): Promise<MeasuredSpread> {
  const mesh = halfRingMesh(design.outline, evenGrid(along, through));
  const outer = mesh.outerNodes.slice(0, 3);
  // Elements are numbered along the wall's thickness first: the last one of the first column has the inner face as its third side.
  const corners = mesh.elements[through - 1];
  const inner = [corners[3], corners[6], corners[2]];
  const backMid = mesh.backNodes[through];
  const watched = [mesh.endMid, backMid, ...outer, ...inner];
  const moved = await displacements(pullDeck(design, mesh, force, through, watched));
  const placeOf = (node: number): Point => {
    const [x, y] = mesh.nodes[node - 1];
    const [ux, uy] = moved.get(node) as Point;
    return [x + ux, y + uy];
  };
  /** Of the element's side next to the back, over which the bending hardly changes. */
  const length = ([one, two, three]: Point[]): number =>
    Math.hypot(two[0] - one[0], two[1] - one[1]) + Math.hypot(three[0] - two[0], three[1] - two[1]);
  const stressOf = (side: number[]) => {
    const stretch = length(side.map(placeOf)) / length(side.map((node) => mesh.nodes[node - 1]));
    // The program's material is linear in Green's strain.
    return (stretch * design.spec.material.youngsModulus * (stretch ** 2 - 1)) / 2;
  };
  return {
    tipGap: 2 * placeOf(mesh.endMid)[0],
    leverArm: placeOf(mesh.endMid)[1] - placeOf(backMid)[1],
    inner: stressOf(inner),
    outer: stressOf(outer),
  };
}

function pullDeck(
  { spec: { material, section } }: RingDesign,
  mesh: Mesh,
  force: number,
  through: number,
  watched: readonly number[],
): string {
  const thickness = section.radialThickness / 100;
  const total = (PASCAL * force * thickness) / section.axialHeight;
  // A quadratic side shares an even pull among its nodes 1 : 4 : 1.
  const shares = new Map<number, number>();
  const add = (node: number, share: number) => shares.set(node, (shares.get(node) ?? 0) + share / through);
  for (const corners of mesh.elements.slice(-through)) {
    add(corners[1], 1 / 6);
    add(corners[5], 2 / 3);
    add(corners[2], 1 / 6);
  }
  return [
    "*NODE, NSET=ALL",
    ...mesh.nodes.map(([x, y], i) => `${i + 1}, ${number(x)}, ${number(y)}, 0.`),
    "*ELEMENT, TYPE=CPS8R, ELSET=RING",
    ...mesh.elements.map((corners, i) => [i + 1, ...corners].join(", ")),
    "*NSET, NSET=WATCHED",
    ...watched.map(String),
    "*MATERIAL, NAME=METAL",
    "*ELASTIC",
    `${number(PASCAL * material.youngsModulus)}, ${number(material.poissonRatio)}`,
    "*SOLID SECTION, ELSET=RING, MATERIAL=METAL",
    number(thickness),
    "*BOUNDARY",
    ...mesh.backNodes.map((node) => `${node}, 1`),
    `${mesh.backNodes[through]}, 2`,
    "*STEP, NLGEOM, INC=1000",
    "*STATIC",
    "0.1, 1., 1e-3, 0.2",
    "*CONTROLS, PARAMETERS=FIELD",
    "1e-7, 0.01, 0., , 0.02, 1e-5, 1e-3, 1e-8",
    "*CLOAD",
    ...[...shares].map(([node, share]) => `${node}, 1, ${number(total * share)}`),
    "*NODE PRINT, NSET=WATCHED, FREQUENCY=1000",
    "U",
    "*END STEP",
    "",
  ].join("\n");
}
