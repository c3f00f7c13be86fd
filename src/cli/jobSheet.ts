import type { Arc } from "../curves/arcs.js";
import type { CurveFit } from "../curves/fitContour.js";
import { metalFrom } from "../making/allowances.js";
import type { CutSetup } from "../making/gapCutting.js";
import type { MakingPlan } from "../making/planMaking.js";
import { CAUTIONS } from "./cautions.js";
import { degrees, inches, inMicrometres, millimetres, newtons, warningsIn } from "./layout.js";

type Face = keyof MakingPlan["making"]["allowances"]["coating"];
type Line = readonly [label: string, value: string, also?: string];

/** The job sheet: one page for the bench, in Markdown that reads as it stands. */
export function jobSheet(plan: MakingPlan, outline: CurveFit<Arc>, files: readonly string[]): string {
  const { making, metal, coiling, cam, gap, heatSet } = plan;
  const { design, finished } = metal;
  const { load, stress, warnings } = design;
  const { spec } = finished;
  const { section } = spec;
  const sized = (value: number) => `${millimetres(value)} (${inches(value)})`;
  const { table, mass, springback } = coiling;
  const atEnd = table.length.length - 1;
  const name = [spec.bore, section.radialThickness, section.axialHeight].map((value) =>
    Number(value.toFixed(3)),
  );
  const { coating, lapping } = making.allowances;
  const metalOn = (face: Face) => metalFrom(0, coating[face], lapping[face]);
  const onFinished: Record<Face, number> = {
    outer: metalOn("outer"),
    inner: metalOn("inner"),
    sides: metalOn("sides"),
    ends: metalOn("ends") + gap.filingStock,
  };
  const changed = Object.values(onFinished).some((value) => value !== 0);
  const coats = Object.entries(coating)
    .filter(([, thickness]) => thickness > 0)
    .map(([face, thickness]) => `${face} ${millimetres(thickness)}`);

  const parts: string[] = [
    `# Job sheet: ring Ø${name[0]} × ${name[1]} × ${name[2]} mm`,
    chapter("Ring", [
      ["bore, closed gap", `${sized(spec.bore)}, ${millimetres(spec.closedGap)}`],
      [
        "free gap, mid wall",
        sized(finished.freeGap),
        changed ? `as made ${millimetres(gap.setups[0].gap)}` : "",
      ],
      ...(metal.told === design
        ? []
        : ([
            [
              "to tell the machine",
              `a ring of ${millimetres(metal.told.free.gap)} free gap`,
              "coiling, cam, mandrel and outline are that ring's, with the correction; gap cutting, template and gauge those of the ring that comes out",
            ],
          ] as Line[])),
      ["Ft, p0", `${newtons(load.tangentialForce)}, ${finished.contactPressure.toFixed(4)} MPa`],
      ["largest closing stress", `${stress.closing.max.toFixed(0)} MPa`],
      [
        "section to make",
        `${millimetres(metal.radialThickness)} radial × ${millimetres(metal.axialHeight)} high`,
      ],
      ...(changed || coats.length > 0
        ? ([
            [
              "metal on the finished faces",
              `outer ${millimetres(onFinished.outer)}, inner ${millimetres(onFinished.inner)}, sides ${millimetres(onFinished.sides)} each, ends ${millimetres(onFinished.ends)} each`,
              coats.length > 0
                ? `coating to put on: ${coats.join(", ")}, ${metal.coatingStiffness === "counted" ? "counted as metal" : "its stiffness neglected"}`
                : "",
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
        `${mass.batch.toFixed(3)} kg of wire for ${making.coiling.batch}; at ${coiling.density.value} kg/m³, ${DENSITY_OF[coiling.density.of]}`,
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
    [
      "## Gap (ends.csv)",
      "",
      ...gap.setups.map((setup) =>
        setupLine(setup, spec.bore === design.spec.bore ? undefined : design.spec.bore),
      ),
    ].join("\n"),
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
    ...warningsIn(
      warnings.map(({ message }) => message),
      "## Warnings\n",
      "- ",
    ),
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

const DENSITY_OF = {
  option: "as given",
  material: "the material's",
  steel: "that of steel, since the material has none",
};

const HOLD = {
  free: "free in a nest",
  held: "held part-closed in a band",
  closed: "closed in a sleeve",
};

/** @param sleeve bore of the sleeve, if the metal closes in another one than the finished ring does */
function setupLine(
  { hold, gap, gapOuter, gapInner, faces, pull, parallelCutter }: CutSetup,
  sleeve: number | undefined,
): string {
  const angles =
    Math.abs(faces.left - faces.right) < 1e-9
      ? `${degrees(faces.right)} each`
      : `${degrees(faces.left)} left, ${degrees(faces.right)} right`;
  const cut = `- ${HOLD[hold]}: **${millimetres(gap)}** at mid wall, ${millimetres(gapOuter)} outside, ${millimetres(gapInner)} inside; faces **${angles}** to ${hold === "held" ? "the square of the pull" : "the axis"}`;
  const band = pull === undefined ? "" : `; pull ${newtons(pull)}`;
  if (hold === "closed")
    return sleeve === undefined ? cut : `${cut}; bare, in a sleeve of ${millimetres(sleeve)} bore`;
  const left =
    parallelCutter.gapOuter < 0 || parallelCutter.gapInner < 0
      ? "the ends would meet before the ring is closed"
      : `${millimetres(parallelCutter.gapOuter)} outside, ${millimetres(parallelCutter.gapInner)} inside when closed`;
  return `${cut}${band}. One parallel cutter would leave ${left}`;
}

const signedMillimetres = (value: number) => `${value < 0 ? "-" : "+"}${millimetres(Math.abs(value))}`;
