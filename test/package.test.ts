import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { Ajv } from "ajv";
import { parse } from "jsonc-parser";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { EXAMPLE_SPEC } from "../src/cli/example.js";
import { readSpec } from "../src/index.js";
import { specJsonSchema } from "../src/spec/jsonSchema.js";
import { MATERIALS } from "../src/spec/materials.js";

const root = fileURLToPath(new URL("..", import.meta.url));

describe("the packed package", () => {
  let folder: string;

  // As an npm install would lay it out, with the dependencies of this checkout.
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "camround-package-"));
    const packed = execFileSync("npm", ["pack", "--ignore-scripts", "--json", "--pack-destination", folder], {
      cwd: root,
      encoding: "utf8",
    });
    const [{ filename }] = JSON.parse(packed);
    const modules = join(folder, "node_modules");
    mkdirSync(modules);
    execFileSync("tar", ["-xzf", join(folder, filename), "-C", modules]);
    execFileSync("mv", [join(modules, "package"), join(modules, "camround")]);
    const { dependencies } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
    for (const name of [
      ...Object.keys(dependencies),
      "d3-path",
      "d3-array",
      "d3-format",
      "d3-interpolate",
      "d3-time",
      "d3-time-format",
      "d3-color",
      "internmap",
      "imurmurhash",
      "signal-exit",
    ]) {
      // A scope is a folder of its own.
      mkdirSync(dirname(join(modules, name)), { recursive: true });
      symlinkSync(join(root, "node_modules", name), join(modules, name));
    }
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const PROGRAM = `
    const ring = designRing({ bore: "118 mm", closedGap: 0.45, section: { radialThickness: 4.4, axialHeight: 2 },
      material: { youngsModulus: 205000 }, load: { contactPressure: 0.15 } });
    console.log(ring.free.gap.toFixed(3), renderRing(ring).slice(0, 4));
    console.log(outlineCubics(ring).closed, dxf([{ name: "OUTLINE", fits: [outlineArcs(ring)] }]).includes("LWPOLYLINE"));`;

  const run = (file: string, text: string) => {
    writeFileSync(join(folder, file), text);
    return execFileSync(process.execPath, [file], { cwd: folder, encoding: "utf8" }).trim();
  };

  test("is imported as an ES module", () => {
    const text = `import { designRing } from "camround"; import { renderRing } from "camround/svg";
      import { outlineArcs, outlineCubics } from "camround/curves"; import { dxf } from "camround/files"; ${PROGRAM}`;
    expect(run("esm.mjs", text)).toBe("11.114 <svg\ntrue true");
  });

  test("is required by CommonJS", () => {
    const text = `const { designRing } = require("camround"); const { renderRing } = require("camround/svg");
      const { outlineArcs, outlineCubics } = require("camround/curves"); const { dxf } = require("camround/files"); ${PROGRAM}`;
    expect(run("common.cjs", text)).toBe("11.114 <svg\ntrue true");
  });

  test("serves its JSON Schema", () => {
    expect(run("schema.cjs", `console.log(require("camround/spec.schema.json").title)`)).toBe(
      "camround ring spec",
    );
  });

  test("keeps every Node built-in out of the library entries", () => {
    for (const entry of ["index", "curves", "files", "svg"]) {
      for (const kind of ["js", "cjs"]) {
        expect(readFileSync(join(root, "dist", `${entry}.${kind}`), "utf8")).not.toMatch(
          /["']node:|require\("fs"\)/,
        );
      }
    }
  });

  test("imports nothing but the schema library in the core", () => {
    const core = readFileSync(join(root, "dist/index.js"), "utf8");
    const imports = [...core.matchAll(/from "([^".][^"]*)"/g)].map(([, name]) => name);
    expect(new Set(imports)).toEqual(new Set(["valibot"]));
  });
});

describe("the published JSON Schema, read by a general-purpose validator,", () => {
  const validate = new Ajv({ strict: false }).compile(specJsonSchema());
  const example = parse(EXAMPLE_SPEC);

  test("accepts what the reader accepts", () => {
    for (const material of [
      "EN-GJS-500-7",
      { youngsModulus: 205000 },
      { youngsModulus: "29.5e6 psi", stressLimit: 300 },
    ]) {
      const spec = { ...example, material };
      expect(validate(spec), JSON.stringify(validate.errors)).toBe(true);
      expect(() => readSpec(spec)).not.toThrow();
    }
    expect(Object.keys(MATERIALS)).toContain("EN-GJS-500-7");
  });

  test.each([
    ["unknown field", { boer: 1 }],
    ["missing unit", { bore: "118" }],
    ["negative bore", { bore: -118 }],
    ["bore in metres", { bore: 0.118 }],
    ["two loads", { load: { tangentialForce: 12, freeGap: 8 } }],
    ["no load", { load: {} }],
    ["modulus in GPa", { material: { youngsModulus: 205 } }],
    ["unknown material", { material: "cheese" }],
    ["unknown theory", { theory: "thick" }],
    ["broken stations", { stations: 100.5 }],
    ["Poisson's ratio of one", { material: { youngsModulus: 205000, poissonRatio: 1 } }],
    ["unknown pressure", { pressure: { shape: "square" } }],
  ])("refuses %s, as the reader does", (_, change) => {
    const spec = { ...example, ...change };
    expect(validate(spec)).toBe(false);
    expect(() => readSpec(spec)).toThrow();
  });
});
