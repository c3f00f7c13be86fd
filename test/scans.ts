import { ringFaces } from "../src/curves/ringFaces.js";
import { designRing, type Point, type RingDesign, type RingSpecInput } from "../src/index.js";
import { DEMO_RINGS } from "./rings.js";

/** For the tests: rings as an instrument would see them. Lengths in mm. */

/** Numbers from 0 to 1, the same from one seed everywhere: a Weyl sequence of 32 bits, well stirred ("mulberry32", public domain). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let bits = Math.imul(state ^ (state >>> 15), state | 1);
    bits ^= bits + Math.imul(bits ^ (bits >>> 7), bits | 61);
    return ((bits ^ (bits >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** Standard normal numbers (G. E. P. Box & M. E. Muller, Ann. Math. Stat. 29 (1958) 610). */
export const normals = (uniform: () => number) => () =>
  Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());

const [FERRY, MOTORCYCLE, GAS] = [
  DEMO_RINGS["ferry 118 mm"],
  DEMO_RINGS["motorcycle 54 mm"],
  DEMO_RINGS["gas engine 340 mm"],
];

/** Rings whose scans are read: all kinds of pressure, wall and theory. */
export const SCANNED = {
  "ferry 118 mm": FERRY,
  "motorcycle 54 mm": MOTORCYCLE,
  "gas engine 340 mm": GAS,
  "ferry, more at the gap": { ...FERRY, pressure: { shape: "moreAtGap", strength: 0.5 } },
  "ferry, unlike halves": {
    ...FERRY,
    pressure: { shape: "harmonics", cosine: [0.1, -0.05], sine: [0.08, 0.03] },
  },
  "ferry, slotted": {
    ...FERRY,
    section: {
      ...FERRY.section,
      slots: { pitch: "8 mm", depth: 0.9, width: 0.6, from: "-150 deg", to: "150 deg" },
    },
  },
  "ferry, wall from a table": {
    ...FERRY,
    section: {
      ...FERRY.section,
      wall: { angle: [0, 0.8, 1.6, 2.4, Math.PI], relative: [1, 0.99, 0.97, 0.95, 0.94] },
    },
  },
  "ferry, thin theory": { ...FERRY, theory: "thin" },
} satisfies Record<string, RingSpecInput>;

export type ScannedName = keyof typeof SCANNED;
export const SCANNED_NAMES = Object.keys(SCANNED) as ScannedName[];
export const designOf = (name: ScannedName) => designRing(SCANNED[name]);

export interface Taking {
  /** How many points, evenly from end to end. Default 720. */
  count?: number;
  /** Standard deviation of x and of y. */
  noise?: number;
  seed?: number;
  /** Share of points that lie 0.05 to 0.5 mm off the face besides. */
  astray?: number;
  /** The ring lies turned by so much, radians, and shifted, and the points come in any order. */
  turn?: number;
  shift?: Point;
  shuffled?: boolean;
}

/** A place on a face and the unit normal out of the metal. */
export type FacePlace = { readonly point: Point; readonly out: Point };

/** The outer face of a free ring from corner to corner. */
export function outerFace(design: RingDesign, count: number): FacePlace[] {
  const { outer } = ringFaces(design);
  const limit = Math.PI - Math.asin(design.spec.closedGap / design.spec.bore);
  return Array.from({ length: count }, (_, i) => {
    const { x, y, cos, sin } = outer.at(limit * ((2 * i) / (count - 1) - 1));
    return { point: [x, y], out: [sin, -cos] };
  });
}

/** Points of places as an instrument gives them, and which of them are astray. */
export function taken(
  places: readonly FacePlace[],
  taking: Taking = {},
): { points: Point[]; astray: number[] } {
  const { noise = 0, seed = 1, astray = 0, turn = 0, shift = [0, 0], shuffled = false } = taking;
  const uniform = seeded(seed);
  const normal = normals(uniform);
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const all = places.map(({ point, out }) => {
    const off = uniform() < astray;
    const by = off ? (uniform() < 0.5 ? -1 : 1) * (0.05 + 0.45 * uniform()) : 0;
    const x = point[0] + by * out[0] + noise * normal();
    const y = point[1] + by * out[1] + noise * normal();
    return { off, point: [c * x - s * y + shift[0], s * x + c * y + shift[1]] as Point };
  });
  if (shuffled) {
    for (let i = all.length - 1; i > 0; i--) {
      const j = Math.floor((i + 1) * uniform());
      [all[i], all[j]] = [all[j], all[i]];
    }
  }
  return {
    points: all.map(({ point }) => point),
    astray: all.flatMap(({ off }, i) => (off ? [i] : [])),
  };
}

/** Points of a design's outer face. */
export const scanned = (design: RingDesign, taking: Taking = {}) =>
  taken(outerFace(design, taking.count ?? 720), taking);
