import { existsSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { csvParse } from "d3-dsv";
import { SaxesParser } from "saxes";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readScanCsv } from "../src/files.js";
import { changedRing, compareRings, designRing, type Point, ringFromScan } from "../src/index.js";
import { type Result, runNode, snapshot } from "./programs.js";
import { DEMO_RINGS } from "./rings.js";

/** `camround scan` as a program. */

const CLI = join(fileURLToPath(new URL("..", import.meta.url)), "dist/cli.js");
const FERRY = { ...DEMO_RINGS["ferry 118 mm"], stations: 64 };
const { load: _load, ...BODY } = FERRY;

/** From −1 to 1, the same on every machine: multiples of the golden section less their wholes. */
const spread = (i: number) => 2 * ((i * 0.6180339887498949) % 1) - 1;
const OUTER = designRing({ ...FERRY, load: { contactPressure: 0.13 }, stations: 120 }).outline.outer;
const rough = ([x, y]: Point, i: number): Point => [x + spread(i) / 1e3, y + spread(7 * i + 3) / 1e3];
const row = ([x, y]: Point) => `${x.toFixed(5)},${y.toFixed(5)}`;
/** Softer than drawn; with a comment before the head and a blank line after it, two points astray and one given twice. */
const ROWS = OUTER.map(rough).map(row);
const ASTRAY = [40, 200];
for (const i of ASTRAY) ROWS[i] = row([OUTER[i][0] * 1.005, OUTER[i][1] * 1.005]);
const TABLE = `# by a machine\nx_mm,y_mm\n\n${[...ROWS, ROWS[9]].join("\n")}\n`;
/** Line of a row. */
const lineOf = (i: number) => 4 + i;

let folder: string;
const file = (name: string, content: string) => writeFileSync(join(folder, name), content);
beforeAll(() => {
  if (!existsSync(CLI)) throw new Error("build first: npm run build");
  folder = mkdtempSync(join(tmpdir(), "camround-scan-"));
  file("points.csv", TABLE);
  file("ferry.json", JSON.stringify(FERRY));
  file("body.json", JSON.stringify(BODY));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function camround(...args: string[]): Promise<string> {
  const { status, stdout, stderr } = await runNode(folder, [CLI, ...args]);
  expect(stderr).toBe("");
  expect(status).toBe(0);
  return stdout;
}
const scan = (...args: string[]) => camround("scan", "points.csv", ...args);
const read = (name: string) => readFileSync(join(folder, name), "utf8");

/** The line of a report that begins with a label, without it; under a heading where several do. */
function line(report: string, label: string, heading = ""): string {
  const lines = report.slice(report.indexOf(heading)).split("\n");
  const found = lines.find((text) => text.trimStart().startsWith(`${label} `));
  if (found === undefined) throw new Error(`the report has no "${label}"`);
  return found.trimStart().slice(label.length);
}
const numbers = (text: string) => (text.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);

const ring = ringFromScan(readScanCsv(TABLE).points, { spec: FERRY });
const comparison = compareRings(ring, designRing(FERRY));

describe("camround scan", () => {
  test("reports points, ring and difference as the library finds them", async () => {
    const report = await scan("--spec", "ferry.json");
    expect(numbers(line(report, "read"))[0]).toBe(242);
    expect(numbers(line(report, "on the outer face"))[0]).toBe(239);
    expect(numbers(line(report, "set aside"))).toEqual([2, ...ASTRAY.map(lineOf)]);
    expect(numbers(line(report, "given twice"))).toEqual([1, lineOf(241)]);
    const [found, against] = ["The ring, with", "Against the drawing"];
    const expectRow = (label: string, heading: string, ...rounded: [value: number, digits: number][]) =>
      expect(numbers(line(report, label, heading)).slice(0, rounded.length)).toEqual(
        rounded.map(([value, digits]) => Number(value.toFixed(digits))),
      );
    const { tangentialForce: force, largestDeviation, freeGap } = comparison;
    const { load, free, scan: told } = ring;
    expectRow("scatter about the face", "Points", [1000 * told.noise, 2]);
    expectRow("tangential force Ft", found, [load.tangentialForce, 2], [told.band.tangentialForce, 3]);
    expectRow("free gap m", found, [free.gap, 3], [told.band.freeGap, 4]);
    expect(line(report, "light test, round gauge", found)).toContain(told.light.passes ? "passes" : "fails");
    expect(line(report, "chance to pass", found)).toContain("of 64 rings");
    expectRow("tangential force", against, [force.drawn, 2], [100 * (force.made / force.drawn - 1), 2]);
    expectRow("free gap", against, [freeGap.drawn, 3], [freeGap.made - freeGap.drawn, 3]);
    expectRow("outer face off by", against, [1000 * largestDeviation, 2]);
    expect(report).toContain("Cautions");
    expect(report).not.toMatch(/NaN|undefined|Infinity/);
    expect(Object.keys(snapshot(folder)).sort()).toEqual(["body.json", "ferry.json", "points.csv"]);
  });

  test("prints as JSON what gauge and close take", async () => {
    const json = JSON.parse(await scan("--spec", "ferry.json", "--json", "--draws", "0"));
    expect(json).toMatchObject(JSON.parse(JSON.stringify({ ...ring, comparison })));
    const { tangentialForce, freeGap: gap } = ring.load;
    expect(json).toMatchObject({ tangentialForce, freeGap: gap, contactShare: comparison.contactShare.made });
    expect(json.table).toEqual({ every: 1, outlierLines: ASTRAY.map(lineOf), duplicateLines: [lineOf(241)] });
    file("ring.json", JSON.stringify(json));
    file("bore.json", "{}");
    const [gauged, closed] = await Promise.all([
      camround("gauge", "ring.json", "--json"),
      camround("close", "ring.json", "--bore", "bore.json", "--json"),
    ]);
    expect(JSON.parse(gauged).tape.force).toBeCloseTo(json.tangentialForce, 6);
    expect(JSON.parse(gauged).tape.freeGap).toBeCloseTo(json.freeGap, 6);
    expect(JSON.parse(closed).contactShare).toBe(json.contactShare);
  });

  test("takes its flags as the library takes options", async () => {
    const flags = "--noise=1um --sensitivity=5um --length=points --mirrored --draws=0".split(" ");
    const { load, scan: told } = JSON.parse(await scan("--spec", "body.json", ...flags, "--json"));
    const options = { noise: 0.001, sensitivity: 0.005, length: "points", mirrored: true } as const;
    expect(load).toEqual(ringFromScan(readScanCsv(TABLE).points, { spec: FERRY, ...options }).load);
    expect([told.noise, told.light.closure.sensitivity]).toEqual([0.001, 0.005]);
  });

  test("draws and writes the correction where asked, in the place of old files", async () => {
    for (const name of ["out.svg", "next.csv"]) file(name, "old");
    await scan("--spec", "ferry.json", "--svg", "out.svg", "--correction", "next.csv", "--draws", "0");
    const parser = new SaxesParser();
    parser.on("error", (error) => {
      throw error;
    });
    parser.write(read("out.svg")).close();
    const table = csvParse(read("next.csv"));
    const { theta, curvature, band, correction } = comparison;
    const { ring: next, bendRadius, lift } = correction;
    const columns = {
      angle_from_back_deg: theta.map((angle) => (angle * 180) / Math.PI),
      curvature_change_per_mm: correction.fromDrawing.curvature,
      wire_length_mm: next.free.arcLength,
      curvature_error_per_mm: curvature,
      curvature_band_per_mm: band,
      bend_radius_before_mm: bendRadius.before,
      bend_radius_now_mm: bendRadius.now,
      cam_lift_change_mm: lift,
    };
    expect(table.columns).toEqual(Object.keys(columns));
    expect(table).toHaveLength(theta.length);
    for (const [name, values] of Object.entries(columns)) {
      // Half a unit in the last place that is written: six decimals, nine of a curvature and twelve of its change; and the digits of the angle.
      const half =
        (name.includes("change_per") ? 0.5e-12 : name.startsWith("curv") ? 0.5e-9 : 0.5e-6) * 1.0001;
      expect(table.every((cells, i) => Math.abs(Number(cells[name]) - values[i]) < half)).toBe(true);
    }
  });

  test("has its correction made into files, and knows of it at the next ring", async () => {
    await scan("--spec", "ferry.json", "--correction", "first.csv", "--draws", "0");
    const plan = JSON.parse(
      await camround("make", "ferry.json", "--correction", "first.csv", "--out", "next", "--json"),
    );
    const { correction } = comparison;
    // Six digits of the table's twelve decimals.
    expect(plan.metal.told.load.freeGap).toBeCloseTo(correction.ring.free.gap, 6);
    expect(plan.load.freeGap).toBeCloseTo(comparison.freeGap.drawn, 9);
    expect(read(join("next", "job.md"))).toContain("to tell the machine");
    await scan("--spec", "ferry.json", "--made-with", "first.csv", "--correction", "second.csv");
    const [first, second] = ["first.csv", "second.csv"].map((name) =>
      csvParse(read(name)).map((cells) => Number(cells.curvature_change_per_mm)),
    );
    // The ring is the same again, so what it lacks is told once more.
    const again = compareRings(ring, designRing(FERRY), {
      commanded: changedRing(designRing(FERRY), correction.fromDrawing),
    }).correction.fromDrawing.curvature;
    expect(Math.max(...again.map((value, i) => Math.abs(second[i] - value)))).toBeLessThan(1e-11);
    expect(Math.max(...first.map(Math.abs))).toBeGreaterThan(1e-7);
    for (const flag of ["--made-with", "--correction"]) {
      const { status, stderr } = await runNode(folder, [
        ...[CLI, ...(flag === "--correction" ? ["make", "--out", "x"] : ["scan", "points.csv", "--spec"])],
        ...["ferry.json", flag, "points.csv"],
      ]);
      expect([status, stderr]).toEqual([2, expect.stringMatching(/angle_from_back_deg/)]);
    }
  });

  test("needs no load, which a flag may bring", async () => {
    const [alone, loaded] = await Promise.all([
      scan("--spec", "body.json", "--draws", "0"),
      scan("--spec", "body.json", "--draws", "0", "--pressure", "0.15"),
    ]);
    expect(alone).not.toContain("Against the drawing");
    expect(loaded.replace(/Against[\s\S]*?\n\n/, "")).toBe(alone);
    expect(line(loaded, "tangential force", "Against")).toContain("17.69 N");
  });

  test("says that it thins a long table, and is done soon", async () => {
    const count = 500_000;
    const between = (i: number): Point => {
      const place = (i * 240) / count;
      const [k, share] = [Math.floor(place), place % 1];
      return rough([0, 1].map((j) => OUTER[k][j] + share * (OUTER[k + 1][j] - OUTER[k][j])) as Point, i);
    };
    const rows = Array.from({ length: count }, (_, i) => row(between(i)));
    file("many.csv", `x_mm,y_mm\n${rows.join("\n")}\n`);
    const start = performance.now();
    const report = await camround("scan", "many.csv", "--spec", "ferry.json", "--draws", "0");
    const seconds = (performance.now() - start) / 1000;
    console.log(`camround scan of half a million rows: ${seconds.toFixed(2)} s in all`);
    rmSync(join(folder, "many.csv"));
    expect(line(report, "read")).toMatch(/^ +(250000 .*\b2|166667 .*\b3)/);
    // Chords between 241 places lie 59·(2π/240)²/12 = 3 µm inside on average: bent tighter, by 2π of that over the whole ring.
    expect(Math.abs(numbers(line(report, "free gap m"))[0] - ring.free.gap)).toBeLessThan(0.03);
    // Some two seconds on a quiet machine.
    expect(seconds).toBeLessThan(30);
  });
});

/** Runs the program once a case, all in one process, for starting one takes most of the time; its entry is loaded anew each time. */
const DRIVER = `
const entry = require("node:url").pathToFileURL(process.argv[1]).href;
const write = process.stdout.write.bind(process.stdout);
process.stdout.setMaxListeners(0);
(async () => {
  const results = [];
  for (const [k, args] of JSON.parse(process.argv[2]).entries()) {
    const result = { stdout: "", stderr: "" };
    for (const name of ["stdout", "stderr"]) process[name].write = (text) => ((result[name] += text), true);
    process.argv.splice(2, Infinity, ...args);
    await import(entry + "?" + k);
    results.push({ ...result, status: process.exitCode });
  }
  process.exitCode = 0;
  write(JSON.stringify(results));
})();
`;

describe("refused with one line, and no file written or changed:", () => {
  const cases: [what: string, table: string | undefined, args: string, words: string[]][] = [
    ["no table", undefined, "", ["POINTS.csv"]],
    ["a table that is not there", undefined, "none.csv", ['POINTS.csv = "none.csv"', "no such file"]],
    ["a folder for a table", undefined, ".", ['POINTS.csv = "."', "folder"]],
    ["an unknown unit", "x_mm,y_ell\n1,2\n", "", ["line 1", "y_ell", "mm, cm, m"]],
    ["a bad row", TABLE.replace(ROWS[5], "1,two"), "", [`line ${lineOf(5)} = "two"`, "column y_mm"]],
    ["few points", "x_mm,y_mm\n1,2\n3,4\n", "", ["points = 2", "at least 60"]],
    ["a wrong unit", TABLE.replace("x_mm,y_mm", "x_in,y_in"), "", ["points", "another ring"]],
    ["half a ring", `x_mm,y_mm\n${ROWS.slice(0, 133).join("\n")}`, "", ["points", "55 %"]],
    ["no spec", TABLE, "--spec", ["--spec"]],
    ["a spec that is not there", TABLE, "--spec none.json", ['--spec = "none.json"', "no such file"]],
    ["a table for a spec", TABLE, "--spec points.csv", ["not JSON", "line 1"]],
    ["a wrong field", TABLE, "--bore -1", ["bore = -1"]],
    ["two outputs to one file", TABLE, "--svg ./next.csv", ["--svg and --correction", "next.csv"]],
    ["noise in newtons", TABLE, "--noise 1N", ["--noise", "length unit"]],
    ["a wrong length", TABLE, "--length ends", ["length", '"spec" or "points"']],
    ["half a draw", TABLE, "--draws 0.5", ["draws = 0.5", "whole number"]],
    ["a flag misspelt", TABLE, "--corection x", ["--corection", "--correction"]],
    ["a picture without a drawing", TABLE, "--spec body.json", ["--svg", "drawing", "load"]],
  ];
  let results: Result[];
  let before: Record<string, string>;
  beforeAll(async () => {
    const all = cases.map(([, table, args], k) => {
      if (table !== undefined) file(`case-${k}.csv`, table);
      const given = [...(table === undefined ? [] : [`case-${k}.csv`]), ...args.split(" ").filter(Boolean)];
      const spec = given.includes("--spec") ? [] : ["--spec", "ferry.json"];
      return ["scan", ...spec, "--svg", "out.svg", "--correction", "next.csv", ...given];
    });
    for (const name of ["out.svg", "next.csv"]) file(name, "old");
    symlinkSync("/dev/null", join(folder, "sink.svg"));
    before = snapshot(folder);
    const { stdout, stderr } = await runNode(folder, ["-e", DRIVER, CLI, JSON.stringify(all)]);
    expect(stderr).toBe("");
    results = JSON.parse(stdout);
  });

  test.each(cases.map(([what, , , words], k) => [what, k, words] as const))("%s", (_, k, words) => {
    const { status, stdout, stderr } = results[k];
    expect(stderr).toMatch(/^camround: [^\n]{1,400}\n$/);
    for (const word of words) expect(stderr).toContain(word);
    expect([status, stdout]).toEqual([2, ""]);
    expect(snapshot(folder)).toEqual(before);
  });

  test("no spec at all, told in this command's words", async () => {
    const { status, stderr } = await runNode(folder, [CLI, "scan", "points.csv"]);
    expect(status).toBe(2);
    expect(stderr).toMatch(/^camround: --spec must [^\n]+\n$/);
    expect(stderr).not.toContain("SPEC.json");
  });

  const both = "and so, with status 1, %s beside a file that cannot be written";
  test.each(["out.svg", "new.svg", "sink.svg"])(both, async (svg) => {
    const args = `scan points.csv --spec=ferry.json --draws=0 --svg=${svg} --correction=no/x`;
    const { status, stdout, stderr } = await runNode(folder, [CLI, ...args.split(" ")]);
    expect(stderr).toMatch(/^camround: cannot write "no\/x"[^\n]+\n$/);
    expect([status, stdout]).toEqual([1, ""]);
    expect(Object.keys(snapshot(folder))).toEqual(Object.keys(before));
    expect([read("out.svg"), read("next.csv")]).toEqual(["old", "old"]);
  });
});
