import * as v from "valibot";
import { closeInBore } from "../contact/closeInBore.js";
import type { SectionLine } from "../curves/ringFaces.js";
import type { RingDesign } from "../design/ringDesign.js";
import { tapeTest } from "../gauge/tapeTest.js";
import { interpolateTable } from "../numeric/interpolateTable.js";
import { SpecError } from "../spec/error.js";
import { parse } from "../spec/issues.js";
import { alignedDeviation } from "./alignedDeviation.js";
import { type Correction, correctionFor } from "./correction.js";
import type { Scan } from "./scannedRing.js";

/** How a correction is made. */
export interface ComparisonOptions {
  /** Share of the known error that is taken out at once, above 0 to 1. Default 1; less where the machine does not repeat itself. */
  gain?: number;
  /** The ring that the machine was told to make, where that was not the drawing: the last correction's `ring`. */
  commanded?: RingDesign;
}

const GAIN = "must be above 0 to 1";
const comparisonSchema = () =>
  v.strictObject({
    gain: v.optional(
      v.pipe(
        v.number(GAIN),
        v.check((value) => value > 0 && value <= 1, GAIN),
      ),
      1,
    ),
    commanded: v.optional(v.any()),
  });

/** A value of the ring as drawn and as made. */
export interface DrawnAndMade {
  /** Of the ring as drawn. */
  readonly drawn: number;
  /** Of the ring as made. */
  readonly made: number;
}

/** A ring as made beside its drawing. Arrays at the drawing's stations; mm, N, MPa, radians. */
export interface Comparison {
  /** Of the drawing's stations, from the back. */
  readonly theta: number[];
  /** Of the bore. */
  readonly outerRadius: number;
  /** Free curvature as made less that as drawn, 1/mm. */
  readonly curvature: number[];
  /** Half the measurement's band of that, 1/mm; 0 without a scan. */
  readonly band: number[];
  /** Outer face as made outward of that as drawn, laid over each other as well as can be. */
  readonly deviation: number[];
  /** Largest of these, without sign. */
  readonly largestDeviation: number;
  /** Contact pressure in the round bore. */
  readonly pressure: {
    /** Of the drawing. */
    readonly drawn: number[];
    /** That the ring as made makes itself. */
    readonly made: number[];
    /** Half the measurement's band of it; 0 without a scan. */
    readonly band: number[];
  };
  /** In the tape. */
  readonly tangentialForce: DrawnAndMade;
  /** At mid wall. */
  readonly freeGap: DrawnAndMade;
  /** Share of the circumference that lets no light past in the round bore, 0 to 1. */
  readonly contactShare: DrawnAndMade;
  /** What to tell the machine the next time. */
  readonly correction: Correction;
}

/**
 * A ring as made against the ring as drawn, and what to change on the machine.
 *
 * A machine that bent 1/mm too much is told to bend as much less, by the part of the error that stands out of the measurement's band:
 * Δκ·(1 − (band/Δκ)²), nothing within it. The pressure as made depends on more than that, on wall, modulus and gap.
 *
 * Method: docs/theory/11-measured-rings.md.
 *
 * @param made from `ringFromScan`, or any design, then without a band
 * @param drawn the design
 * @param options gain, and what the machine was told
 * @throws SpecError for a gain out of range, or rings of different bores
 * @throws NotFound when a contact, or an equilibrium in the tape, is not found
 *
 * @example
 * const made = designRing({ ...spec, load: { contactPressure: 0.14 } }); // or from ringFromScan
 * const { tangentialForce, correction } = compareRings(made, design);
 * tangentialForce.made; // 16.51, N
 * coiling(correction.ring).table; // for the next ring
 */
export function compareRings(
  made: RingDesign & {
    /** What its scan told, if it comes from one. */
    readonly scan?: Pick<Scan, "band" | "light">;
  },
  drawn: RingDesign,
  options: ComparisonOptions = {},
): Comparison {
  const { gain, commanded: told } = parse(comparisonSchema, options, "options");
  const commanded: RingDesign = told ?? drawn;
  if (made.spec.bore !== drawn.spec.bore) {
    throw new SpecError(
      "made.spec.bore",
      made.spec.bore,
      `must be that of the drawing, ${drawn.spec.bore} mm`,
    );
  }
  const { spec, free } = commanded;
  if (spec?.bore !== drawn.spec.bore || free?.theta?.length !== drawn.free.theta.length) {
    throw new SpecError(
      "commanded",
      { bore: spec?.bore, stations: spec?.stations },
      `must be a ring for the drawing's bore of ${drawn.spec.bore} mm, with its ${drawn.spec.stations} stations`,
    );
  }
  const { theta } = drawn.free;
  // By share of the length: ends are compared with ends.
  const scale = made.free.theta[made.free.theta.length - 1] / theta[theta.length - 1];
  const places = theta.map((angle) => scale * angle);
  const at = (values: readonly number[]) => interpolateTable(made.free.theta, values, places);
  const none = made.free.theta.map(() => 0);
  const band = at(made.scan?.band.curvature ?? none);
  const curvature = at(made.free.curvature).map((value, i) => value - drawn.free.curvature[i]);
  const line = { x: at(made.free.x), y: at(made.free.y), tangent: at(made.free.tangent) };
  const deviation = alignedDeviation(outerFace(line, made), outerFace(drawn.free, drawn));
  return {
    theta,
    outerRadius: drawn.installed.outerRadius,
    curvature,
    band,
    deviation,
    largestDeviation: Math.max(...deviation.map(Math.abs)),
    pressure: {
      drawn: drawn.installed.pressure,
      made: at(made.installed.pressure),
      band: at(made.scan?.band.pressure ?? none),
    },
    tangentialForce: { drawn: tapeTest(drawn).force, made: tapeTest(made).force },
    freeGap: { drawn: drawn.free.gap, made: made.free.gap },
    contactShare: {
      drawn: closeInBore(drawn).contactShare,
      made: (made.scan?.light.closure ?? closeInBore(made)).contactShare,
    },
    correction: correctionFor(drawn, commanded, { curvature, band }, gain),
  };
}

function outerFace({ x, y, tangent }: SectionLine, { spec }: RingDesign): SectionLine {
  const offset = spec.section.radialThickness / 2;
  return {
    x: x.map((value, i) => value + offset * Math.sin(tangent[i])),
    y: y.map((value, i) => value - offset * Math.cos(tangent[i])),
    tangent,
  };
}
