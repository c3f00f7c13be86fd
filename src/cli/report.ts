import type { RingDesign } from "../design/ringDesign.js";
import type { HeldEnds } from "../ends/endsInBand.js";
import type { ClosureProof } from "../proof/proveClosure.js";
import { UNITS } from "../spec/quantity.js";

const degrees = (radians: number) => `${((radians * 180) / Math.PI).toFixed(4)}°`;
const millimetres = (value: number, digits = 3) => `${value.toFixed(digits)} mm`;
const inches = (value: number) => `${(value / 25.4).toFixed(4)} in`;
/** An error figure; below the floor it is rounding noise, which differs from machine to machine. */
const small = (value: number, floor: number) =>
  Math.abs(value) < floor ? `under ${floor}` : value.toExponential(1);
const micrometres = (value: number) => `${small(1000 * value, 1e-6)} µm`;
const newtons = (value: number) => `${value.toFixed(2)} N`;

type Row = [label: string, value: string, also?: string];

/**
 * The design as a page of text for a person: mm with inch beside it, angles in degrees, cautions at the foot.
 *
 * @param design the ring
 * @param proof its closure proof
 * @param held the ends at a part-closed opening, if asked for
 */
export function report(design: RingDesign, proof: ClosureProof, held?: HeldEnds): string {
  const { spec, load, ends, stress, free, installed } = design;
  const { radialThickness, axialHeight } = spec.section;
  const { material } = spec;
  const length = (label: string, value: number): Row => [label, millimetres(value), inches(value)];
  const pounds = (value: number) => `${(value / UNITS.force.lbf).toFixed(3)} lbf`;
  const psi = (value: number) => value / UNITS.pressure.psi;
  const stressRow = (label: string, value: number): Row => [
    label,
    `${value.toFixed(0)} MPa`,
    `${(psi(value) / 1000).toFixed(1)} ksi`,
  ];

  const sections: string[] = [
    `Free-shape ring, ${spec.theory} bar theory, uniform pressure`,
    block("Order", [
      length("bore d1", spec.bore),
      length("radial wall thickness a1", radialThickness),
      length("axial height h1", axialHeight),
      length("closed gap s1", spec.closedGap),
      [
        "material",
        `${material.name ? `${material.name}, ` : ""}E ${(material.youngsModulus / 1000).toFixed(1)} GPa`,
      ],
    ]),
    block("Load", [
      ["tangential force Ft", newtons(load.tangentialForce), pounds(load.tangentialForce)],
      [
        "contact pressure p0",
        `${load.contactPressure.toFixed(4)} MPa`,
        `${psi(load.contactPressure).toFixed(2)} psi`,
      ],
      ["stiffness parameter K", design.stiffnessParameter.toFixed(5)],
      [
        "balance e",
        load.balance.toFixed(5),
        "p = p0·(1 + e·cos θ), θ from the back, so that the pressure balances",
      ],
    ]),
    block("Free shape", [
      length("free gap m, at mid wall", free.gap),
      length("centroid line, end to end", free.arcLength.at(-1) as number),
      length("bend radius at the back", 1 / free.curvature[spec.stations]),
      length("bend radius at the ends", 1 / free.curvature[0]),
    ]),
    block("Ends", [
      ["turn of each end on opening", degrees(ends.turn)],
      ["face to symmetry axis, free", degrees(ends.faceToAxis)],
      ["face to section normal", degrees(ends.faceToNormal), "the same in every state"],
      [
        "wedge if cut square",
        millimetres(ends.wedgeIfSquare),
        "closed gap wider outside than inside by this",
      ],
      ...(held ? heldRows(held) : []),
    ]),
    block("Stress, closed", [
      stressRow("largest", stress.closing.max),
      ["at", degrees(stress.closing.theta), "from the back"],
      stressRow("outer fibre there", stress.closing.outer),
      stressRow("inner fibre there", stress.closing.inner),
    ]),
    block("Proof of closure: the free ring closed again by a forward computation", [
      [
        "mean radius, off by",
        micrometres(proof.meanRadiusError),
        `bore radius ${millimetres(installed.outerRadius)}`,
      ],
      ["largest radial error", micrometres(proof.radialError)],
      ["out of round", micrometres(proof.outOfRound), "peak to peak"],
      [
        "closed gap",
        millimetres(proof.closedGap, 6),
        `off by ${micrometres(proof.closedGap - spec.closedGap)}`,
      ],
      ["faces out of parallel", `${small(proof.facesOutOfParallel, 1e-9)} rad`],
      ["force left over", small(proof.forceResidual, 1e-9), "of Ft"],
    ]),
  ];
  if (design.warnings.length > 0) {
    sections.push(["Warnings", ...design.warnings.map(({ message }) => `  ! ${message}`)].join("\n"));
  }
  sections.push(CAUTIONS);
  return `${sections.join("\n\n")}\n`;
}

function heldRows({ gap, pull, faceToAxis }: HeldEnds): Row[] {
  return [
    [`held by a band at ${millimetres(gap)}`, degrees(faceToAxis), "face to symmetry axis"],
    ["pull on that band", newtons(pull)],
  ];
}

/** Rows in columns that fit the widest label and value. */
function block(title: string, rows: Row[]): string {
  const widest = (column: 0 | 1) => Math.max(...rows.map((row) => row[column].length));
  const [labels, values] = [widest(0), widest(1)];
  const lines = rows.map(([label, value, also = ""]) =>
    `  ${label.padEnd(labels)}  ${value.padStart(values)}  ${also}`.trimEnd(),
  );
  return [title, ...lines].join("\n");
}

const CAUTIONS = `Cautions
  This is design guidance, computed for an ideal elastic ring. The engine maker's limits, local codes and
  qualified practice come first.
  - Ends that butt when hot score the bore and break lands: check the gap for heat at both ends of ring travel,
    and err on the wide side.
  - The stress is that of the closed ring. Spreading it over the piston usually costs more: spread no further
    than needed, and take special care with cast iron.
  - A closed or banded ring stores energy: wear eye protection and hold it in a sleeve or band.
  - Grinding, filing and cutting the gap: guards, eye protection, no loose ring in the hand; file from the outer
    face inwards, keep the ends square, deburr.`;
