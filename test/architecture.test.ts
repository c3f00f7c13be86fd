import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";

const source = fileURLToPath(new URL("../src", import.meta.url));

/** The calculation in its order; a step may import only from itself and from earlier ones. */
const STEPS = [
  "numeric",
  "spec",
  "section",
  "pressure",
  "forces",
  "curvature",
  "shape",
  "elastica",
  "ends",
  "stress",
  "proof",
  "design",
  "assess",
  "contact",
  "gauge",
  "curves",
  "making",
  "fit",
  "scan",
  "batch",
  "parallel",
  "overview",
  "files",
  "svg",
  "cli",
];

test("Each step of the source imports only from earlier steps", () => {
  const files = readdirSync(source, { recursive: true, encoding: "utf8" }).filter((file) =>
    file.endsWith(".ts"),
  );
  const wrong: string[] = [];
  for (const file of files.filter((name) => name.includes("/"))) {
    const step = STEPS.indexOf(file.split("/")[0]);
    expect(step, `${file} is in a folder that has no place in the order`).toBeGreaterThanOrEqual(0);
    const text = readFileSync(join(source, file), "utf8");
    for (const [, path] of text.matchAll(/from "(\.[^"]+)\.js"/g)) {
      const target = relative(source, join(source, dirname(file), path));
      if (STEPS.indexOf(target.split("/")[0]) > step) wrong.push(`${file} -> ${target}`);
    }
  }
  expect(wrong).toEqual([]);
});

test("Drawing and files take results: of the mechanics they import types alone", () => {
  for (const folder of ["svg", "files"]) {
    for (const file of readdirSync(join(source, folder))) {
      const text = readFileSync(join(source, folder, file), "utf8");
      for (const [statement, path] of text.matchAll(/import[^;]*from "\.\.\/([^"]+)"/g)) {
        if (path.startsWith("curves/") || path.startsWith("spec/")) continue;
        expect(statement, `${folder}/${file} imports ${path}`).toMatch(/^import type /);
      }
    }
  }
});
