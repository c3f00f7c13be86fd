import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { closeInBore, designRing, type RingSpecInput } from "../src/index.js";
import { renderClosure, renderRing } from "../src/svg.js";
import { elementsOf } from "./elements.js";
import { DEMO_RINGS } from "./rings.js";

const FERRY: RingSpecInput = DEMO_RINGS["ferry 118 mm"];

/** Invented: a slotted ring for the gas engine. */
const SLOTTED: RingSpecInput = {
  bore: 340,
  closedGap: 1.3,
  section: {
    radialThickness: 11,
    axialHeight: 6,
    slots: { pitch: 12, depth: 3.5, width: 1.5, from: "-160 deg", to: "160 deg" },
  },
  material: "EN-GJS-500-7",
  load: { contactPressure: 0.05 },
  pressure: { shape: "moreAtGap", strength: 0.3 },
};

/** End points of every absolute M, L, A, H, V command in a path. */
function points(d: string): [number, number][] {
  const found: [number, number][] = [];
  for (const [, command, text] of d.matchAll(/([MLA])([^A-Za-z]*)/g)) {
    const numbers = text.match(/-?[\d.]+(?:e-?\d+)?/g)?.map(Number) ?? [];
    const stride = command === "A" ? 7 : 2;
    for (let i = 0; i < numbers.length; i += stride) {
      found.push([numbers[i + stride - 2], numbers[i + stride - 1]]);
    }
  }
  return found;
}

function viewBox(svg: string) {
  const [x, y, width, height] = (elementsOf(svg)[0].attributes.viewBox as string).split(" ").map(Number);
  return { x, y, right: x + width, bottom: y + height };
}

describe("renderRing", () => {
  test("draws the ferry ring as in the reviewed file", async () => {
    await expect(renderRing(designRing(FERRY))).toMatchFileSnapshot("snapshots/ferry-118.svg");
  });

  test.each([
    ["the ferry ring", FERRY],
    ["a wide opening", { ...FERRY, load: { contactPressure: 1.2 } }],
    ["a narrow opening", { ...FERRY, load: { contactPressure: 0.005 } }],
    [
      "a small bore",
      { ...FERRY, bore: 54, section: { radialThickness: 2.2, axialHeight: 1.5 }, closedGap: 0.2 },
    ],
    ["many stations", { ...FERRY, stations: 3000 }],
  ] as [string, RingSpecInput][])("is well-formed, in its frame and true to the design for %s", (_, spec) => {
    const design = designRing(spec);
    const svg = renderRing(design);
    const elements = elementsOf(svg);
    const frame = viewBox(svg);
    const free = elements.find(({ name, attributes }) => name === "path" && attributes.class === "free");
    const d = free?.attributes.d as string;
    expect(d.endsWith("Z")).toBe(true);
    for (const [x, y] of points(d)) {
      expect(x).toBeGreaterThan(frame.x);
      expect(x).toBeLessThan(frame.right);
      expect(y).toBeGreaterThan(frame.y);
      expect(y).toBeLessThan(frame.bottom);
    }
    // The first point is the left outer corner, the gap its mirror image's distance; 1 unit = 1 mm, digits of 1 µm.
    const outer = design.outline.outer;
    const [first] = points(d);
    expect(first[0]).toBeCloseTo(outer[0][0], 3);
    expect(first[1]).toBeCloseTo(-outer[0][1], 3);
    const closed = elements.find(({ attributes }) => attributes.class === "closed" && attributes.d);
    const corners = points(closed?.attributes.d as string);
    expect(corners[2][0] - corners[0][0]).toBeCloseTo(design.spec.closedGap, 2);
    const bore = elements.find(({ name }) => name === "circle");
    expect(Number(bore?.attributes.r)).toBe(design.spec.bore / 2);
    expect(svg.length).toBeLessThan(20000);
  });

  test("draws a slotted ring as in the reviewed file", async () => {
    await expect(renderRing(designRing(SLOTTED))).toMatchFileSnapshot("snapshots/gas-engine-340.svg");
  });

  test("cuts every slot into the free and into the closed ring", () => {
    const design = designRing(SLOTTED);
    const slots = design.outline.slots as [number, number][][];
    expect(slots).toHaveLength(design.spec.section.slots?.count as number);
    const bodies = elementsOf(renderRing(design)).filter(
      ({ name, attributes }) =>
        name === "path" && (attributes.class === "free" || attributes.class === "closed"),
    );
    expect(bodies).toHaveLength(2);
    for (const { attributes } of bodies) {
      // A root's two corners lie deeper than the inner face by the slot's depth; between the slots there is none.
      const drawn = points(attributes.d);
      const from = (i: number) => Math.hypot(...(drawn[i] as [number, number]));
      let roots = 0;
      for (let i = 1; i < drawn.length; i++)
        if (Math.abs(Math.abs(from(i) - from(i - 1)) - 3.5) < 0.2) roots++;
      // Down into each slot and up again.
      expect(roots).toBe(2 * slots.length);
    }
    const free = new Set(points(bodies[1].attributes.d).map(([x, y]) => `${x},${y}`));
    const shown = ([x, y]: [number, number]) => `${Number(x.toFixed(3)) + 0},${Number((-y).toFixed(3)) + 0}`;
    for (const corner of slots.flat()) expect(free.has(shown(corner))).toBe(true);
  });

  test("shows where either end of a ring with unlike halves stands", () => {
    const wall = (theta: number) => 1 + 0.2 * Math.sin(theta / 2);
    const design = designRing({ ...FERRY, section: { ...FERRY.section, wall } });
    const elements = elementsOf(renderRing(design));
    const free = elements.find(({ name, attributes }) => name === "path" && attributes.class === "free");
    const drawn = points(free?.attributes.d as string);
    const { outer, inner } = design.outline;
    for (const [x, y] of [outer[0], outer[outer.length - 1], inner[0], inner[inner.length - 1]]) {
      expect(drawn.some(([dx, dy]) => Math.abs(dx - x) < 0.001 && Math.abs(dy + y) < 0.001)).toBe(true);
    }
    const closed = elements.find(({ attributes }) => attributes.class === "closed" && attributes.d);
    const radii = points(closed?.attributes.d as string).map((point) => Math.hypot(...point));
    // Wall at the ends: 4.4·(1 ± 0.2·sin(θC/2)), sin(θC/2) = 1 to 1e-5. Either coordinate is rounded to 1 µm.
    expect(Math.abs(Math.min(...radii) - (59 - 4.4 * 1.2))).toBeLessThan(0.001);
    expect(Math.abs(Math.max(...radii) - 59)).toBeLessThan(0.001);
  });

  test("draws no arc from a point to itself, which readers leave out, even without a gap", () => {
    for (const closedGap of [0, 0.0001, 0.45, 59]) {
      const elements = elementsOf(renderRing(designRing({ ...FERRY, closedGap })));
      const closed = elements.find(({ attributes }) => attributes.class === "closed" && attributes.d);
      const d = closed?.attributes.d as string;
      const arcs = [...d.matchAll(/A[^A-Z]*/g)].length;
      const corners = points(d);
      const stays = corners.filter(
        ([x, y], i) => i > 0 && x === corners[i - 1][0] && y === corners[i - 1][1],
      );
      expect(arcs).toBe(4);
      expect(stays).toEqual([]);
      // Both faces pass the back, where the closed ring touches the bore at the bottom of the drawing.
      expect(corners[1]).toEqual([0, 59]);
      expect(corners[4]).toEqual([0, 59 - 4.4]);
    }
  });

  test("names itself to screen readers", () => {
    const [svg, title, description] = elementsOf(renderRing(designRing(FERRY), { id: "one" }));
    expect(svg.attributes.role).toBe("img");
    expect(svg.attributes["aria-labelledby"]).toBe(`${title.attributes.id} ${description.attributes.id}`);
    expect(title.attributes.id).toBe("one-title");
    expect(description.text).toContain("11.11 mm");
  });

  test("keeps any title and id well-formed and inert", () => {
    const design = designRing({ ...FERRY, stations: 16 });
    const anyText = fc.string({
      unit: fc.oneof(fc.constantFrom(..."<>&\"'\u0000\u001f\ud800\uffff]]>"), fc.string()),
    });
    fc.assert(
      fc.property(anyText, (title) => {
        const elements = elementsOf(renderRing(design, { title, id: title }));
        expect(elements.map(({ name }) => name)).toEqual(
          elementsOf(renderRing(design)).map(({ name }) => name),
        );
      }),
      { numRuns: 100, seed: 1 },
    );
    const [, title] = elementsOf(renderRing(design, { title: `<script>"a" & 'b'</script>` }));
    expect(title.text).toBe(`<script>"a" & 'b'</script>`);
  });
});

describe("renderClosure", () => {
  const closure = closeInBore(designRing(FERRY), { harmonics: [{ order: 3, amplitude: 0.03, phase: 0.4 }] });

  test("draws the ferry ring in a bore of three lobes as in the reviewed file", async () => {
    await expect(renderClosure(closure)).toMatchFileSnapshot("snapshots/closure-three-lobes.svg");
  });

  test("marks every light gap and every point force, true to scale", () => {
    const elements = elementsOf(renderClosure(closure, { id: "two" }));
    const lights = elements.filter(({ attributes }) => attributes.class === "light");
    expect(lights).toHaveLength(closure.lightGaps.length);
    expect(closure.lightGaps.length).toBeGreaterThan(0);
    expect(elements.filter(({ attributes }) => attributes.class === "point")).toHaveLength(
      closure.pointForces.length,
    );
    // One scale for all: a radian is as wide in every mark.
    const perRadian = lights.map(
      ({ attributes }, k) => Number(attributes.width) / (closure.lightGaps[k].to - closure.lightGaps[k].from),
    );
    // Coordinates have three decimals, and the narrowest mark is some 50 units wide.
    for (const scale of perRadian) expect(Math.abs(scale / perRadian[0] - 1)).toBeLessThan(1e-3);
    expect(elements[0].attributes["aria-labelledby"]).toBe("two-title two-desc");
  });

  test("keeps any title inert", () => {
    const [, title] = elementsOf(renderClosure(closure, { title: `<script>"a" & 'b'</script>` }));
    expect(title.text).toBe(`<script>"a" & 'b'</script>`);
  });
});
