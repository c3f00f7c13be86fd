import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { designRing, ringOverview } from "../src/index.js";
import { renderPanel, renderSheet } from "../src/svg.js";
import { elementsOf } from "./elements.js";
import { FERRY, named, PANELS, RINGS, wordsOf } from "./sheets.js";

/** The ring sheet and its pictures as text: sound, inert, told apart without colours. */

const ferry = ringOverview(designRing(FERRY));
const both = (options = {}) => [renderSheet(ferry, options), renderPanel("gap", ferry, options)];
/** As the rules elementsOf, selector and declarations. */
const rulesOf = (svg: string) =>
  [...named(svg, "style")[0].text.matchAll(/^(.+?)\{(.*)\}$/gm)].map(([, selector, body]) => ({
    selector,
    body,
  }));

describe("renderSheet and renderPanel", () => {
  test("draw the ferry ring's sheet as in the reviewed file", async () => {
    await expect(renderSheet(ferry)).toMatchFileSnapshot("snapshots/sheet-ferry.svg");
  });

  test.each(RINGS)("give well-formed, inert text, the same each time: %s", (_, spec) => {
    const draw = (): [string, number][] => {
      const overview = ringOverview(designRing(spec));
      return [
        [renderSheet(overview, { id: "one" }), 1],
        ...PANELS.map((name): [string, number] => [renderPanel(name, overview, { id: "one" }), 0]),
      ];
    };
    const drawn = draw();
    expect(draw()).toEqual(drawn);
    for (const [svg, descriptions] of drawn) {
      const elements = elementsOf(svg);
      const count = (name: string) => elements.filter((element) => element.name === name).length;
      expect([count("svg"), count("title"), count("desc"), count("style")]).toEqual([1, 1, descriptions, 1]);
      const ids = elements.flatMap(({ attributes }) => attributes.id ?? []);
      expect(new Set(ids).size).toBe(ids.length);
      for (const id of ids) expect(id).toMatch(/^one(-|$)/);
      expect(elements[0].attributes["aria-labelledby"].split(" ").every((id) => ids.includes(id))).toBe(true);
      for (const { name, attributes } of elements) {
        expect(name).toMatch(/^(svg|title|desc|style|rect|g|path|circle|text)$/);
        // No events, no references, no looks beside the style sheet.
        expect(
          Object.keys(attributes).filter((key) => /^on|href|^src$|^style$|^fill$|^stroke$/.test(key)),
        ).toEqual([]);
      }
      expect(svg.replace('xmlns="http://www.w3.org/2000/svg"', "")).not.toMatch(/:\/\/|url\(|@import|<!|<\?/);
      expect(svg).not.toMatch(/NaN|undefined|Infinity|>-0(\.0*)?[ <]/);
      expect(svg.length).toBeLessThan(80000);
    }
  });

  test("stay below 80 kB however fine the stations", () => {
    expect(renderSheet(ringOverview(designRing({ ...FERRY, stations: 3000 }))).length).toBeLessThan(80000);
  });

  test.each(["", "2.a b", "-2", "-", "--x", "é.ß", "9", "ring 1", 'a"><b'])(
    "scope every rule by the id, '%s'",
    (id) => {
      for (const svg of both({ id })) {
        const root = named(svg, "svg")[0].attributes.id;
        expect(root).not.toBe("");
        for (const { selector } of rulesOf(svg)) {
          expect(selector).not.toContain(",");
          const [, name, rest] = /^#((?:\\[0-9a-f]{1,6} |\\.|[^\\ ])+) (\S+)$/iu.exec(selector) ?? [];
          expect(rest, selector).toMatch(/^(\.[a-z]+|text)$/);
          // An identifier of CSS: no digit, nor a hyphen and a digit, at its head; what it says is the id (CSS Syntax 3, 4.3.9, from memory).
          expect(name).toMatch(/^(--|-?(?:[a-z_\u0080-\uffff]|\\))/i);
          const said = name.replace(
            /\\([0-9a-f]{1,6}) |\\(.)/giu,
            (_, code, one) => one ?? String.fromCodePoint(Number.parseInt(code, 16)),
          );
          expect(said).toBe(root);
        }
        expect(rulesOf(svg).length).toBeGreaterThan(8);
      }
    },
  );

  test("name every colour plainly first and by a custom property then", () => {
    for (const svg of both())
      for (const { selector, body } of rulesOf(svg)) {
        const colours = body.split(";").filter((one) => /^(fill|stroke):/.test(one) && one !== "fill:none");
        expect(colours.length % 2, selector).toBe(0);
        for (let k = 0; k < colours.length; k += 2) {
          const [property, plain] = colours[k].split(":");
          expect(plain).toMatch(/^#[0-9a-f]{3,6}$/);
          expect(colours[k + 1]).toMatch(new RegExp(`^${property}:var\\(--ring-[a-z]+,${plain}\\)$`));
        }
      }
  });

  test("tell lines apart by their kind and areas by their lightness, for print in black", () => {
    const rules = new Map(
      rulesOf(renderSheet(ferry)).map(({ selector, body }) => [selector.split(" ")[1], body]),
    );
    const kind = (of: string) =>
      /stroke-width:.*$/.exec((rules.get(of) ?? "").replace(/(fill|stroke):[^;]*;?/g, ""))?.[0];
    const kinds = [".curve", ".thin", ".dashed", ".axis"].map(kind);
    expect(kinds).not.toContain(undefined);
    expect(new Set(kinds).size).toBe(kinds.length);
    expect(kind(".dashed")).toContain("dasharray");
    // Relative luminance and contrast (WCAG 2.2, from memory). A laser printer's screen shows a step of 1.5 well.
    const luminance = (of: string) => {
      const [r, g, b] = (/fill:#(..)(..)(..)/.exec(rules.get(of) ?? "") ?? [])
        .slice(1)
        .map((part) => (Number.parseInt(part, 16) / 255) ** 2.2);
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    expect((luminance(".closed") + 0.05) / (luminance(".free") + 0.05)).toBeGreaterThan(1.5);
    // The two curves of the stresses.
    const curves = elementsOf(renderPanel("stress", ferry)).flatMap(
      ({ attributes }) => /^(curve|dashed)$/.exec(attributes.class ?? "")?.[0] ?? [],
    );
    expect(curves).toEqual(["curve", "dashed"]);
  });

  test("keep any title well-formed and inert", () => {
    const plain = both().map((svg) => elementsOf(svg).map(({ name }) => name));
    const anyText = fc.string({
      unit: fc.oneof(fc.constantFrom(..."<>&\"'\u0000\u001f\ud800\uffff]]>\u202e"), fc.string()),
    });
    const check = (title: string) => {
      for (const [k, svg] of both({ title, id: title }).entries())
        expect(elementsOf(svg).map(({ name }) => name)).toEqual(plain[k]);
    };
    fc.assert(fc.property(anyText, check), { numRuns: 60, seed: 1 });
    for (const title of [
      `</title><script>x()</script>"'&`,
      "]]>",
      "טבעת בוכנה 118",
      "W".repeat(2000),
      "𝔚".repeat(2000),
    ]) {
      check(title);
      for (const svg of both({ title })) expect(named(svg, "title")[0].text).toBe(title);
      const [head] = wordsOf(both({ title })[0]);
      // What does not fit is cut and says so; the page is 186 mm wide inside its margins, letters at the smallest 1.8 mm high.
      if (title.length >= 2000) expect(head).toMatch(/^.{50,210}…$/u);
      else expect(head).toBe(title);
    }
  });
});
