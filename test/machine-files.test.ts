import { csvParse } from "d3-dsv";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { lineArcs, outlineArcs, outlinePoints } from "../src/curves.js";
import { camCsv, coilingCsv, dxf, endsCsv, outlineCsv } from "../src/files.js";
import { designRing, type Point, planMaking, type RingSpecInput, SpecError } from "../src/index.js";
import { renderGauge, renderOutline, renderTemplate, templatePages } from "../src/svg.js";
import { type Element, elementsOf } from "./elements.js";
import { exactFaces } from "./outside/exactFaces.js";
import { DEMO_RINGS } from "./rings.js";

/** Files for machines and templates, read back by other readers: what is in them is what was calculated, to the digits written. */

const FERRY: RingSpecInput = DEMO_RINGS["ferry 118 mm"];
const MOTORCYCLE: RingSpecInput = DEMO_RINGS["motorcycle 54 mm"];
const GAS_ENGINE: RingSpecInput = DEMO_RINGS["gas engine 340 mm"];
const SLOTTED: RingSpecInput = {
  ...FERRY,
  section: { ...FERRY.section, slots: { count: 20, depth: 1.2, width: 0.8, from: -2, to: 2 } },
};
/** The gas engine's ring, scaled to a large bore. */
const scaled = (bore: number): RingSpecInput => ({
  ...GAS_ENGINE,
  bore,
  closedGap: bore / 250,
  section: { radialThickness: bore / 30, axialHeight: bore / 60 },
  load: { freeGap: bore / 10 },
});

/** Half a unit in the last place of six decimals, and the rounding of what it is compared with. */
const SIX_DECIMALS = 0.5e-6 + 1e-12;

/** A value for a test's name, which would show NaN as null, and itself. */
const shown = (value: unknown): [string, unknown] => [
  typeof value === "string" ? `"${value}"` : String(value),
  value,
];

/** What a call throws. */
function refusal(call: () => unknown): SpecError {
  let error: unknown;
  try {
    call();
  } catch (thrown) {
    error = thrown;
  }
  expect(error).toBeInstanceOf(SpecError);
  return error as SpecError;
}

describe("tables", () => {
  const plan = planMaking(FERRY, {
    coiling: { yieldStress: "1400 MPa", rows: 41 },
    cam: { step: "3 deg", noseRadius: 2 },
    gap: { filingStock: 0.05 },
  });
  const degrees = (angles: readonly number[]) => angles.map((angle) => (angle * 180) / Math.PI);
  const points = outlinePoints(plan.metal.design, { tolerance: 0.01 });
  const all = [...points.outer, ...points.inner];
  const { table } = plan.coiling;
  const { cam, gap } = plan;
  const setups = gap.setups;

  const TABLES: {
    name: string;
    text: string;
    columns: Record<string, readonly (number | string | undefined)[]>;
  }[] = [
    {
      name: "outlineCsv",
      text: outlineCsv(points),
      columns: {
        face: all.map((_, k) => (k < points.outer.length ? "outer" : "inner")),
        x_mm: all.map(([x]) => x),
        y_mm: all.map(([, y]) => y),
      },
    },
    {
      name: "coilingCsv",
      text: coilingCsv(table),
      columns: {
        wire_length_mm: table.length,
        angle_from_back_deg: degrees(table.theta),
        radius_mm: table.radius,
        inner_radius_mm: table.innerRadius,
        outer_radius_mm: table.outerRadius,
        inner_fibre_length_mm: table.innerLength,
        outer_fibre_length_mm: table.outerLength,
        bend_radius_mm: table.bendRadius as number[],
      },
    },
    {
      name: "camCsv",
      text: camCsv(cam),
      columns: {
        angle_from_back_deg: degrees(cam.angle),
        ...Object.fromEntries(
          (["outer", "inner"] as const).flatMap((face) => [
            [`${face}_radius_mm`, cam[face].radius],
            [`${face}_tool_radius_mm`, cam[face].toolRadius],
            [`${face}_lift_mm`, cam[face].lift],
            [`${face}_lift_slope_mm_per_rad`, cam[face].slope],
            [`${face}_lift_second_mm_per_rad2`, cam[face].second],
          ]),
        ),
        cut_out: cam.angle.map((at) => (at > cam.cutOut.from || at < cam.cutOut.to ? "yes" : "no")),
      },
    },
    {
      name: "endsCsv",
      text: endsCsv(gap),
      columns: {
        hold: setups.map(({ hold }) => hold),
        gap_mm: setups.map((setup) => setup.gap),
        gap_outer_mm: setups.map(({ gapOuter }) => gapOuter),
        gap_inner_mm: setups.map(({ gapInner }) => gapInner),
        left_face_deg: degrees(setups.map(({ faces }) => faces.left)),
        right_face_deg: degrees(setups.map(({ faces }) => faces.right)),
        face_length_mm: setups.map(() => gap.faceLength),
        outer_corner_height_mm: setups.map(({ height }) => height),
        band_pull_N: setups.map(({ pull }) => pull),
        parallel_cutter_closed_gap_outer_mm: setups.map(({ parallelCutter }) => parallelCutter.gapOuter),
        parallel_cutter_closed_gap_inner_mm: setups.map(({ parallelCutter }) => parallelCutter.gapInner),
        parallel_cutter_to_file_mm: setups.map(({ parallelCutter }) => parallelCutter.toFile),
      },
    },
  ];

  describe.each(TABLES)("$name", ({ text, columns }) => {
    const rows = csvParse(text);

    test("names its columns, each with a unit unless it holds words", () => {
      expect(rows.columns).toEqual(Object.keys(columns));
      for (const [name, values] of Object.entries(columns)) {
        if (typeof values[0] === "string") expect(name).toMatch(/^[a-z_]+$/);
        else expect(name).toMatch(/^[a-z_]+_(mm|deg|N|mm_per_rad2?)$/);
      }
    });

    test("holds the values to six decimals, in the order of the arrays", () => {
      for (const [name, values] of Object.entries(columns)) {
        expect(rows).toHaveLength(values.length);
        for (const [k, value] of values.entries()) {
          const cell = rows[k][name];
          if (value === undefined) expect(cell).toBe("");
          else if (typeof value === "string") expect(cell).toBe(value);
          else {
            expect(cell).toMatch(/^-?\d+(\.\d{1,6})?$/);
            expect(Math.abs(Number(cell) - value)).toBeLessThan(SIX_DECIMALS);
          }
        }
      }
    });

    test("has lines that end in a line feed alone, no blank ones, and no minus before a zero", () => {
      expect(text.endsWith("\n")).toBe(true);
      expect(text).not.toMatch(/\r|\n\n|\n$\n/);
      expect(text.split("\n")).toHaveLength(rows.length + 2);
      expect(text).not.toMatch(/(^|,)-0(,|\n)/m);
    });
  });

  test("are the same text each time", () => {
    const again = planMaking(FERRY, {
      coiling: { yieldStress: "1400 MPa", rows: 41 },
      cam: { step: "3 deg", noseRadius: 2 },
      gap: { filingStock: 0.05 },
    });
    expect(coilingCsv(again.coiling.table)).toBe(TABLES[1].text);
    expect(camCsv(again.cam)).toBe(TABLES[2].text);
    expect(endsCsv(again.gap)).toBe(TABLES[3].text);
  });

  test("coilingCsv leaves the bend radius out where there is no yield stress", () => {
    const { columns } = csvParse(coilingCsv(planMaking(FERRY).coiling.table));
    expect(columns).not.toContain("bend_radius_mm");
    expect(columns).toHaveLength(7);
  });
});

/** A DXF as its pairs of group code and value. */
function pairsOf(text: string): [code: number, value: string][] {
  const lines = text.split(/\r?\n/);
  if (lines[lines.length - 1] === "") lines.pop();
  expect(lines.length % 2).toBe(0);
  return Array.from({ length: lines.length / 2 }, (_, k) => {
    // Group codes are whole numbers, right-justified by some writers (DXF Reference, "ASCII DXF files", from memory).
    expect(lines[2 * k].trim()).toMatch(/^\d{1,4}$/);
    return [Number(lines[2 * k]), lines[2 * k + 1]];
  });
}

/** The entities of a DXF: type and the pairs that follow. */
function entitiesOf(pairs: [number, string][]): { type: string; pairs: [number, string][] }[] {
  const start = pairs.findIndex(
    ([code, value], k) => code === 2 && value === "ENTITIES" && pairs[k - 1][1] === "SECTION",
  );
  const found: { type: string; pairs: [number, string][] }[] = [];
  for (const pair of pairs.slice(start + 1)) {
    if (pair[0] === 0) {
      if (pair[1] === "ENDSEC") break;
      found.push({ type: pair[1], pairs: [] });
    } else found[found.length - 1].pairs.push(pair);
  }
  return found;
}

const valuesOf = ({ pairs }: { pairs: [number, string][] }, wanted: number) =>
  pairs.filter(([code]) => code === wanted).map(([, value]) => value);

describe("dxf", () => {
  const design = designRing(SLOTTED);
  const [outline, line] = [outlineArcs(design), lineArcs(design)];
  const draw = () =>
    dxf([
      { name: "OUTLINE", fits: [outline] },
      { name: "CENTROID", fits: [line] },
      { name: "BORE", circles: [{ centre: [0, 0], radius: 59 }] },
    ]);
  const text = draw();
  const pairs = pairsOf(text);
  const entities = entitiesOf(pairs);

  test("is made of pairs, in sections that are opened and closed, and ends with EOF", () => {
    let open: string | undefined;
    const names: string[] = [];
    for (const [k, [code, value]] of pairs.entries()) {
      if (code !== 0) continue;
      if (value === "SECTION") {
        expect(open).toBeUndefined();
        open = pairs[k + 1][1];
        expect(pairs[k + 1][0]).toBe(2);
        names.push(open);
      } else if (value === "ENDSEC") {
        expect(open).toBeDefined();
        open = undefined;
      } else if (value === "EOF") expect(k).toBe(pairs.length - 1);
      else expect(open).toBeDefined();
    }
    expect(pairs[pairs.length - 1]).toEqual([0, "EOF"]);
    // The order of the format (DXF Reference, "General DXF File Structure", from memory).
    expect(names).toEqual(["HEADER", "CLASSES", "TABLES", "BLOCKS", "ENTITIES", "OBJECTS"]);
  });

  test("is in millimetres", () => {
    const at = pairs.findIndex(([code, value]) => code === 9 && value === "$INSUNITS");
    // 4 = millimetres (DXF Reference, HEADER variables, from memory).
    expect(pairs[at + 1]).toEqual([70, "4"]);
  });

  test("puts each curve on the layer that is named, and every layer into the table", () => {
    expect(entities.map((entity) => [entity.type, valuesOf(entity, 8)[0]])).toEqual([
      ["LWPOLYLINE", "OUTLINE"],
      ["LWPOLYLINE", "CENTROID"],
      ["CIRCLE", "BORE"],
    ]);
    const layers = pairs.flatMap(([code, value], k) =>
      code === 0 && value === "LAYER" ? pairs.slice(k + 1, k + 12).filter(([at]) => at === 2) : [],
    );
    const names = layers.map(([, value]) => value);
    for (const name of ["OUTLINE", "CENTROID", "BORE"]) expect(names).toContain(name);
    expect(new Set(names).size).toBe(names.length);
  });

  test("gives every handle once", () => {
    // Group 5; after a header variable it is only the next one to be given.
    const handles = pairs
      .filter(([code], k) => code === 5 && pairs[k - 1][0] !== 9)
      .map(([, value]) => value);
    expect(new Set(handles).size).toBe(handles.length);
    const seed = pairs[pairs.findIndex(([code, value]) => code === 9 && value === "$HANDSEED") + 1][1];
    expect(Math.max(...handles.map((handle) => Number.parseInt(handle, 16)))).toBeLessThan(
      Number.parseInt(seed, 16),
    );
  });

  test("closes the outline by its flag and leaves the line open, with its last point", () => {
    for (const [k, fit] of [outline, line].entries()) {
      // Flag 70, 1 = closed (DXF Reference, LWPOLYLINE, from memory).
      expect(Number(valuesOf(entities[k], 70)[0]) & 1).toBe(fit.closed ? 1 : 0);
      const count = fit.pieces.length + (fit.closed ? 0 : 1);
      expect(valuesOf(entities[k], 90)).toEqual([String(count)]);
      expect(valuesOf(entities[k], 10)).toHaveLength(count);
      expect(valuesOf(entities[k], 20)).toHaveLength(count);
    }
  });

  test("holds the fit's points to six decimals and its bulges to twelve", () => {
    for (const [k, { pieces, closed }] of [outline, line].entries()) {
      const [xs, ys] = [10, 20].map((code) => valuesOf(entities[k], code));
      const wanted: Point[] = pieces.map(({ start }) => start);
      if (!closed) wanted.push(pieces[pieces.length - 1].end);
      for (const [i, [x, y]] of wanted.entries()) {
        for (const value of [xs[i], ys[i]]) expect(value).toMatch(/^-?\d+(\.\d{1,6})?$/);
        expect(Math.abs(Number(xs[i]) - x)).toBeLessThan(SIX_DECIMALS);
        expect(Math.abs(Number(ys[i]) - y)).toBeLessThan(SIX_DECIMALS);
      }
      // A vertex's bulge follows it and may be left out where it is 0.
      const bulges: number[] = [];
      for (const [code, value] of entities[k].pairs) {
        if (code === 10) bulges.push(0);
        if (code === 42) {
          expect(value).toMatch(/^-?\d+(\.\d{1,12})?$/);
          bulges[bulges.length - 1] = Number(value);
        }
      }
      for (const [i, { bulge }] of pieces.entries())
        expect(Math.abs(bulges[i] - bulge)).toBeLessThan(0.5e-12 + 1e-16);
    }
    const circle = entities[2];
    expect([10, 20, 40].map((code) => Number(valuesOf(circle, code)[0]))).toEqual([0, 0, 59]);
  });

  test("is the same text each time, without a date", () => {
    expect(draw()).toBe(text);
    expect(text).not.toMatch(/\$TD|\$TIMEZONE|\b20\d\d-\d\d/);
  });

  test("takes an empty drawing and many layers", () => {
    expect(entitiesOf(pairsOf(dxf([])))).toEqual([]);
    const names = Array.from({ length: 12 }, (_, k) => `LAYER-${k}`);
    const circles = [{ centre: [1, -2] as Point, radius: 3 }];
    const many = entitiesOf(pairsOf(dxf(names.map((name) => ({ name, circles })))));
    expect(many.map((entity) => valuesOf(entity, 8)[0])).toEqual(names);
  });
});

/** One user unit is one millimetre where the viewBox is as large as the size on paper. */
function expectTrueSize([svg]: Element[]): { x: number; y: number; width: number; height: number } {
  const [x, y, width, height] = svg.attributes.viewBox.split(" ").map(Number);
  expect(svg.attributes.width).toBe(`${width}mm`);
  expect(svg.attributes.height).toBe(`${height}mm`);
  return { x, y, width, height };
}

const idsOf = (elements: Element[]) => elements.flatMap(({ attributes }) => attributes.id ?? []);

/** Points of a path, of curves with their control points; every command is absolute or relative M, L, H, V, C, A, Z. */
function pathPoints(d: string): Point[] {
  const found: Point[] = [];
  let [x, y] = [0, 0];
  let start: Point = [0, 0];
  for (const [, command, text] of d.matchAll(/([MLHVCAZmlhvcaz])([^MLHVCAZmlhvcaz]*)/g)) {
    const numbers = (text.match(/-?(?:\d+\.?\d*|\.\d+)(?:e-?\d+)?/g) ?? []).map(Number);
    const relative = command >= "a";
    const kind = command.toUpperCase();
    if (kind === "Z") [x, y] = start;
    const stride = { M: 2, L: 2, H: 1, V: 1, C: 6, A: 7, Z: 0 }[kind] as number;
    for (let i = 0; stride > 0 && i < numbers.length; i += stride) {
      const [fromX, fromY] = relative ? [x, y] : [0, 0];
      if (kind === "H") x = fromX + numbers[i];
      else if (kind === "V") y = fromY + numbers[i];
      else {
        const coordinates = kind === "A" ? numbers.slice(i + 5, i + 7) : numbers.slice(i, i + stride);
        for (let k = 0; k < coordinates.length - 2; k += 2)
          found.push([fromX + coordinates[k], fromY + coordinates[k + 1]]);
        const [dx, dy] = coordinates.slice(-2);
        [x, y] = [fromX + dx, fromY + dy];
      }
      found.push([x, y]);
      if (kind === "M") start = [x, y];
    }
  }
  return found;
}

const NASTY = `<script>"a" & 'b'</script>]]>\u0000\u0008\u001f`;
const nastyText = fc.string({
  unit: fc.oneof(fc.constantFrom(..."<>&\"'\u0000\u001f\ud800\uffff]]>"), fc.string()),
});

describe("renderOutline", () => {
  const design = designRing(SLOTTED);

  test.each([
    ["the ferry ring", FERRY],
    ["the motorcycle ring", MOTORCYCLE],
    ["the gas engine ring", GAS_ENGINE],
    ["slots", SLOTTED],
  ])("is in true size, well-formed and in its frame, for %s", (_name, spec) => {
    const ring = designRing(spec);
    const elements = elementsOf(renderOutline(ring));
    const { x, y, width, height } = expectTrueSize(elements);
    const paths = elements.filter(({ name }) => name === "path");
    expect(paths.map(({ attributes }) => attributes.id)).toEqual([
      "camround-outline",
      "camround-line",
      "camround-bore",
    ]);
    for (const { attributes } of paths) {
      for (const [px, py] of pathPoints(attributes.d)) {
        expect(px).toBeGreaterThan(x);
        expect(px).toBeLessThan(x + width);
        expect(py).toBeGreaterThan(y);
        expect(py).toBeLessThan(y + height);
      }
    }
    // The first point is the left outer corner, y down; the last one closes on it.
    const [outline, line, bore] = paths.map(({ attributes }) => attributes.d);
    const [corner] = exactFaces(ring).corners;
    expect(Math.abs(pathPoints(outline)[0][0] - corner[0])).toBeLessThan(SIX_DECIMALS);
    expect(Math.abs(pathPoints(outline)[0][1] + corner[1])).toBeLessThan(SIX_DECIMALS);
    expect(outline.endsWith("Z")).toBe(true);
    expect(line.endsWith("Z")).toBe(false);
    const R = (spec.bore as number) / 2;
    expect(pathPoints(bore)).toEqual([
      [-R, 0],
      [R, 0],
      [-R, 0],
    ]);
  });

  test("writes coordinates with six decimals at most", () => {
    for (const number of renderOutline(design).match(/-?\d+\.\d+/g) ?? [])
      expect(number).toMatch(/\.\d{1,6}$/);
  });

  test("begins each id with the prefix, and gives none twice", () => {
    const ids = idsOf(elementsOf(renderOutline(design, { id: "left" })));
    expect(new Set(ids).size).toBe(ids.length);
    expect(ids).toHaveLength(4);
    for (const id of ids) expect(id).toMatch(/^left-/);
  });

  test("keeps any title and prefix inert", () => {
    const names = elementsOf(renderOutline(design)).map(({ name }) => name);
    fc.assert(
      fc.property(nastyText, (title) => {
        expect(elementsOf(renderOutline(design, { title, id: title })).map(({ name }) => name)).toEqual(
          names,
        );
      }),
      { numRuns: 60, seed: 1 },
    );
    const title = elementsOf(renderOutline(design, { title: NASTY })).find(({ name }) => name === "title");
    // Control characters are not allowed in XML at all; they are dropped.
    expect(title?.text).toBe(`<script>"a" & 'b'</script>]]>`);
  });

  test("holds no script and nothing from outside", () => {
    const svg = renderOutline(design);
    expect(svg).not.toMatch(/<script|href|url\(|@import/);
    expect(svg.match(/https?:[^"]*/g)).toEqual(["http://www.w3.org/2000/svg"]);
  });

  test("is the same text each time", () => {
    expect(renderOutline(designRing(SLOTTED))).toBe(renderOutline(design));
  });
});

// ISO 216: A4 210 × 297, A3 297 × 420; US Letter 8.5 in × 11 in. From memory.
const SHEETS = { A4: [210, 297], A3: [297, 420], Letter: [215.9, 279.4] } as const;
type Size = keyof typeof SHEETS;
const SIZES = Object.keys(SHEETS) as Size[];

/** What a sheet shows: its window on the paper, and what to take from its coordinates to get those of the drawing. */
function windowOf(svg: string) {
  const elements = elementsOf(svg);
  const { width, height } = expectTrueSize(elements);
  const clip = elements.find(({ name, parents }) => name === "rect" && parents.at(-1)?.name === "clipPath");
  const ring = elements.find(({ attributes }) => attributes.class === "ring") as Element;
  const moved = ring.parents.flatMap(({ attributes }) => attributes.transform ?? []);
  expect(moved).toHaveLength(1);
  const [, dx, dy] = (/^translate\((-?[\d.]+),(-?[\d.]+)\)$/.exec(moved[0]) as RegExpExecArray).map(Number);
  const [x, y, w, h] = ["x", "y", "width", "height"].map((name) => Number(clip?.attributes[name]));
  const clips = ring.parents.map(({ attributes }) => attributes["clip-path"]).filter(Boolean);
  expect(clips).toEqual([`url(#${clip?.parents.at(-1)?.attributes.id})`]);
  return { elements, page: { width, height }, paper: { x, y, w, h }, shown: { x: x - dx, y: y - dy, w, h } };
}

describe("renderTemplate", () => {
  // Sheets by hand. A window is the sheet less 8 mm all round and 34 mm below; n of them, 10 mm over each other, show n·(window − 10) + 10 mm.
  // Drawings are the free ring and 3 mm all round: 63 × 62, 130 × 127, 353 × 351 and 1043 × 1025 mm. A4 upright shows 194 × 247, lying
  // 281 × 160; A3 281 × 370 and 404 × 247; Letter 199.9 × 229.4 and 263.4 × 165.9.
  test.each([
    { ring: "54 mm", spec: MOTORCYCLE, counts: { A4: 1, A3: 1, Letter: 1 } },
    { ring: "118 mm", spec: FERRY, counts: { A4: 1, A3: 1, Letter: 1 } },
    { ring: "340 mm", spec: GAS_ENGINE, counts: { A4: 4, A3: 2, Letter: 4 } },
    { ring: "1000 mm", spec: scaled(1000), counts: { A4: 28, A3: 12, Letter: 30 } },
  ])("takes as few sheets as can be, upright or lying, for $ring", ({ spec, counts }) => {
    const design = designRing(spec);
    for (const size of SIZES) {
      const sheets = renderTemplate(design, { page: size });
      expect(sheets).toHaveLength(counts[size]);
      const [short, long] = SHEETS[size];
      const sizes = new Set(
        sheets.map((svg) => {
          const { page } = windowOf(svg);
          expect([`${short} ${long}`, `${long} ${short}`]).toContain(`${page.width} ${page.height}`);
          return JSON.stringify(page);
        }),
      );
      expect(sizes.size).toBe(1);
    }
    expect(renderTemplate(design)).toEqual(renderTemplate(design, { page: "A4" }));
  });

  describe.each(
    [MOTORCYCLE, FERRY, GAS_ENGINE, scaled(1000)].flatMap((spec) =>
      SIZES.map((size) => ({ name: `${spec.bore} mm on ${size}`, spec, size })),
    ),
  )("of $name", ({ spec, size }) => {
    const design = designRing(spec);
    const sheets = renderTemplate(design, { page: size });
    const windows = sheets.map(windowOf);

    test("shows every place of the outline and of the bore on some sheet, where it belongs", () => {
      const { outer, inner } = exactFaces(design);
      const R = (spec.bore as number) / 2;
      const circle = Array.from({ length: 360 }, (_, k): Point => {
        const at = (k * Math.PI) / 180;
        return [R * Math.sin(at), R * Math.cos(at)];
      });
      // A line of 0.18 mm needs half of that beside it.
      const room = 0.09;
      for (const [x, y] of [...outer.flat(), ...inner.flat(), ...circle]) {
        const places = windows.filter(
          ({ shown }) =>
            x > shown.x + room &&
            x < shown.x + shown.w - room &&
            -y > shown.y + room &&
            -y < shown.y + shown.h - room,
        );
        expect(places.length).toBeGreaterThan(0);
      }
      // Every sheet draws the same, and only what the window shows is moved.
      const drawn = new Set(
        windows.map(({ elements }) =>
          JSON.stringify(
            elements
              .filter(({ attributes }) => attributes.class === "ring")
              .map(({ attributes }) => attributes.d),
          ),
        ),
      );
      expect(drawn.size).toBe(1);
    });

    test("keeps window and words on the sheet, clear of each other and 5 mm and more from the edges", () => {
      for (const { page, paper, elements } of windows) {
        // Printers leave some 5 mm blank; common practice, no source.
        expect(paper.x).toBeGreaterThanOrEqual(5);
        expect(paper.y).toBeGreaterThanOrEqual(5);
        expect(paper.x + paper.w).toBeLessThanOrEqual(page.width - 5);
        const words = elements.filter(({ name }) => name === "text");
        expect(words.length).toBeGreaterThanOrEqual(5);
        for (const { attributes } of words) {
          expect(Number(attributes.y)).toBeGreaterThan(paper.y + paper.h + 3);
          expect(Number(attributes.y)).toBeLessThan(page.height - 5);
          expect(Number(attributes.x)).toBeGreaterThanOrEqual(paper.x);
        }
      }
    });

    test("overlaps neighbours by 10 mm exactly, with crosses at the same places of the drawing", () => {
      const columns = new Set(windows.map(({ shown }) => shown.x.toFixed(3)));
      const rows = new Set(windows.map(({ shown }) => shown.y.toFixed(3)));
      expect(columns.size * rows.size).toBe(windows.length);
      const crosses = windows.map(({ elements, paper, shown }) => {
        const marks = elements.filter(
          ({ attributes }) => attributes.class === "mark" && !("data-bar" in attributes),
        );
        expect(marks).toHaveLength(sheets.length > 1 ? 1 : 0);
        // Each is a stroke across and one down: its middle, in the drawing.
        const d = marks[0]?.attributes.d ?? "";
        const strokes = d
          .split("M")
          .slice(1)
          .map((part) => pathPoints(`M${part}`));
        return strokes.map(
          ([[x0, y0], [x1, y1]]): Point => [
            (x0 + x1) / 2 - paper.x + shown.x,
            (y0 + y1) / 2 - paper.y + shown.y,
          ],
        );
      });
      const at = ([x, y]: Point) => `${x.toFixed(4)},${y.toFixed(4)}`;
      for (const [k, one] of windows.entries()) {
        for (const [j, other] of windows.entries()) {
          const sameRow = Math.abs(one.shown.y - other.shown.y) < 1e-4;
          const step = other.shown.x - one.shown.x;
          if (!sameRow || step <= 0 || step >= one.shown.w) continue;
          // Shifts are written to a millionth of a millimetre, windows exactly.
          expect(one.shown.x + one.shown.w - other.shown.x).toBeCloseTo(10, 5);
          // The crosses of the common edge: two, each of two strokes.
          const places = new Set(crosses[k].map(at));
          expect(crosses[j].filter((place) => places.has(at(place)))).toHaveLength(4);
        }
        for (const other of windows) {
          const sameColumn = Math.abs(one.shown.x - other.shown.x) < 1e-4;
          const step = other.shown.y - one.shown.y;
          if (!sameColumn || step <= 0 || step >= one.shown.h) continue;
          expect(one.shown.y + one.shown.h - other.shown.y).toBeCloseTo(10, 5);
        }
      }
    });

    test("has bars of 100 units and of 101.6, on every sheet, outside any transform", () => {
      for (const { elements, page } of windows) {
        for (const [name, length, ticks] of [
          ["100mm", 100, 11],
          // Four inches of 25.4 mm.
          ["4in", 101.6, 5],
        ] as const) {
          const bars = elements.filter(({ attributes }) => attributes["data-bar"] === name);
          expect(bars).toHaveLength(1);
          expect(bars[0].parents.map((parent) => parent.name)).toEqual(["svg"]);
          const xs = pathPoints(bars[0].attributes.d).map(([x]) => x);
          // Coordinates of three decimals, their sums good to rounding.
          expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(length, 9);
          expect(Math.min(...xs)).toBeGreaterThan(5);
          expect(Math.max(...xs)).toBeLessThan(page.width - 5);
          const at = [...new Set(xs.map((x) => x.toFixed(6)))].map(Number).sort((one, other) => one - other);
          expect(at).toHaveLength(ticks);
          for (let k = 1; k < ticks; k++) expect(at[k] - at[k - 1]).toBeCloseTo(length / (ticks - 1), 5);
        }
      }
    });

    test("begins each id with the prefix, and gives none twice on all sheets together", () => {
      const ids = renderTemplate(design, { page: size, id: "ring7" }).flatMap((svg) =>
        idsOf(elementsOf(svg)),
      );
      expect(new Set(ids).size).toBe(ids.length);
      expect(ids.length).toBeGreaterThanOrEqual(2 * sheets.length);
      for (const id of ids) expect(id).toMatch(/^ring7-/);
    });
  });

  test("says which sheet is which only where there are several", () => {
    const title = (svg: string) => elementsOf(svg).find(({ name }) => name === "title")?.text;
    expect(renderTemplate(designRing(FERRY)).map(title)).toEqual(["Ring Ø118 × 4.4 × 2 mm, free"]);
    const titles = renderTemplate(designRing(GAS_ENGINE)).map(title);
    expect(titles[1]).toContain("sheet 2 of 4 (row 1 of 2, column 2 of 2)");
    expect(new Set(titles).size).toBe(4);
  });

  test("tells the gap as drawn and, where that is another one, as finished", () => {
    const design = designRing(FERRY);
    const words = (svg: string) => /Solid: ([^<]*)\. Dashed/.exec(svg)?.[1];
    expect(words(renderTemplate(design)[0])).toBe("the free ring, 11.11 mm across the free gap");
    const added = { outer: 0, inner: 0, sides: 0, ends: 0.1 };
    const { outer, inner } = outlinePoints(design, { added });
    // Between the middles of the drawn end faces; the inner face runs back from the right end.
    const ends = [
      [outer[0], inner[inner.length - 1]],
      [outer[outer.length - 1], inner[0]],
    ].map(([one, other]) => (one[0] + other[0]) / 2);
    expect(words(renderTemplate(design, { added })[0])).toBe(
      `the free ring, ${(ends[1] - ends[0]).toFixed(2)} mm across the free gap as made, 11.11 mm as finished`,
    );
  });

  test("of metal whose coating has no stiffness shows bore, size and gap of the finished ring", () => {
    const coating = { outer: 0.05, ends: 0.02 };
    const plan = planMaking(FERRY, { allowances: { coating, coatingStiffness: "neglected" } });
    const { design, finished } = plan.metal;
    expect(design.spec.bore).toBeCloseTo(117.9, 12);
    const [svg] = renderTemplate(design, { added: plan.added, finished });
    expect(svg).toContain("Ring Ø118 × 4.4 × 2 mm, free");
    expect(svg).toMatch(new RegExp(`made, ${finished.freeGap.toFixed(2)} mm as finished`));
    expect(svg).toMatch(/class="bore" d="M-?59,0A59,59/);
  });

  test("makes room for metal on the outer face", () => {
    const design = designRing(GAS_ENGINE);
    const added = { outer: 4, inner: 0, sides: 0, ends: 0 };
    const windows = renderTemplate(design, { added }).map(windowOf);
    for (const [x, y] of exactFaces(design, added).outer.flat()) {
      const seen = windows.some(
        ({ shown }) => x > shown.x && x < shown.x + shown.w && -y > shown.y && -y < shown.y + shown.h,
      );
      expect(seen).toBe(true);
    }
  });

  test("keeps any title and prefix inert", () => {
    const design = designRing({ ...FERRY, stations: 16 });
    const names = (svg: string) => elementsOf(svg).map(({ name }) => name);
    const plain = names(renderTemplate(design)[0]);
    fc.assert(
      fc.property(nastyText, (title) => {
        expect(names(renderTemplate(design, { title, id: title })[0])).toEqual(plain);
      }),
      { numRuns: 60, seed: 1 },
    );
    const [sheet] = renderTemplate(design, { title: NASTY });
    const elements = elementsOf(sheet);
    for (const name of ["title", "text"])
      expect(elements.find((element) => element.name === name)?.text).toBe(`<script>"a" & 'b'</script>]]>`);
  });

  test.each(["a)b", "a b", "it's", 'say "so"', "a\\b"])(
    "still clips the drawing with the prefix %j",
    (id) => {
      const elements = elementsOf(renderTemplate(designRing(FERRY), { id })[0]);
      const [reference] = elements.flatMap(({ attributes }) => attributes["clip-path"] ?? []);
      // An unquoted url() ends at the first bracket and may hold no blank, quote or backslash (CSS Syntax Level 3, 4.3.6, from memory).
      const [, target] = /^url\(#([^\s"'()\\]+)\)$/.exec(reference) ?? [];
      expect(target).toBeDefined();
      expect(elements.find(({ name }) => name === "clipPath")?.attributes.id).toBe(target);
    },
  );

  test("is the same text each time", () => {
    expect(renderTemplate(designRing(GAS_ENGINE))).toEqual(renderTemplate(designRing(GAS_ENGINE)));
  });

  test.each(["B7", "a4", "", null, 4, "toString"])("refuses the page %j by name", (page) => {
    const { field, value, allowed } = refusal(() =>
      renderTemplate(designRing(FERRY), { page: page as Size }),
    );
    expect(field).toBe("page");
    expect(value).toEqual(page);
    expect(allowed).toContain("A4, A3, Letter");
  });

  test("refuses a ring of 10 m on A4, telling the sheets it would need", () => {
    const { field, value, allowed } = refusal(() => renderTemplate(designRing(scaled(10000))));
    expect(field).toBe("page");
    expect(value).toBe("A4");
    // Some 10.4 m each way: 57 sheets of 184 mm by 44 of 237 mm upright, 39 by 69 lying.
    expect(Number(/(\d+) sheets/.exec(allowed)?.[1])).toBeGreaterThan(2000);
    expect(Number(/(\d+) sheets/.exec(allowed)?.[1])).toBeLessThan(3000);
  });

  test("refuses a tolerance outside its range by name", () => {
    expect(refusal(() => renderTemplate(designRing(FERRY), { tolerance: 0 })).field).toBe("tolerance");
    expect(refusal(() => renderOutline(designRing(FERRY), { tolerance: Number.NaN })).field).toBe(
      "tolerance",
    );
  });
});

describe("templatePages", () => {
  test.each(SIZES)("holds every sheet once, in order, on pages of the sheet's own size: %s", (page) => {
    const sheets = renderTemplate(designRing(GAS_ENGINE), { page });
    const html = templatePages(sheets);
    let from = 0;
    for (const sheet of sheets) {
      const at = html.indexOf(sheet, from);
      expect(at).toBeGreaterThan(0);
      from = at + sheet.length;
    }
    expect(html.match(/<svg/g)).toHaveLength(sheets.length);
    const { width, height } = windowOf(sheets[0]).page;
    const sizes = html.match(/@page\{size:[^;]*;margin:0\}/g) ?? [];
    expect(new Set(sizes)).toEqual(new Set([`@page{size:${width}mm ${height}mm;margin:0}`]));
    expect(html.startsWith("<!doctype html>")).toBe(true);
    expect(html).toContain('<meta charset="utf-8">');
  });
});

describe("renderGauge", () => {
  const design = designRing(FERRY);

  test("has a bore of the nominal diameter and a blade as wide as the smallest and the largest gap", () => {
    for (const [spec, gapTolerance] of [
      [FERRY, 0.05],
      [MOTORCYCLE, 0.1],
      [GAS_ENGINE, 0.2],
    ] as const) {
      const elements = elementsOf(renderGauge(designRing(spec), { gapTolerance }));
      const frame = expectTrueSize(elements);
      const path = (id: string) =>
        pathPoints(
          elements.find(({ attributes }) => attributes.id === `camround-${id}`)?.attributes.d as string,
        );
      const bore = path("bore").map(([x]) => x);
      expect(Math.max(...bore) - Math.min(...bore)).toBe(spec.bore);
      const blade = path("blade");
      const left = Math.min(...blade.map(([x]) => x));
      const right = Math.max(...blade.map(([x]) => x));
      const width = (end: number) => {
        const ys = blade.filter(([x]) => Math.abs(x - end) < 1e-9).map(([, y]) => y);
        expect(ys).toHaveLength(2);
        return Math.abs(ys[0] - ys[1]);
      };
      // Written to a millionth of a millimetre, as differences.
      expect(Math.abs(width(left) - ((spec.closedGap as number) - gapTolerance))).toBeLessThan(1e-6);
      expect(Math.abs(width(right) - ((spec.closedGap as number) + gapTolerance))).toBeLessThan(1e-6);
      // The tongues reach through the wall.
      const xs = [...new Set(blade.map(([x]) => x))].sort((one, other) => one - other);
      expect(xs).toHaveLength(4);
      for (const tongue of [xs[1] - xs[0], xs[3] - xs[2]])
        expect(tongue).toBeGreaterThan(spec.section.radialThickness as number);
      for (const [x, y] of [...path("plate"), ...path("bore"), ...blade]) {
        expect(x).toBeGreaterThan(frame.x);
        expect(x).toBeLessThan(frame.x + frame.width);
        expect(y).toBeGreaterThan(frame.y);
        expect(y).toBeLessThan(frame.y + frame.height);
      }
      const words = elements.filter(({ name }) => name === "text").map(({ text }) => text);
      const mm = (value: number) => Number(value.toFixed(3));
      expect(words).toContain(`go: ${mm((spec.closedGap as number) - gapTolerance)} mm`);
      expect(words).toContain(`no go: ${mm((spec.closedGap as number) + gapTolerance)} mm`);
    }
  });

  test("begins each id with the prefix, keeps any title inert, and is the same text each time", () => {
    const elements = elementsOf(renderGauge(design, { gapTolerance: 0.05, id: "g1", title: NASTY }));
    const ids = idsOf(elements);
    expect(ids).toEqual(["g1-title", "g1-plate", "g1-bore", "g1-blade"]);
    expect(elements.find(({ name }) => name === "title")?.text).toBe(`<script>"a" & 'b'</script>]]>`);
    expect(renderGauge(design, { gapTolerance: 0.05 })).toBe(
      renderGauge(designRing(FERRY), { gapTolerance: 0.05 }),
    );
  });

  test.each([0, -0.05, Number.NaN, Number.POSITIVE_INFINITY, 0.45, 0.5, null, undefined, "0.05"].map(shown))(
    "refuses %s as a tolerance of the gap by name",
    (_shown, gapTolerance) => {
      const { field, value, allowed } = refusal(() =>
        renderGauge(design, { gapTolerance: gapTolerance as number }),
      );
      expect(field).toBe("gapTolerance");
      expect(value).toEqual(gapTolerance);
      expect(allowed).toContain("0.45 mm");
    },
  );

  test("refuses any tolerance for a ring without a gap", () => {
    const ring = designRing({ ...FERRY, closedGap: 0 });
    expect(refusal(() => renderGauge(ring, { gapTolerance: 0.01 })).field).toBe("gapTolerance");
  });
});
