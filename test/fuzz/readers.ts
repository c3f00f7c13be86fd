import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { parse } from "jsonc-parser";
import { ringFrom } from "../../src/cli/ringSource.js";
import { parseJson } from "../../src/cli/specSource.js";
import { readCorrectionCsv, readScanCsv } from "../../src/files.js";
import {
  closeInBore,
  compareRings,
  designRing,
  engineFit,
  matchRings,
  mergeVariation,
  planMaking,
  planVariation,
  proposeRing,
  type RingDesign,
  readSpec,
  ringFromScan,
  variationSlice,
} from "../../src/index.js";

/** Whatever reads what a user writes: good texts, and the reader, which may throw SpecErrors and InputErrors only. */

export interface Reader {
  readonly name: string;
  /** Good texts. */
  readonly good: readonly string[];
  readonly isJson: boolean;
  /** Of so many texts that are spoilt one is read: where a good one costs milliseconds. */
  readonly every: number;
  read(text: string): void;
}

const example = (name: string) => {
  const path = fileURLToPath(new URL(`../../examples/${name}`, import.meta.url));
  return JSON.stringify(parse(readFileSync(path, "utf8")));
};

// biome-ignore lint/suspicious/noExplicitAny: what is read may be anything.
type Anything = any;
/** As the command line reads JSON. */
const json = (text: string): Anything => parseJson(text, "FILE");

const FERRY = JSON.parse(example("ferry-118.json"));
const COARSE = { ...FERRY, stations: 16 };
const coarse: RingDesign = designRing(COARSE);
const SPECS = [
  ...["ferry-118.json", "motorcycle-54.json", "gas-engine-340.json"].map(example),
  JSON.stringify({ ...FERRY, pressure: { shape: "harmonics", cosine: [0.1], sine: [0.05, 0.01] } }),
  JSON.stringify({
    ...FERRY,
    pressure: { shape: "sampled", angle: [0, 1, 2, 3.2], relative: [1, 1.1, 0.9, 1] },
  }),
  JSON.stringify({
    ...FERRY,
    section: { ...FERRY.section, wall: { angle: [0, 1, 2, 3.2], relative: [1, 0.9, 0.9, 1] } },
  }),
  JSON.stringify({ ...FERRY, section: { ...FERRY.section, slots: { count: 30, depth: 1, width: 0.6 } } }),
];
const POINTS = designRing({ ...FERRY, stations: 48 }).outline.outer.map(([x, y]) => `${x},${y}`);
const TABLES = [
  `x_mm,y_mm\n${POINTS.join("\n")}\n`,
  `# traced\r\nangle_deg;radius_in\r\n${POINTS.map((_, i) => `${i};4,6${i}`).join("\r\n")}`,
];
const CORRECTION = [
  "angle_from_back_deg,curvature_change_per_mm,wire_length_mm",
  ...coarse.free.theta.map((angle, i) => `${(angle * 180) / Math.PI},1e-7,${coarse.free.arcLength[i]}`),
].join("\n");
const SLICE = JSON.stringify(
  variationSlice(planVariation(COARSE, { radialThickness: 0.02 }, { samples: 8 }), { index: 1, of: 1 }),
);

export const READERS: readonly Reader[] = [
  { name: "spec", good: SPECS, isJson: true, every: 1, read: (text) => void readSpec(json(text)) },
  {
    name: "design",
    good: SPECS,
    isJson: true,
    every: 20,
    read: (text) => void designRing({ ...json(text), stations: 16 }),
  },
  {
    name: "bore",
    good: [
      example("bore-four-lobes.json"),
      '{"diameter":118.02,"samples":{"angle":[-2,0,2],"deviation":[0,0.01,0]},"rotation":"10 deg","backPressure":0.1}',
    ],
    isJson: true,
    every: 20,
    read: (text) => void closeInBore(coarse, json(text)),
  },
  {
    name: "tolerances",
    good: [example("ferry-tolerances.json")],
    isJson: true,
    every: 20,
    read(text) {
      const { limits, ...tolerances } = json(text);
      planVariation(COARSE, tolerances, { limits });
    },
  },
  {
    name: "slice",
    good: [SLICE],
    isJson: true,
    every: 20,
    read: (text) => void mergeVariation([json(text)]),
  },
  {
    name: "making",
    good: [example("ferry-making.json")],
    isJson: true,
    every: 100,
    read: (text) => void planMaking(COARSE, json(text)),
  },
  {
    name: "engine",
    good: [example("ferry-engine.json")],
    isJson: true,
    every: 100,
    read: (text) => void engineFit(coarse, json(text)),
  },
  {
    name: "order",
    good: [example("ferry-order.json")],
    isJson: true,
    every: 500,
    read: (text) => void proposeRing(json(text)),
  },
  {
    name: "bores to match",
    good: ['{"bores":[{"diameter":118},{"diameter":118.02}],"gapTolerance":0.05,"leastGap":0.3}'],
    isJson: true,
    every: 100,
    read(text) {
      const { bores, ...options } = json(text);
      matchRings([coarse], bores, options);
    },
  },
  {
    name: "ring as JSON",
    good: [JSON.stringify({ spec: coarse.spec, free: coarse.free })],
    isJson: true,
    every: 100,
    read: (text) => void closeInBore(ringFrom(json(text), undefined)),
  },
  { name: "points", good: TABLES, isJson: false, every: 1, read: (text) => void readScanCsv(text) },
  {
    name: "scan",
    good: [TABLES[0]],
    isJson: false,
    every: 500,
    read: (text) => void compareRings(ringFromScan(readScanCsv(text).points, { spec: COARSE }), coarse),
  },
  {
    name: "correction",
    good: [CORRECTION],
    isJson: false,
    every: 1,
    read: (text) => void readCorrectionCsv(text),
  },
  {
    name: "correction told",
    good: [CORRECTION],
    isJson: false,
    every: 100,
    read: (text) => void planMaking(COARSE, {}, { correction: readCorrectionCsv(text) }),
  },
];
