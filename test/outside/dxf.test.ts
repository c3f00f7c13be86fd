import { existsSync } from "node:fs";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, test } from "vitest";
import { lineArcs, measureOutline, outlineArcs } from "../../src/curves.js";
import { dxf } from "../../src/files.js";
import { designRing, type Point, type RingSpecInput } from "../../src/index.js";
import { reached } from "../reached.js";
import { DEMO_RINGS } from "../rings.js";
import { backwards, exactFaces, farthestFromCurve } from "./exactFaces.js";
import { answers, output } from "./programs.js";

/** The drawings for machines as another reader sees them: ezdxf, with its own arc geometry. */

/** Debian's packages are seen by its own interpreter alone. */
const DEBIANS = "/usr/bin/python3";
const python = existsSync(DEBIANS) ? DEBIANS : "python3";
const installed = await answers(python, ["-c", "import ezdxf"], "ezdxf for Python (Debian: python3-ezdxf)");

interface Drawing {
  readonly errors: string[];
  readonly fixes: string[];
  readonly units: number;
  readonly layers: string[];
  readonly types: string[];
  readonly polylines: {
    readonly layer: string;
    readonly closed: boolean;
    readonly vertices: number;
    readonly length: number;
    readonly area: number;
    readonly arcs: Point[][];
  }[];
  readonly circles: { readonly layer: string; readonly centre: Point; readonly radius: number }[];
}

const FERRY: RingSpecInput = DEMO_RINGS["ferry 118 mm"];
const CASES = (
  [
    ["the ferry ring", FERRY],
    ["the motorcycle ring", DEMO_RINGS["motorcycle 54 mm"]],
    ["the gas engine ring", DEMO_RINGS["gas engine 340 mm"]],
    ["unlike halves", { ...FERRY, pressure: { shape: "harmonics", cosine: [0.1], sine: [0.2, 0, -0.1] } }],
    [
      "a wall that thins towards the gap",
      { ...FERRY, section: { ...FERRY.section, wall: (at: number) => 0.96 + 0.04 * Math.cos(at) } },
    ],
    ["slots", { ...FERRY, section: { ...FERRY.section, slots: { count: 30, depth: 1.3, width: 0.7 } } }],
  ] satisfies [string, RingSpecInput][]
).flatMap(([name, spec]) => [0.01, 0.001, 1e-5].map((tolerance) => ({ name, spec, tolerance })));

const pieces = CASES.map(({ spec, tolerance }) => {
  const design = designRing(spec);
  return { design, outline: outlineArcs(design, { tolerance }), line: lineArcs(design, { tolerance }) };
});
let drawings: Drawing[] = [];

beforeAll(async () => {
  if (!installed) return;
  const folder = await mkdtemp(join(tmpdir(), "ring-dxf-"));
  try {
    const files = pieces.map(({ design, outline, line }, k) => ({
      path: join(folder, `${k}.dxf`),
      text: dxf([
        { name: "OUTLINE", fits: [outline] },
        { name: "CENTROID", fits: [line] },
        { name: "BORE", circles: [{ centre: [0, 0], radius: design.installed.outerRadius }] },
      ]),
    }));
    await Promise.all(files.map(({ path, text }) => writeFile(path, text)));
    const reader = fileURLToPath(new URL("read_dxf.py", import.meta.url));
    drawings = JSON.parse(await output(python, [reader, ...files.map(({ path }) => path)])) as Drawing[];
  } finally {
    await rm(folder, { recursive: true });
  }
});

describe.skipIf(!installed).each(CASES.map((one, k) => ({ ...one, k })))(
  "the drawing of $name at $tolerance mm, read by ezdxf,",
  ({ spec, tolerance, k }) => {
    const { design, outline, line } = pieces[k];

    test("has nothing that an audit finds wrong or mends", () => {
      expect(drawings[k].errors).toEqual([]);
      expect(drawings[k].fixes).toEqual([]);
    });

    test("is in millimetres, with each curve on its layer", () => {
      // ezdxf.units.MM = 4.
      expect(drawings[k].units).toBe(4);
      for (const name of ["OUTLINE", "CENTROID", "BORE"]) expect(drawings[k].layers).toContain(name);
      expect(drawings[k].types).toEqual(["LWPOLYLINE", "LWPOLYLINE", "CIRCLE"]);
      const [first, second] = drawings[k].polylines;
      expect([first.layer, first.closed, first.vertices]).toEqual(["OUTLINE", true, outline.pieces.length]);
      expect([second.layer, second.closed, second.vertices]).toEqual([
        "CENTROID",
        false,
        line.pieces.length + 1,
      ]);
      const R = (spec.bore as number) / 2;
      expect(drawings[k].circles).toEqual([{ layer: "BORE", centre: [0, 0], radius: R }]);
    });

    test("has an outline as long and with as much inside as the exact curves", () => {
      const exact = measureOutline(design);
      const [found] = drawings[k].polylines;
      // Nowhere is it more than the tolerance t beside the curve. The two arcs of a pair are on either side of it, so of the area t·length and
      // the length t·∫κ ds that could be gained or lost little remains: a tenth leaves room (measured 1/33 at most).
      // Roundings to 1e-6 mm at each vertex come on top; counter-clockwise, the area is positive.
      const turning = 4 * Math.PI;
      const rounding = 0.5e-6;
      const area = (tolerance * exact.length) / 10 + rounding * exact.length;
      const [dL, dA] = [found.length - exact.length, found.area - exact.area].map((off) =>
        off.toExponential(1),
      );
      console.log(`${CASES[k].name}, ${tolerance} mm: length off by ${dL} mm, area by ${dA} mm²`);
      reached("dxf", "area", Math.abs(found.area - exact.area), area);
      const length = (tolerance * turning) / 10 + rounding * Math.sqrt(found.vertices);
      reached("dxf", "length", Math.abs(found.length - exact.length), length);
    });

    test("has arcs that lie within the tolerance of the exact faces and line", () => {
      const faces = exactFaces(designRing({ ...spec, stations: 2000 }));
      const [outlineFound, lineFound] = drawings[k].polylines;
      const firstEnd = outlineFound.arcs.findIndex((points) => points.length === 0);
      const outer = outlineFound.arcs.slice(0, firstEnd).flat();
      const inner = outlineFound.arcs.slice(firstEnd).flat();
      expect(outer.length).toBeGreaterThan(100);
      expect(inner.length).toBeGreaterThan(100);
      expect(farthestFromCurve(outer, faces.outer)).toBeLessThan(tolerance);
      expect(farthestFromCurve(inner, backwards(faces.inner))).toBeLessThan(tolerance);
      expect(farthestFromCurve(lineFound.arcs.flat(), faces.line)).toBeLessThan(tolerance);
    });
  },
);
