import { cutFace } from "../curves/contour.js";
import { parallelCurve } from "../curves/curve.js";
import { integrateAlong, measureOutline } from "../curves/measures.js";
import { type AddedMetal, endFacePoint, type FreeBody, NO_METAL, ringFaces } from "../curves/ringFaces.js";
import { interpolateTable } from "../numeric/interpolateTable.js";
import { isProfiled } from "../section/curvedSection.js";
import { profileOf } from "../section/profile.js";
import { sectionProperties } from "../section/sectionProperties.js";
import { SpecError } from "../spec/error.js";
import { parse } from "../spec/issues.js";
import { checkAdded } from "./checkAdded.js";
import { type CoilingInput, coilingSchema } from "./makingSchema.js";
import {
  bendingThickness,
  curvatureAfter,
  curvatureBefore,
  type SpringbackWire,
  yieldCurvature,
} from "./springback.js";

/**
 * Bend radius along the wire, from the left end of the blank to the right one, at equal steps of its length. mm, radians; radii are of the free
 * wire, lengths count from the left end of the blank.
 */
export interface CoilingTable {
  /** Along mid wall. */
  readonly length: number[];
  /** Installed angle from the back; beyond the ends, in the part that is cut off, it goes on. */
  readonly theta: number[];
  /** At mid wall, free. */
  readonly radius: number[];
  /** Of the inner face, free. */
  readonly innerRadius: number[];
  /** Of the outer face, free. */
  readonly outerRadius: number[];
  /** Along the inner fibre. */
  readonly innerLength: number[];
  /** Along the outer fibre. */
  readonly outerLength: number[];
  /** Mid-wall radius to which the wire must be bent so that it springs back to `radius`; with a yield stress only. */
  readonly bendRadius?: number[];
}

/** What a coiler needs to know of one ring. */
export interface Coiling {
  /** Along the wire. */
  readonly table: CoilingTable;
  /** Of the wire, mm. */
  readonly radialThickness: number;
  /** Of the wire, mm. */
  readonly axialHeight: number;
  /** Of the ring along mid wall, from one outer corner to the other, mm. */
  readonly developedLength: number;
  /** Developed length with what is ground off and lost to the cut, mm. */
  readonly blankLength: number;
  /** That the weights are reckoned with. */
  readonly density: {
    /** kg/m³. */
    readonly value: number;
    /** Whose it is: given as an option, the material's, or steel's for want of both. */
    readonly of: "option" | "material" | "steel";
  };
  /** kg. */
  readonly mass: {
    /** Of one ring as coiled and cut. */
    readonly ring: number;
    /** Of the wire for one ring. */
    readonly wire: number;
    /** Of the wire for all. */
    readonly batch: number;
  };
  /** Where a yield stress is given. */
  readonly springback?: Springback;
  /** Radius at the back, and what to bend to there; the table need not have a row just there. */
  readonly back: {
    /** At mid wall, free, mm. */
    readonly radius: number;
    /** Of mid wall on the tool, mm; with a yield stress only. */
    readonly bendRadius?: number;
  };
}

/** How the wire springs back, and what that leaves uncertain. */
export interface Springback {
  /** Mid-wall radius below which the wire yields, mm. */
  readonly yieldRadius: number;
  /** Change of the free gap if the wire is stronger by one per cent, mm. */
  readonly gapPerYieldPercent: number;
  /** Change of the free gap by the wire's own curvature on the tool, which the straight-bar relation leaves out, mm. */
  readonly gapNeglected: number;
}

/** kg/m³: steel, common practice, no source. */
const STEEL = 7850;

/**
 * What a coiler needs: bend radius along the wire, length of the blank, wire by weight and, with a yield stress, the radius on the tool.
 *
 * The mid wall keeps its length in bending: exact for a rigid–plastic wire bent by couples (R. Hill, The Mathematical Theory of
 * Plasticity, 1950, sheet bending; from memory), a good estimate for others. Springback by Gardiner's relation for a straight, elastic–
 * perfectly plastic wire: it leaves out hardening, curvature and stress from the reel, friction and, where the wire is much higher than
 * thick, the plane strain in it. Where the wall varies it is cut after coiling: the wire is of the nominal thickness.
 *
 * A profile springs back as the rectangle of thickness √(12·I/A) that has its radius of gyration, and weighs its area times mid wall's length; that its
 * centroid lies off mid wall is left out (of a keystone of 15°, 4.4 mm × 2 mm in a bore of 118 mm, half a per cent of the ring).
 *
 * Method: docs/theory/10-making.md.
 *
 * @param ring a design
 * @param options yield stress (MPa) for springback; density (kg/m³, default the material's; if that has none, 7850: steel, common practice, no source);
 * rings in the batch; kerf and grinding (mm); rows of the table
 * @param added metal on the faces as coiled, mm; none if not given
 * @throws SpecError when an option is out of range, or the metal is not finite or leaves no wire
 *
 * @example
 * coiling(design, { yieldStress: 1400 }).back.bendRadius; // 46.43, mm
 */
export function coiling(ring: FreeBody, options: CoilingInput = {}, added: AddedMetal = NO_METAL): Coiling {
  const {
    yieldStress,
    density: given,
    batch,
    kerf,
    grinding,
    rows,
  } = parse(coilingSchema, options, "options");
  checkAdded(ring, added);
  const { section, material } = ring.spec;
  const { free } = ring;
  const axialHeight = section.axialHeight + 2 * added.sides;
  const thickness = section.radialThickness + added.outer + added.inner;
  /** Of the wire's mid wall outward of the ring's line. */
  const shift = (added.outer - added.inner) / 2;
  const last = free.theta.length - 1;
  const { line, outer } = ringFaces(ring, added);
  const cut = cutFace(ring, outer, added.ends);
  /** Mid-wall length beyond the ends of the line, by what the parameter runs past them there. */
  const beyond = (at: number, past: number) =>
    past * line.at(free.theta[at]).speed * (1 + shift * free.curvature[at]);
  const [leftMore, rightMore] = [
    beyond(0, free.theta[0] - cut.from),
    beyond(last, cut.to - free.theta[last]),
  ];
  const along = free.arcLength.map((s, i) => s + shift * (free.tangent[i] - free.tangent[0]));
  const developedLength = leftMore + along[last] + rightMore;
  const blankLength = developedLength + 2 * grinding + kerf;
  const start = -leftMore - grinding - kerf / 2;

  const length = Array.from({ length: rows }, (_, k) => (blankLength * k) / (rows - 1));
  const places = length.map((value) => value + start);
  const within = places.map((place) => Math.min(Math.max(place, 0), along[last]));
  const atPlaces = (values: readonly number[]) => interpolateTable(along, values, within);
  const radius = atPlaces(free.curvature).map((curvature) => 1 / curvature + shift);
  const turned = (table: number[]) => table.map((value, k) => value + (places[k] - within[k]) / radius[k]);
  const tangent = turned(atPlaces(free.tangent));
  const fibre = (offset: number) => length.map((value, k) => value + offset * (tangent[k] - tangent[0]));
  const { filled, bending } = shareOf(section);
  const wire: SpringbackWire | undefined =
    yieldStress === undefined
      ? undefined
      : { yieldStress, youngsModulus: material.youngsModulus, thickness: bending * thickness };

  const backRadius = 1 / free.curvature[free.theta.indexOf(0)] + shift;
  if (wire) checkBend(radius, wire, thickness, options.yieldStress);

  const density = densityOf(given, material.density);
  const perVolume = filled * density.value * 1e-9;
  const volume = measureOutline(ring, added).area * axialHeight;
  const wireMass = thickness * axialHeight * blankLength * perVolume;
  return {
    table: {
      length,
      theta: turned(atPlaces(free.theta)),
      radius,
      innerRadius: radius.map((value) => value - thickness / 2),
      outerRadius: radius.map((value) => value + thickness / 2),
      innerLength: fibre(-thickness / 2),
      outerLength: fibre(thickness / 2),
      ...(wire && { bendRadius: radius.map((value) => bendRadiusFor(value, wire)) }),
    },
    back: {
      radius: backRadius,
      ...(wire && { bendRadius: bendRadiusFor(backRadius, wire) }),
    },
    radialThickness: thickness,
    axialHeight,
    developedLength,
    blankLength,
    density,
    mass: { ring: volume * perVolume, wire: wireMass, batch: wireMass * batch },
    ...(wire && { springback: springbackOf(ring, wire, shift) }),
  };
}

function densityOf(given: number | undefined, ofMaterial: number | undefined): Coiling["density"] {
  if (given !== undefined) return { value: given, of: "option" };
  if (ofMaterial !== undefined) return { value: ofMaterial, of: "material" };
  return { value: STEEL, of: "steel" };
}

/** What a section is beside the rectangle about it: of its area, and of its thickness in bending. */
function shareOf(section: FreeBody["spec"]["section"]): { filled: number; bending: number } {
  if (!isProfiled(section)) return { filled: 1, bending: 1 };
  const { radialThickness: a, axialHeight: h } = section;
  const properties = sectionProperties(profileOf(a, h, section));
  return { filled: properties.area / (a * h), bending: bendingThickness(properties) / a };
}

/** Mid-wall radius to bend to for a wanted free one. */
function bendRadiusFor(radius: number, wire: SpringbackWire): number {
  return 1 / curvatureBefore(1 / radius, yieldCurvature(wire));
}

/** A wire cannot be bent about a point inside itself. */
function checkBend(radius: readonly number[], wire: SpringbackWire, thickness: number, given: unknown): void {
  const tightest = Math.min(...radius.map((value) => bendRadiusFor(value, wire)));
  if (tightest > thickness / 2) return;
  throw new SpecError(
    "yieldStress",
    given,
    `must be lower: the wire would have to be bent to ${tightest.toPrecision(3)} mm at mid wall, less than half its thickness`,
  );
}

function springbackOf(ring: FreeBody, wire: SpringbackWire, shift: number): Springback {
  const middle = parallelCurve(ringFaces(ring).line, shift);
  const yielding = yieldCurvature(wire);
  const [left, right] = ([-1, 1] as const).map((side) => endFacePoint(ring, ring.free, side));
  const gap = Math.hypot(right[0] - left[0], right[1] - left[1]);
  const [along, across] = [(right[0] - left[0]) / gap, (right[1] - left[1]) / gap];
  /** How far the gap opens when each place is bent back a little. */
  const opening = (bentBack: (wanted: number, tool: number) => number) =>
    integrateAlong(middle, ({ x, y, curvature, speed }) => {
      const arm = along * (right[1] - y) - across * (right[0] - x);
      return bentBack(curvature, curvatureBefore(curvature, yielding)) * arm * speed;
    });
  const percent = 0.01;
  return {
    yieldRadius: 1 / yielding,
    gapPerYieldPercent: opening((wanted, tool) => wanted - curvatureAfter(tool, (1 + percent) * yielding)),
    // A curved bar springs back further than a straight one by (a·κ)²/30: plane elasticity, pure bending.
    gapNeglected: opening((wanted, tool) => ((tool - wanted) * (wire.thickness * tool) ** 2) / 30),
  };
}
