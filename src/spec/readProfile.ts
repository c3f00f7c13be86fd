import { SpecError } from "./error.js";
import type { OutlineCorner, ProfileFeatures } from "./ringSpec.js";
import type { BodyOutput, BodySpecInput } from "./schema.js";

type Section = BodyOutput["section"];
type GivenSection = BodySpecInput["section"];

const FEATURES = ["face", "undercut", "inner", "sides"] as const;

/** Of the section a feature must leave at least this share, in either direction. */
const LEAST_LEFT = 0.1;

/**
 * Checks the features of a section against its size and against each other.
 *
 * @param section as read
 * @param given as written, for messages
 * @throws SpecError for features that contradict each other or do not fit, and for outlines that are not those of the section
 */
export function readProfile(section: Section, given: GivenSection): ProfileFeatures {
  const { shape, outline, wall, slots, radialThickness: a, axialHeight: h } = section;
  const named = FEATURES.filter((name) => section[name] !== undefined);
  if (named.length === 0 && outline === undefined) {
    if (shape === "profile")
      throw new SpecError("section.outline", undefined, 'must be given for shape "profile"');
    return {};
  }
  for (const other of ["wall", "slots"] as const) {
    if ((other === "wall" ? wall : slots) === undefined) continue;
    throw new SpecError(
      `section.${other}`,
      given[other],
      "must be left out where the section is not a plain rectangle: the two together are not computed",
    );
  }
  if (outline !== undefined) {
    if (shape !== "profile") {
      throw new SpecError("section.outline", given.outline, 'must come with "shape": "profile"');
    }
    if (named.length > 0) {
      throw new SpecError(
        `section.${named[0]}`,
        given[named[0]],
        "must be left out where the outline is given",
      );
    }
    checkOutline(outline, given.outline, a, h);
    return { outline: outline.map(({ x, y, bulge }) => (bulge ? { x, y, bulge } : { x, y })) };
  }
  if (shape === "profile") {
    throw new SpecError(
      `section.${named[0]}`,
      given[named[0]],
      'must come with "shape": "rectangle", of which it is cut',
    );
  }
  checkFeatures(section, given);
  return Object.fromEntries(named.map((name) => [name, section[name]]));
}

function checkFeatures(
  { face, undercut, inner, sides, radialThickness: a, axialHeight: h }: Section,
  given: GivenSection,
): void {
  const [wall, height] = [(1 - LEAST_LEFT) * a, (1 - LEAST_LEFT) * h];
  const atMost = (field: string, value: number, shown: unknown, most: number, why: string) => {
    if (!(value <= most))
      throw new SpecError(`section.${field}`, shown, `must be at most ${most.toPrecision(6)} mm: ${why}`);
  };
  if (undercut) {
    atMost("undercut.depth", undercut.depth, given.undercut?.depth, wall, "it leaves too little of the wall");
    atMost(
      "undercut.height",
      undercut.height,
      given.undercut?.height,
      height,
      "it leaves too little of the face",
    );
  }
  if (inner) {
    atMost("inner.depth", inner.depth, given.inner?.depth, wall, "it leaves too little of the wall");
    atMost("inner.height", inner.height, given.inner?.height, height, "it leaves too little of the height");
    // The inner cut and the undercut may meet only where they are on the same side.
    if (undercut && inner.side === "bottom" && inner.depth + undercut.depth > wall) {
      throw new SpecError(
        "section.inner.depth",
        given.inner?.depth,
        `must leave wall beside the undercut, at most ${(wall - undercut.depth).toPrecision(6)} mm`,
      );
    }
  }
  const faceHeight = h - (undercut?.height ?? 0);
  if (
    face?.shape === "taper" &&
    !(faceHeight * Math.tan(face.angle) <= wall - (inner?.side === "top" ? inner.depth : 0))
  ) {
    throw new SpecError(
      "section.face.angle",
      (given.face as { angle: unknown }).angle,
      "must be smaller: so steep a face leaves too little of the wall",
    );
  }
  if (face?.shape === "barrel") {
    atMost(
      "face.drop",
      face.drop,
      (given.face as { drop: unknown }).drop,
      Math.min(a, faceHeight) / 4,
      "a quarter of wall or face height",
    );
  }
  if (sides) {
    const narrowed =
      sides.shape === "keystone" ? 2 * a * Math.tan(sides.angle / 2) : a * Math.tan(sides.angle);
    if (!(narrowed <= height)) {
      throw new SpecError(
        "section.sides.angle",
        given.sides?.angle,
        "must be smaller: the sides would meet before the inner face",
      );
    }
  }
}

/** How far corners may be off the section's size, as a share. */
const ROUNDING = 1e-6;

function checkOutline(outline: NonNullable<Section["outline"]>, given: unknown, a: number, h: number): void {
  const refuse = (allowed: string): never => {
    throw new SpecError("section.outline", given, allowed);
  };
  const [xs, ys] = [outline.map(({ x }) => x), outline.map(({ y }) => y)];
  const reaches = (values: number[], size: number) =>
    Math.abs(Math.min(...values)) <= ROUNDING * size &&
    Math.abs(Math.max(...values) - size) <= ROUNDING * size;
  // Arcs may bulge past their corners; what counts is that corners span the size.
  if (!reaches(ys, a)) refuse(`must reach from 0 to radialThickness, ${a} mm, in y`);
  if (!(Math.min(...xs) >= -ROUNDING * h && Math.max(...xs) <= h * (1 + ROUNDING))) {
    refuse(`must stay from 0 to axialHeight, ${h} mm, in x`);
  }
  const area = outline.reduce((sum, { x, y, bulge = 0 }, i) => {
    const next = outline[(i + 1) % outline.length];
    const chord = Math.hypot(next.x - x, next.y - y);
    const angle = 4 * Math.atan(bulge);
    // The triangle to the origin, and the segment between arc and chord.
    const segment =
      bulge === 0 ? 0 : (((chord * (1 + bulge * bulge)) / (4 * bulge)) ** 2 * (angle - Math.sin(angle))) / 2;
    return sum + (x * next.y - next.x * y) / 2 + segment;
  }, 0);
  if (!(area > ROUNDING * a * h)) refuse("must run counter-clockwise and enclose an area");
  if (crosses(outline)) refuse("must not cross itself");
}

type Place = Pick<OutlineCorner, "x" | "y">;

/** Whether any two edges that are not neighbours cross, arcs taken by their chords. */
function crosses(outline: NonNullable<Section["outline"]>): boolean {
  const count = outline.length;
  const side = (p: Place, q: Place, r: Place) =>
    Math.sign((q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x));
  const at = (i: number) => outline[i % count];
  for (let i = 0; i < count; i++) {
    for (let j = i + 2; j < count; j++) {
      if (i === 0 && j === count - 1) continue;
      const [a, b, c, d] = [at(i), at(i + 1), at(j), at(j + 1)];
      if (side(a, b, c) !== side(a, b, d) && side(c, d, a) !== side(c, d, b)) return true;
    }
  }
  return false;
}
