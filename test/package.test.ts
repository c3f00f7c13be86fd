import { execFileSync, spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { Ajv } from "ajv";
import { build } from "esbuild";
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

  test.each(["spec", "bore", "bores", "engine", "making", "order", "tolerances"])(
    "serves the JSON Schema of a %s",
    (name) => {
      const title = run("schema.cjs", `console.log(require("camround/${name}.schema.json").title)`);
      expect(title).toMatch(/^camround /);
    },
  );

  test.each(["mjs", "cjs"])("runs a study on threads, from a .%s", (kind) => {
    const [camround, parallel] = ["camround", "camround/parallel"].map((entry) =>
      kind === "mjs" ? `await import("${entry}")` : `require("${entry}")`,
    );
    const text = `(async () => {
      const { variation } = ${camround}; const { variationInParallel } = ${parallel};
      const spec = { bore: 118, closedGap: 0.45, section: { radialThickness: 4.4, axialHeight: 2 },
        material: { youngsModulus: 205000 }, load: { contactPressure: 0.15 }, stations: 16 };
      const [tolerances, settings] = [{ radialThickness: 0.02 }, { samples: 16 }];
      const batch = await variationInParallel(spec, tolerances, { ...settings, threads: 2 });
      console.log(JSON.stringify(batch) === JSON.stringify(variation(spec, tolerances, settings)));
    })();`;
    expect(run(`threads.${kind}`, text)).toBe("true");
  });

  test("has types that hold in a strict program that checks the library's too", () => {
    const text = `import { type Closure, closeInBore, designRing, type RingDesign, type RingSpecInput, SpecError } from "camround";
      import { type Arc, type CurveFit, outlineArcs } from "camround/curves";
      import { dxf, readScanCsv } from "camround/files";
      import { variationInParallel } from "camround/parallel";
      import { renderRing } from "camround/svg";
      const spec: RingSpecInput = { bore: "118 mm", closedGap: 0.45, section: { radialThickness: 4.4, axialHeight: 2 },
        material: "1.4112", load: { contactPressure: 0.15 } };
      const ring: RingDesign = designRing(spec);
      const closure: Closure = closeInBore(ring, { diameter: 118.02 });
      const outline: CurveFit<Arc> = outlineArcs(ring);
      // @ts-expect-error a misspelt field
      const wrong: RingSpecInput = { ...spec, boer: 1 };
      export const all: unknown[] = [closure.contactShare, dxf([{ name: "A", fits: [outline] }]), readScanCsv, renderRing(ring),
        variationInParallel, SpecError, wrong];`;
    const compiler = join(root, "node_modules/typescript/bin/tsc");
    writeFileSync(join(folder, "strict.mts"), text);
    const flags = ["--noEmit", "--strict", "--exactOptionalPropertyTypes", "--skipLibCheck", "false"];
    const target = ["--target", "es2022", "--module", "nodenext"];
    const { stdout } = spawnSync(process.execPath, [compiler, ...flags, ...target, "strict.mts"], {
      cwd: folder,
      encoding: "utf8",
    });
    expect(stdout).toBe("");
  }, 180_000);

  test("is bundled for a browser, each entry that serves there by itself", async () => {
    for (const entry of ["camround", "camround/curves", "camround/files", "camround/svg"]) {
      const { outputFiles, warnings } = await build({
        stdin: { contents: `export * from "${entry}"`, resolveDir: folder },
        bundle: true,
        format: "esm",
        platform: "browser",
        target: "es2022",
        write: false,
        logLevel: "silent",
      });
      expect(warnings.filter(({ id }) => id !== "ignored-bare-import")).toEqual([]);
      expect(outputFiles[0].text).not.toMatch(/\brequire\(|\bprocess\.|from "/);
    }
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
