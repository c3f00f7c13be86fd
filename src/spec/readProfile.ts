import { SpecError } from "./error.js";
import { checkOutline } from "./readOutline.js";
import type { ProfileFeatures } from "./ringSpec.js";
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

function checkFeatures(section: Section, given: GivenSection): void {
  const { face, undercut, inner, sides, radialThickness: a, axialHeight: h } = section;
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
  checkWallLeft(section, given);
}

/** Places along the axis at which what is cut from inside and from outside are added up, besides the edges of the cuts. */
const LOOKED_AT = 33;

/** An inner cut and the face, with its undercut, may not come too near to each other anywhere. */
function checkWallLeft(section: Section, given: GivenSection): void {
  const { face, undercut, inner, radialThickness: a, axialHeight: h } = section;
  if (!inner) return;
  const lower = undercut?.height ?? 0;
  const fromInside = (x: number) => {
    const within = inner.side === "top" ? x - (h - inner.height) : inner.height - x;
    if (within <= 0) return 0;
    return inner.shape === "step" ? inner.depth : (inner.depth * within) / inner.height;
  };
  const fromOutside = (x: number) => {
    if (undercut && x < lower) return undercut.depth;
    if (face?.shape === "taper") return (x - lower) * Math.tan(face.angle);
    return face ? face.drop * ((2 * (x - lower)) / (h - lower) - 1) ** 2 : 0;
  };
  // A cut's edge counts from both sides.
  const edges = [lower, inner.height, h - inner.height].flatMap((x) => [x - 1e-9 * h, x + 1e-9 * h]);
  const evenly = Array.from({ length: LOOKED_AT }, (_, k) => (h * k) / (LOOKED_AT - 1));
  for (const x of [...edges, ...evenly].filter((place) => place >= 0 && place <= h)) {
    const most = (1 - LEAST_LEFT) * a - fromOutside(x);
    if (fromInside(x) <= most) continue;
    const room = Math.max(0, most).toPrecision(6);
    throw new SpecError(
      "section.inner.depth",
      given.inner?.depth,
      `must leave wall beside the face and the undercut, at most ${room} mm`,
    );
  }
}
