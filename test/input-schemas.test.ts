import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { Ajv } from "ajv";
import { parse } from "jsonc-parser";
import { describe, expect, test } from "vitest";
import { fieldsWithoutWords, inputsPage } from "../docs/inputs.js";
import { fileSchemas } from "../src/inputSchemas.js";

/** JSON Schemas of the input files, and the page of the reference that is made of them. */

const root = fileURLToPath(new URL("..", import.meta.url));
const schemas = fileSchemas();
const validators = new Map(
  Object.entries(schemas).map(([name, schema]) => [name, new Ajv({ strict: false }).compile(schema)]),
);

/** Which schema an example file is by. */
function kindOf(file: string): string {
  const [, kind] = /^(?:ferry-)?(bores?|engine|making|order|tolerances)\b/.exec(file) ?? [];
  return kind ?? "spec";
}

const examples = readdirSync(join(root, "examples")).filter((name) => name.endsWith(".json"));

describe("The JSON Schemas, read by a general-purpose validator,", () => {
  test("are of every kind of file, and the package serves them", () => {
    const { exports } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
    for (const name of Object.keys(schemas)) {
      expect(exports[`./${name}.schema.json`]).toBe(`./dist/${name}.schema.json`);
      if (name !== "spec")
        expect(
          examples.some((file) => kindOf(file) === name),
          name,
        ).toBe(true);
    }
  });

  test.each(examples)("accept examples/%s, and refuse it with a field misspelt", (file) => {
    const validate = validators.get(kindOf(file));
    const input = parse(readFileSync(join(root, "examples", file), "utf8"));
    expect(validate?.(input), JSON.stringify(validate?.errors)).toBe(true);
    const [first, ...rest] = Object.entries(input);
    expect(validate?.(Object.fromEntries([[`${first[0]}x`, first[1]], ...rest]))).toBe(false);
  });

  test.each([
    ["bore", { harmonics: [{ order: 4 }] }],
    ["bore", { diameter: "118" }],
    ["bores", {}],
    ["bores", { bores: [] }],
    ["bores", { bores: [{ radius: 59 }] }],
    ["bores", { bores: [{}], leastGap: -0.1 }],
    ["bores", { bores: [{}], gapTolerance: 0 }],
    ["engine", { piston: { diameter: [117.4], groove: { width: 2 } } }],
    ["engine", { heat: { ring: { temperature: 2000 }, bore: {} } }],
    ["order", { bore: 118, piston: { diameter: 117.4, groove: { width: 2 } }, materials: [] }],
    ["making", { page: "A5" }],
    ["making", { cam: { centre: "middle" } }],
    ["making", { heatSet: { remaining: 0.1, before: "bent" } }],
    ["tolerances", { bore: -0.1 }],
    ["tolerances", { limits: { force: { min: 1 } } }],
  ])("refuse a wrong %s: %j", (name, input) => {
    expect(validators.get(name)?.(input)).toBe(false);
  });

  test.each([
    ["bore", {}],
    ["bores", { bores: [{}, { diameter: "118.01 mm" }], closedGap: "18 thou", tangentialForce: "4 lbf" }],
    ["engine", { piston: { diameter: [117.3, "117.4 mm"], groove: { width: 2, root: 107 } } }],
    ["making", { cam: { centre: [0.1, "0.2 mm"] }, heatSet: { remaining: 0.1, before: "straight" } }],
    ["tolerances", { bore: "20 um", lobes: [{ order: 3, tolerance: { lower: 0, upper: 0.01 } }] }],
  ])("accept a good %s: %j", (name, input) => {
    const validate = validators.get(name);
    expect(validate?.(input), JSON.stringify(validate?.errors)).toBe(true);
  });
});

describe("docs/reference/inputs.md", () => {
  test("has words for each field", () => expect(fieldsWithoutWords()).toEqual([]));

  test("is what the schemas say: npm run docs:reference", () => {
    expect(readFileSync(join(root, "docs/reference/inputs.md"), "utf8")).toBe(inputsPage());
  });
});
