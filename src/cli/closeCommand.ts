import type { BoreInput } from "../contact/boreSchema.js";
import { type Closure, closeInBore } from "../contact/closeInBore.js";
import { readQuantity } from "../spec/quantity.js";
import { CAUTIONS } from "./cautions.js";
import {
  block,
  degrees,
  inMicrometres,
  lowestOf,
  millimetres,
  newtons,
  percent,
  place,
  type Row,
  small,
} from "./layout.js";
import { lengthFlag } from "./lengthFlag.js";
import { ringFrom, ringSource } from "./ringSource.js";
import { type Flags, numberOrText, readJson, specFlags } from "./specSource.js";
import { writeDrawing } from "./writeFile.js";

interface CloseFlags extends Flags {
  bore?: string;
  json?: boolean;
  svg?: string;
  sensitivity?: string;
  freeRadius?: string;
}

/** Here --bore is no field of the ring. */
const MISSING =
  "RING.json must be given, a spec or a design as printed by camround design --json: --bore is what the ring closes in";

/** `camround close`. */
export async function closeCommand(file: string | undefined, flags: CloseFlags): Promise<void> {
  const { bore: boreFile, ...rest } = flags;
  const bore = boreFrom(boreFile);
  const ring = ringFrom(ringSource(file, specFlags(rest), MISSING), flags.freeRadius);
  const options =
    flags.sensitivity === undefined ? {} : { sensitivity: lengthFlag("--sensitivity", flags.sensitivity) };
  const closure = closeInBore(ring, bore, options);
  if (flags.svg !== undefined) {
    const { renderClosure } = await import("../svg/renderClosure.js");
    writeDrawing(flags.svg, renderClosure(closure));
  }
  process.stdout.write(
    flags.json ? `${JSON.stringify({ spec: ring.spec, bore, ...closure })}\n` : report(closure),
  );
}

/** The ring's own bore; a round one of a diameter; or what a file tells. */
function boreFrom(given: string | undefined): BoreInput {
  if (given === undefined) return {};
  const isLength = typeof readQuantity(numberOrText(given), "length") === "number";
  return isLength ? { diameter: lengthFlag("--bore", given) } : (readJson(given, "--bore") as BoreInput);
}

/** A slit narrower than this is the solver's rounding, mm. */
const SLIT = 1e-6;

function report(closure: Closure): string {
  const { theta, pressure, clearance, sensitivity, lightGaps, pointForces } = closure;
  const lowest = lowestOf(pressure);
  const widest = Math.max(...clearance);
  const rows: Row[] = [
    [
      "light-tight share of the circumference",
      percent(closure.contactShare),
      `light from ${inMicrometres(sensitivity)} on`,
    ],
    [
      "closed gap, as it comes out",
      millimetres(closure.closedGap, 4),
      closure.endsTouch ? "negative: the ends butt" : "",
    ],
    ["angle between the faces", degrees(closure.facesAngle), "positive where wider apart outside"],
    ["contact force, all round", newtons(closure.force)],
    ["lowest pressure", `${pressure[lowest].toFixed(4)} MPa`, place(theta[lowest])],
    [
      "widest slit",
      inMicrometres(widest),
      widest > SLIT && widest <= sensitivity ? "the ring lifts there by less than the eye sees" : "",
    ],
    ["force left over", small(closure.forceResidual, 1e-9), `of it, after ${closure.iterations} iterations`],
  ];
  const sections = ["The ring in its bore", block("Contact", rows)];
  if (lightGaps.length > 0) {
    sections.push(
      block(
        "Light gaps, from the back",
        lightGaps.map(
          ({ from, to, largest, area }): Row => [
            `${degrees(from)} to ${degrees(to)}`,
            inMicrometres(largest),
            `widest, ${area.toFixed(3)} mm² open`,
          ],
        ),
      ),
    );
  }
  if (pointForces.length > 0) {
    sections.push(
      block(
        "Forces on points, from the back",
        pointForces.map(({ theta: at, force }): Row => [degrees(at), newtons(force)]),
      ),
    );
  }
  if (closure.endsTouch) {
    sections.push(
      "The ends would pass through each other: they butt, and the ring lies otherwise than shown.",
    );
  }
  sections.push(CAUTIONS);
  return `${sections.join("\n\n")}\n`;
}
