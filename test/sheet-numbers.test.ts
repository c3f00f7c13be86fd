import { describe, expect, test } from "vitest";
import { designRing, type RingDesign, ringOverview } from "../src/index.js";
import { renderSheet } from "../src/svg.js";
import { type Element, elementsOf } from "./elements.js";
import { DOUBTFUL, RINGS, wordsOf } from "./sheets.js";

/** What stands on the ring sheet is the design's: numbers, warnings, scale. */

describe("renderSheet", () => {
  const valueAt = (words: readonly string[], label: string) => words[words.indexOf(label) + 1];
  test.each(RINGS)("tells the design's numbers: %s", (_, spec) => {
    const overview = ringOverview(designRing(spec));
    const { design, follows } = overview;
    const words = wordsOf(renderSheet(overview));
    const told = words.join("\n");
    const { free, load, stress, ends } = design;
    const degrees = (angle: number) => ((angle * 180) / Math.PI).toFixed(2);
    const last = free.arcLength.length - 1;
    for (const text of [
      `Bore Ø ${Number(design.spec.bore.toFixed(3))} mm`,
      `Free gap between the arrows ${free.gap.toFixed(2)} mm`,
      `closed gap ${design.spec.closedGap.toFixed(2)} mm`,
      `Ends turn by ${degrees(ends.faceToAxis)}°`,
      `line end to end ${(free.arcLength[last] - free.arcLength[0]).toFixed(2)} mm`,
      ...overview.closing.flatMap(({ gap, pull }) => [`${gap.toFixed(2)} mm`, `${pull.toFixed(2)} N`]),
    ])
      expect(told).toContain(text);
    expect(valueAt(words, "Tangential force Ft")).toBe(`${load.tangentialForce.toFixed(2)} N`);
    expect(Number.parseFloat(valueAt(words, "Contact pressure p0")) / load.contactPressure).toBeCloseTo(1, 3);
    expect(valueAt(words, "Stiffness parameter K")).toBe(design.stiffnessParameter.toFixed(5));
    expect(valueAt(words, "Bend radius at the ends")).toBe(`${(1 / free.curvature[0]).toFixed(3)} mm`);
    expect(valueAt(words, "Largest closing stress")).toContain(`${stress.closing.max.toFixed(0)} MPa at`);
    expect(valueAt(words, `Follows order ${follows.limits[0].order} all round to`)).toBe(
      `${(1000 * follows.limits[0].fullContact).toFixed(1)} µm`,
    );
  });

  const messages = ({ warnings }: RingDesign) => warnings.map(({ message }) => message);
  test.each(RINGS)("shows warnings, counts those past three, and always all cautions: %s", (_, spec) => {
    const design = designRing(spec);
    const words = wordsOf(renderSheet(ringOverview(design)));
    const shown = words.filter((text) => text.startsWith("! "));
    const told = messages(design);
    expect(shown).toEqual(
      told
        .slice(0, 3)
        .map(
          (message, k) => `! ${message}${k === 2 && told.length > 3 ? ` (and ${told.length - 3} more)` : ""}`,
        ),
    );
    for (const caution of [
      /^Design guidance.*limits, local codes and qualified practice come first\.$/,
      /^Ends that butt.*wide side\.$/,
      /^Spreading.*eye protection\.$/,
    ])
      expect(words.filter((text) => caution.test(text))).toHaveLength(1);
  });

  test("warns of more than three things where there are", () => {
    expect(messages(designRing(DOUBTFUL)).length).toBeGreaterThan(3);
  });

  test.each(RINGS)("draws to the standard scale that it states, 1 unit being 1 mm: %s", (_, spec) => {
    const design = designRing(spec);
    const elements = elementsOf(renderSheet(ringOverview(design)));
    expect(elements[0].attributes).toMatchObject({ width: "210mm", height: "297mm", viewBox: "0 0 210 297" });
    const scaleOf = (heading: RegExp) => {
      const [, drawn, real] = heading.exec(elements.map(({ text }) => text).join("\n")) ?? [];
      return Number(drawn) / Number(real);
    };
    const stated = scaleOf(/^Free and in its bore, ([\d.]+):([\d.]+)$/m);
    // ISO 5455, from memory; rings of more than 8 m fit none of them.
    if (design.spec.bore < 8000)
      expect([50, 20, 10, 5, 2, 1, 1 / 2, 1 / 5, 1 / 10, 1 / 20, 1 / 50, 1 / 100]).toContain(stated);
    const at = elements.findIndex(({ attributes }) => attributes.class === "closed");
    const numbers = (elements[at].attributes.d.match(/-?[\d.]+/g) ?? []).map(Number);
    const scale = Number(/scale\(([\d.]+)\)/.exec(elements[at - 1].attributes.transform)?.[1]);
    // The back of the closed ring is the lowest point drawn, a bore radius below its centre: 1 µm of rounding, 1:n to one decimal.
    expect(Math.abs((2 * Math.max(...numbers) * scale) / stated / design.spec.bore - 1)).toBeLessThan(5e-4);
    const bore = elements.find(({ name, attributes }) => name === "circle" && attributes.cx) as Element;
    const closing = scaleOf(/^Closing, ([\d.]+):([\d.]+)$/m);
    // Radii of some 10 mm to 0.01 mm or 1:n to one decimal.
    expect(Math.abs((2 * Number(bore.attributes.r)) / closing / design.spec.bore - 1)).toBeLessThan(1e-3);
  });
});
