import type { RingSpecInput } from "../src/index.js";
import type { PanelName } from "../src/svg.js";
import { type Element, elementsOf } from "./elements.js";
import { DEMO_NAMES, DEMO_RINGS, EXTREME_RINGS } from "./rings.js";

/** Rings whose sheets are tested, and a reader of them. */

export const FERRY: RingSpecInput = DEMO_RINGS["ferry 118 mm"];
const { section } = FERRY;
export const PANELS: readonly PanelName[] = ["ring", "pressure", "gap", "closing", "moment", "stress"];
/** Invented: everything about it is doubtful. */
export const DOUBTFUL: RingSpecInput = {
  bore: 60,
  closedGap: 0,
  section: {
    radialThickness: 10,
    axialHeight: 30,
    slots: { pitch: 12, depth: 1, width: 1, from: -2, to: 2 },
  },
  material: { youngsModulus: 100000, stressLimit: 200 },
  load: { contactPressure: 6 },
};
export const RINGS: readonly (readonly [string, RingSpecInput])[] = [
  ...DEMO_NAMES.map((name) => [name, DEMO_RINGS[name]] as const),
  ...EXTREME_RINGS.slice(0, 6),
  [
    "a model engine's",
    { ...FERRY, bore: 8, closedGap: 0.05, section: { radialThickness: 0.35, axialHeight: 0.5 } },
  ],
  ["a ship's", { ...FERRY, bore: 9000, closedGap: 30, section: { radialThickness: 250, axialHeight: 90 } }],
  [
    "slotted",
    { ...FERRY, section: { ...section, slots: { count: 20, depth: 1.2, width: 0.8, from: -2, to: 2 } } },
  ],
  ["a growing wall's", { ...FERRY, section: { ...section, wall: (at) => 1 + 0.15 * Math.sin(at / 2) } }],
  ["doubtful", DOUBTFUL],
];

export const wordsOf = (svg: string): string[] =>
  elementsOf(svg).flatMap(({ name, text }) => (name === "text" ? [text] : []));
export const named = (svg: string, name: string): Element[] =>
  elementsOf(svg).filter((element) => element.name === name);
