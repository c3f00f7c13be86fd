import type { Point } from "../../src/index.js";
import { number, printed } from "./ccx.js";
import { evenGrid, halfRingMesh, type Mesh } from "./mesh.js";

/** A ring that is round when free; mm, MPa. */
export interface RoundRing {
  readonly bore: number;
  readonly closedGap: number;
  readonly section: { readonly radialThickness: number; readonly axialHeight: number };
  readonly material: { readonly youngsModulus: number; readonly poissonRatio: number };
  /** Free radius at mid wall. */
  readonly freeRadius: number;
}

/** How the right half of a ring lies in a rigid round bore without friction; mm, N, radians from the back. */
export interface MeasuredContact {
  /** Where the nodes of the outer face have come to, from the back to the end. */
  readonly angle: number[];
  readonly clearance: number[];
  /** Of the bore on each node; on the symmetry plane that on this half. */
  readonly force: number[];
  /** Half-way between the last node of the back that is pressed and the first that is not. */
  readonly liftsAt: number;
  /** Spacing of the nodes there. */
  readonly spacing: number;
  readonly closedGap: number;
}

/** Of the bore at a node, N/mm: the tip sinks in by some 0.01 µm. */
const STIFFNESS = 7e6;
/** How much wider than the free ring the bore begins half-way between back and gap, mm. Not felt at the end. */
const OVAL = 5;
/** Spring at the back that keeps the ring from floating until it is held, N/mm; the back ends where it began. */
const WEAK = 1e-4;

/**
 * Closes a free round ring by finite elements in a rigid bore, along elements of the half ring and through its wall.
 *
 * The free arc is as long as the closed one at mid wall, with square ends. Displacements are large.
 */
export async function contactByFiniteElements(
  ring: RoundRing,
  along: number,
  through: number,
): Promise<MeasuredContact> {
  const { bore, section } = ring;
  const mesh = halfRingMesh(freeOutline(ring), evenGrid(along, through));
  const [moved, reactions] = await printed(contactDeck(ring, mesh), ["displacements", "forces"]);
  const placeOf = (node: number): Point => {
    const [x, y] = mesh.nodes[node - 1];
    const [ux, uy] = moved.get(node) as Point;
    return [x + ux, y + uy];
  };
  const places = mesh.outerNodes.map(placeOf);
  const angle = places.map(([x, y]) => Math.atan2(x, -y));
  const force = mesh.outerNodes.map(
    (_, i) => Math.hypot(...(reactions.get(mesh.nodes.length + 1 + i) as Point)) / perNewton(section),
  );
  const free = force.indexOf(0);
  return {
    angle,
    clearance: places.map(([x, y]) => bore / 2 - Math.hypot(x, y)),
    force,
    liftsAt: (angle[free - 1] + angle[free]) / 2,
    spacing: angle[free] - angle[free - 1],
    closedGap: 2 * placeOf(mesh.endMid)[0],
  };
}

/** The back touches the bore. */
function freeOutline({ bore, closedGap, section, freeRadius }: RoundRing) {
  const a = section.radialThickness;
  const r = (bore - a) / 2;
  const end = ((Math.PI - Math.asin(closedGap / (2 * r))) * r) / freeRadius;
  const count = 2000;
  const arc = (radius: number) =>
    Array.from({ length: 2 * count + 1 }, (_, i): Point => {
      const angle = end * (i / count - 1);
      return [radius * Math.sin(angle), freeRadius + a / 2 - bore / 2 - radius * Math.cos(angle)];
    });
  return { outer: arc(freeRadius + a / 2), inner: arc(freeRadius - a / 2) };
}

/** As in `deck.ts`: the model is thinner than the ring, and its forces are in µN. */
function perNewton(section: RoundRing["section"]): number {
  return (1e6 * thickness(section)) / section.axialHeight;
}

function thickness(section: RoundRing["section"]): number {
  return section.radialThickness / 100;
}

/**
 * The bore is a rope from its centre to each node of the outer face: slack up to the bore's radius, very stiff beyond,
 * free to turn. So the node slides on a true circle, without facets or friction, however far.
 *
 * The free ring is larger than the bore. So the ropes start at other points than the centre, each moved towards its
 * node, and those are then drawn to the centre: the bore begins as an oval in which the free ring touches at the back
 * and tip only, and shrinks. If it began as a circle, all the nodes would touch and lift in turn.
 */
function contactDeck({ bore, section, material, freeRadius }: RoundRing, mesh: Mesh): string {
  const scale = perNewton(section);
  const excess = freeRadius + section.radialThickness / 2 - bore / 2;
  const last = mesh.outerNodes.length - 1;
  const firstSpring = mesh.elements.length + 2;
  const ropes = mesh.outerNodes.map((node, i) => {
    const [x, y] = mesh.nodes[node - 1];
    const length = Math.hypot(x, y);
    const share = (excess * (1 + y / length) + OVAL * (x / length) ** 2) / length;
    const slack = bore / 2 - (1 - share) * length;
    // A quadratic element shares an even pressure among its nodes 1 : 4 : 1.
    const weight = i % 2 === 1 ? 4 / 3 : i === 0 || i === last ? 1 / 3 : 2 / 3;
    return {
      ground: mesh.nodes.length + 1 + i,
      from: [share * x, share * y],
      element: [
        `*ELEMENT, TYPE=SPRINGA, ELSET=ROPE${i}`,
        `${firstSpring + i}, ${mesh.nodes.length + 1 + i}, ${node}`,
      ],
      law: [
        `*SPRING, ELSET=ROPE${i}, NONLINEAR`,
        `0., ${number(slack - 10 * OVAL)}`,
        `0., ${number(slack)}`,
        `${number(weight * STIFFNESS * scale)}, ${number(slack + 1)}`,
      ],
    };
  });
  return [
    "*NODE, NSET=ALL",
    ...mesh.nodes.map(([x, y], i) => `${i + 1}, ${number(x)}, ${number(y)}, 0.`),
    "*NODE, NSET=GROUND",
    ...ropes.map(({ ground, from: [x, y] }) => `${ground}, ${number(x)}, ${number(y)}, 0.`),
    "*ELEMENT, TYPE=CPS8R, ELSET=RING",
    ...mesh.elements.map((corners, i) => [i + 1, ...corners].join(", ")),
    ...ropes.flatMap(({ element }) => element),
    "*ELEMENT, TYPE=SPRING1, ELSET=WEAK",
    `${firstSpring - 1}, ${mesh.backNodes[0]}`,
    "*NSET, NSET=WATCHED",
    ...[...mesh.outerNodes, mesh.endMid].map(String),
    "*MATERIAL, NAME=METAL",
    "*ELASTIC",
    `${number(1e6 * material.youngsModulus)}, ${number(material.poissonRatio)}`,
    "*SOLID SECTION, ELSET=RING, MATERIAL=METAL",
    number(thickness(section)),
    "*SPRING, ELSET=WEAK",
    "2",
    number(WEAK * scale),
    ...ropes.flatMap(({ law }) => law),
    "*BOUNDARY",
    ...mesh.backNodes.map((node) => `${node}, 1`),
    "*STEP, NLGEOM, INC=1000",
    "*STATIC",
    "0.001, 1., 1e-6, 0.2",
    "*CONTROLS, PARAMETERS=FIELD",
    "1e-5, 0.01, 0., , 0.02, 1e-5, 1e-3, 1e-8",
    "*BOUNDARY",
    ...ropes.flatMap(({ ground, from: [x, y] }) => [
      `${ground}, 1, 1, ${number(-x)}`,
      `${ground}, 2, 2, ${number(-y)}`,
      `${ground}, 3, 3, 0.`,
    ]),
    "*NODE PRINT, NSET=WATCHED, FREQUENCY=1000",
    "U",
    "*NODE PRINT, NSET=GROUND, FREQUENCY=1000",
    "RF",
    "*END STEP",
    "",
  ].join("\n");
}
