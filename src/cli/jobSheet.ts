import type { Arc } from "../curves/arcs.js";
import type { CurveFit } from "../curves/fitContour.js";
import type { CutSetup } from "../making/gapCutting.js";
import type { MakingPlan } from "../making/planMaking.js";
import { CAUTIONS } from "./cautions.js";
import { degrees, inches, inMicrometres, millimetres, newtons } from "./layout.js";

type Line = readonly [label: string, value: string, also?: string];

/** The job sheet: one page for the bench, in Markdown that reads as it stands. */
export function jobSheet(plan: MakingPlan, outline: CurveFit<Arc>, files: readonly string[]): string {
  const { making, metal, added, coiling, cam, gap, heatSet } = plan;
  const { design } = metal;
  const { spec, free, load, stress, warnings } = design;
  const { section } = spec;
  const sized = (value: number) => `${millimetres(value)} (${inches(value)})`;
  const { table, mass, springback } = coiling;
  const atEnd = table.length.length - 1;
  const name = [spec.bore, section.radialThickness, section.axialHeight].map((value) =>
    Number(value.toFixed(3)),
  );
  const changed = Object.values(added).some((value) => value !== 0);

  const parts: string[] = [
    `# Job sheet: ring Ø${name[0]} × ${name[1]} × ${name[2]} mm`,
    chapter("Ring", [
      ["bore, closed gap", `${sized(spec.bore)}, ${millimetres(spec.closedGap)}`],
      ["free gap, mid wall", sized(free.gap), changed ? `as made ${millimetres(gap.setups[0].gap)}` : ""],
      ...(metal.told === design
        ? []
        : ([
            [
              "to tell the machine",
              `a ring of ${millimetres(metal.told.free.gap)} free gap`,
              "coiling, cam, mandrel and outline are that ring's, with the correction; gap cutting, template and gauge those of the ring that comes out",
            ],
          ] as Line[])),
      ["Ft, p0", `${newtons(load.tangentialForce)}, ${load.contactPressure.toFixed(4)} MPa`],
      ["largest closing stress", `${stress.closing.max.toFixed(0)} MPa`],
      [
        "section to make",
        `${millimetres(metal.radialThickness)} radial × ${millimetres(metal.axialHeight)} high`,
      ],
      ...(changed
        ? ([
            [
              "metal on the finished faces",
              `outer ${millimetres(added.outer)}, inner ${millimetres(added.inner)}, sides ${millimetres(added.sides)} each, ends ${millimetres(added.ends)} each`,
              metal.coatingStiffness === "counted"
                ? "coating counted as metal"
                : "stiffness of the coating neglected",
            ],
          ] as Line[])
        : []),
    ]),
    chapter("Coil (coiling.csv)", [
      [
        "wire for one ring",
        sized(coiling.blankLength),
        `ring itself ${millimetres(coiling.developedLength)}`,
      ],
      [
        "weight",
        `${(1000 * mass.ring).toFixed(2)} g a ring`,
        `${mass.batch.toFixed(3)} kg of wire for ${making.coiling.batch}`,
      ],
      [
        "free radius, mid wall",
        `${millimetres(coiling.back.radius)} at the back`,
        `${millimetres(table.radius[atEnd])} at the ends`,
      ],
      ...(springback && table.bendRadius && coiling.back.bendRadius
        ? ([
            [
              "bend to, mid wall",
              `${millimetres(coiling.back.bendRadius)} at the back`,
              `${millimetres(table.bendRadius[atEnd])} at the ends`,
            ],
            [
              "wire 1 % stronger",
              `free gap ${signedMillimetres(springback.gapPerYieldPercent)}`,
              `left out by the relation: ${signedMillimetres(springback.gapNeglected)}`,
            ],
          ] as Line[])
        : ([["springback", "not computed", "give the wire's yield stress"]] as Line[])),
    ]),
    chapter("Cam turn (cam.csv)", [
      [
        "centre, from the bore's",
        `x ${millimetres(cam.centre[0])}, y ${millimetres(cam.centre[1])}`,
        "y towards the gap",
      ],
      [
        "lift, outer and inner face",
        `${millimetres(cam.outer.largestLift)}, ${millimetres(cam.inner.largestLift)}`,
      ],
      [
        "largest acceleration",
        `${cam.outer.largestAcceleration.toFixed(2)} m/s² outside, ${cam.inner.largestAcceleration.toFixed(2)} inside`,
        `at ${making.cam.spindleSpeed} rev/min`,
      ],
      [
        "cut out afterwards",
        `${degrees(cam.cutOut.from)} over the gap to ${degrees(cam.cutOut.to)}`,
        "from the back",
      ],
    ]),
    ...(heatSet
      ? [
          chapter("Shape setting (mandrel.dxf)", [
            ["gap on the mandrel", millimetres(heatSet.gap)],
            [
              "free gap expected",
              millimetres(heatSet.freeGap.expected),
              `if ${making.heatSet?.remaining} of the bending remains`,
            ],
            [
              "if less or more remains",
              `${millimetres(heatSet.freeGap.ifLess)}, ${millimetres(heatSet.freeGap.ifMore)}`,
              `by ${making.heatSet?.uncertainty}`,
            ],
          ]),
        ]
      : []),
    ["## Gap (ends.csv)", "", ...gap.setups.map(setupLine)].join("\n"),
    chapter("Filing", [
      ["closed gap as cut", millimetres(gap.closedGap), `${millimetres(gap.filingStock)} left on each end`],
      ...(gap.filingStock > 0
        ? gap.filing
            .slice(1)
            .map(
              ({ filed, closedGap }): Line => [
                `${millimetres(filed)} off each end`,
                `closed gap ${millimetres(closedGap)}`,
              ],
            )
        : []),
      ["a bore 0.01 mm larger", `gap ${millimetres(Math.PI * 0.01)} wider`],
    ]),
    chapter("Files", [
      [
        "outline.dxf",
        `${outline.pieces.length} arcs and lines, ${inMicrometres(outline.deviation)} off at most`,
        `a polyline would take ${outline.chords}`,
      ],
      ["also", files.filter((file) => file !== "outline.dxf").join(", ")],
    ]),
    ...(warnings.length > 0
      ? [["## Warnings", "", ...warnings.map(({ message }) => `- ${message}`)].join("\n")]
      : []),
    `## ${CAUTIONS.replace("\n", "\n\n").replace(/^ {2}/gm, "")}
- Coiled and spread wire springs: guards at the coiler, eye protection, ends under control. Wire cutting: no hand near the
  wire, mind the dielectric. Soaks follow the steel maker's sheet; too hot or too cold leaves rings soft or brittle.`,
  ];
  return `${parts.join("\n\n")}\n`;
}

function chapter(title: string, lines: readonly Line[]): string {
  return [
    `## ${title}`,
    "",
    ...lines.map(([label, value, also]) => `- ${label}: **${value}**${also ? `; ${also}` : ""}`),
  ].join("\n");
}

const HOLD = {
  free: "free in a nest",
  held: "held part-closed in a band",
  closed: "closed in a sleeve",
};

function setupLine({ hold, gap, gapOuter, gapInner, faces, pull, parallelCutter }: CutSetup): string {
  const angles =
    Math.abs(faces.left - faces.right) < 1e-9
      ? `${degrees(faces.right)} each`
      : `${degrees(faces.left)} left, ${degrees(faces.right)} right`;
  const cut = `- ${HOLD[hold]}: **${millimetres(gap)}** at mid wall, ${millimetres(gapOuter)} outside, ${millimetres(gapInner)} inside; faces **${angles}** to ${hold === "held" ? "the square of the pull" : "the axis"}`;
  const band = pull === undefined ? "" : `; pull ${newtons(pull)}`;
  if (hold === "closed") return cut;
  const left =
    parallelCutter.gapOuter < 0 || parallelCutter.gapInner < 0
      ? "the ends would meet before the ring is closed"
      : `${millimetres(parallelCutter.gapOuter)} outside, ${millimetres(parallelCutter.gapInner)} inside when closed`;
  return `${cut}${band}. One parallel cutter would leave ${left}`;
}

const signedMillimetres = (value: number) => `${value < 0 ? "-" : "+"}${millimetres(Math.abs(value))}`;
