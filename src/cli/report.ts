import type { Conformability } from "../assess/conformability.js";
import type { PressureDescription } from "../assess/describePressure.js";
import type { RingDesign } from "../design/ringDesign.js";
import type { HeldEnds } from "../ends/endsInBand.js";
import type { ClosureProof } from "../proof/proveClosure.js";
import { UNITS } from "../spec/quantity.js";
import { CAUTIONS } from "./cautions.js";
import {
  block,
  degrees,
  inches,
  micrometres,
  millimetres,
  newtons,
  type Row,
  signed,
  small,
  warningsIn,
} from "./layout.js";
import { conformabilityRows, pressureInWords, pressureRows, wallRows } from "./pressureRows.js";

/**
 * The design as a page of text for a person: mm with inch beside it, angles in degrees, cautions at the foot.
 *
 * @param design the ring
 * @param proof its closure proof
 * @param pressure what its pressure is like
 * @param follows how far it follows a bore
 * @param held the ends at a part-closed opening, if asked for
 */
export function report(
  design: RingDesign,
  proof: ClosureProof,
  pressure: PressureDescription,
  follows: Conformability,
  held?: HeldEnds,
): string {
  const symmetric = design.ends.left.turn === design.ends.right.turn;
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
    `Free-shape ring, ${spec.theory} bar theory, ${pressureInWords(spec.pressure)}`,
    block("Order", [
      length("bore d1", spec.bore),
      length("radial wall thickness a1", radialThickness),
      length("axial height h1", axialHeight),
      ...wallRows(design),
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
        signed(load.balance),
        `p = p0·(${spec.pressure.shape === "uniform" ? "1" : "wanted"} + e·cos θ), θ from the back, so that the pressure balances`,
      ],
      ...(load.balanceSine === 0 ? [] : [["balance f", signed(load.balanceSine), "and + f·sin θ"] as Row]),
    ]),
    block("Free shape", [
      length("free gap m, at mid wall", free.gap),
      length("centroid line, end to end", free.arcLength.at(-1) as number),
      length("bend radius at the back", 1 / free.curvature[spec.stations]),
      length("bend radius at the ends", 1 / free.curvature[0]),
    ]),
    block("Ends", [
      ...(symmetric
        ? ([
            ["turn of each end on opening", degrees(ends.turn)],
            ["face to symmetry axis, free", degrees(ends.faceToAxis)],
          ] as Row[])
        : ([
            ["turn of the right end on opening", degrees(ends.right.turn)],
            ["turn of the left end on opening", degrees(ends.left.turn)],
            ["right face to axis through back and gap, free", degrees(ends.right.faceToAxis)],
            ["left face to axis through back and gap, free", degrees(ends.left.faceToAxis)],
          ] as Row[])),
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
      [
        "at",
        degrees(stress.closing.theta),
        stress.closing.overSlot
          ? "from the back, over a slot; its root's notch effect is not in it"
          : "from the back",
      ],
      stressRow("outer fibre there", stress.closing.outer),
      stressRow("inner fibre there", stress.closing.inner),
    ]),
    block("Contact pressure", pressureRows(pressure)),
    block(
      "Bore out of round: amplitudes of the radius that it follows all round, away from the gap",
      conformabilityRows(follows),
    ),
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
  sections.push(...warningsIn(design.warnings.map(({ message }) => message)), CAUTIONS);
  return `${sections.join("\n\n")}\n`;
}

function heldRows({ gap, pull, faceToAxis, left, right }: HeldEnds): Row[] {
  const at = `held by a band at ${millimetres(gap)}`;
  const reference = "face to the square of the band's pull";
  return [
    ...(left.turn === right.turn
      ? ([[at, degrees(faceToAxis), "face to symmetry axis"]] as Row[])
      : ([
          [`${at}, right`, degrees(right.turn), reference],
          [`${at}, left`, degrees(left.turn), reference],
        ] as Row[])),
    ["pull on that band", newtons(pull)],
  ];
}
