import { designRing } from "../design/designRing.js";
import type { RingDesign } from "../design/ringDesign.js";
import { type EngineFit, type EngineInput, engineFit } from "../fit/engineFit.js";
import type { Limits } from "../fit/grooveClearances.js";
import { stressTradeOff } from "../fit/stressTradeOff.js";
import { CAUTIONS } from "./cautions.js";
import {
  block,
  degrees,
  inMicrometres,
  millimetres,
  newtons,
  place,
  type Row,
  signed,
  warningsIn,
} from "./layout.js";
import { type Flags, readJson, specFlags, specFrom } from "./specSource.js";
import { writeDrawing } from "./writeFile.js";

interface FitFlags extends Flags {
  engine?: string;
  json?: boolean;
  svg?: string;
}

/** `camround fit`. */
export async function fitCommand(file: string | undefined, flags: FitFlags): Promise<void> {
  const { engine: engineFile, json, svg, ...rest } = flags;
  const spec = specFrom(file, specFlags(rest));
  const engine = (engineFile === undefined ? {} : readJson(engineFile, "--engine")) as EngineInput;
  const design = designRing(spec);
  const fit = engineFit(design, engine);
  if (svg !== undefined) {
    const { renderTradeOff } = await import("../svg/renderTradeOff.js");
    writeDrawing(svg, renderTradeOff(stressTradeOff(spec, { diameter: fit.spread[0].diameter })));
  }
  process.stdout.write(json ? `${JSON.stringify({ spec: design.spec, ...fit })}\n` : report(design, fit));
}

const HOW = {
  hand: "by hand, pull on each tip",
  pliers: "by pliers, couple",
  plates: "on plates, force on each tip",
};

function report(design: RingDesign, { section, spread, groove, hot }: EngineFit): string {
  const { properties, twist, face } = section;
  const sections = ["The ring in its engine"];
  sections.push(
    block("Section", [
      ["area", `${properties.area.toFixed(4)} mm²`],
      ["centroid outside mid wall", millimetres(properties.centroid.y, 4)],
      ["second moment, in the ring's plane", `${properties.inPlane.toFixed(4)} mm⁴`],
      ["second moment, across it", `${properties.lateral.toFixed(4)} mm⁴`],
      ["product of inertia", `${signed(properties.product)} mm⁴`],
      [
        "twist when closed, estimate",
        degrees(twist.angle),
        twist.angle === 0
          ? "none: the section is symmetric"
          : `${twist.angle > 0 ? "positive: the lower" : "negative: the upper"} outer edge on the bore, ${inMicrometres(Math.abs(twist.acrossFace))} across the face; softer by ${(100 * twist.softening).toFixed(1)} % while free to twist`,
      ],
    ]),
    block(
      "Running face, worn by",
      face.map(
        ({ wear, land, pressure }): Row => [
          inMicrometres(wear),
          `land ${millimetres(land)}`,
          `${pressure.toFixed(3)} MPa on it`,
        ],
      ),
    ),
    block(
      `Spread over ${millimetres(spread[0].diameter)}, largest stress`,
      spread.map((one): Row => {
        const load =
          one.couple === undefined ? newtons(one.force ?? 0) : `${(one.couple / 1000).toFixed(3)} N·m`;
        const held = one.yield
          ? `; ${(100 * one.yield.share).toFixed(0)} % of yield, set ${millimetres(one.yield.set)}`
          : "";
        return [
          HOW[one.by],
          `${one.stress.max.toFixed(0)} MPa`,
          one.opened === 0
            ? "passes as it is"
            : `${load}, ${place(one.stress.theta)}, tips ${millimetres(one.tipGap)} apart${held}`,
        ];
      }),
    ),
  );
  if (groove) {
    const limits = ([least, most]: Limits) =>
      least === most ? millimetres(least) : `${least.toFixed(3)} to ${millimetres(most)}`;
    const rows = (name: string, fit: NonNullable<typeof groove>["cold"]): Row[] => [
      [`axial clearance, ${name}`, limits(fit.axialClearance)],
      [`back clearance, ${name}`, limits(fit.backClearance)],
      [`sinks below the piston, ${name}`, limits(fit.sink)],
    ];
    sections.push(
      block("Groove", [
        ...rows("cold", groove.cold),
        ...(groove.hot ? rows("hot", groove.hot) : []),
        [
          "thickest wall that fits",
          millimetres(Math.min(groove.cold.largestWall, groove.hot?.largestWall ?? groove.cold.largestWall)),
        ],
      ]),
    );
  }
  if (hot) {
    sections.push(
      block("Hot", [
        [
          "gap between the ends",
          millimetres(hot.closedGap),
          hot.butts ? "THE ENDS BUTT" : `cold ${millimetres(design.spec.closedGap)}`,
        ],
        [
          "ends meet with the ring at",
          hot.buttingTemperature === undefined ? "no temperature" : `${hot.buttingTemperature.toFixed(0)} °C`,
          hot.buttingTemperature === undefined
            ? "that the material's data reach"
            : "the bore as warm as given",
        ],
        ["smallest cold gap", millimetres(hot.smallestColdGap), "with the factor for uncertainty"],
        ...(hot.tangentialForce === undefined
          ? []
          : ([
              [
                "tangential force Ft",
                newtons(hot.tangentialForce),
                `${(100 * (hot.forceShare ?? 1)).toFixed(1)} % of cold`,
              ],
            ] as Row[])),
      ]),
    );
    sections.push(...warningsIn(hot.warnings));
  }
  sections.push(CAUTIONS);
  return `${sections.join("\n\n")}\n`;
}
