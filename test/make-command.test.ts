import { spawnSync } from "node:child_process";
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { parse } from "jsonc-parser";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { outlineArcs } from "../src/curves.js";
import { planMaking } from "../src/index.js";
import { type Result, runNode, snapshot } from "./programs.js";
import { runEach } from "./refused.js";

const root = fileURLToPath(new URL("..", import.meta.url));
const CLI = join(root, "dist/cli.js");
const example = (name: string) => join(root, "examples", name);
const FERRY = example("ferry-118.json");
const MOTORCYCLE = example("motorcycle-54.json");
const GAS_ENGINE = example("gas-engine-340.json");
const ferry = JSON.parse(readFileSync(FERRY, "utf8"));

const SET = [
  "job.md",
  "outline.dxf",
  "outline.svg",
  "outline.csv",
  "template.svg",
  "template.html",
  "coiling.csv",
  "cam.csv",
  "ends.csv",
];

let base: string;
beforeAll(() => {
  if (!existsSync(CLI)) throw new Error("build first: npm run build");
  base = mkdtempSync(join(tmpdir(), "camround-make-"));
  // Another user, as whom some of the tests run the program, must get in.
  chmodSync(base, 0o755);
});
afterAll(() => rmSync(base, { recursive: true, force: true }));

let folders = 0;
/** A folder of its own for each test, so that they can run side by side. */
function ownFolder(): string {
  const path = join(base, `test-${folders++}`);
  mkdirSync(path);
  return path;
}

const camround = (cwd: string, ...args: string[]) => runNode(cwd, [CLI, ...args]);

/** After some code in the same process, such as a change of the umask. */
const camroundAfter = (code: string, cwd: string, ...args: string[]) =>
  runNode(cwd, ["-e", `${code};import(${JSON.stringify(pathToFileURL(CLI).href)})`, CLI, ...args]);

const IS_ROOT = process.getuid?.() === 0;
/** Permissions bind everyone but root. */
const camroundUnprivileged = (cwd: string, ...args: string[]) =>
  IS_ROOT
    ? camroundAfter("process.setgroups([]);process.setgid(65534);process.setuid(65534)", cwd, ...args)
    : camround(cwd, ...args);

interface Case {
  readonly folder: string;
  readonly args: readonly string[];
}

/** Runs `camround make` once a case. */
const runAll = (cases: readonly Case[]): Promise<Result[]> =>
  runEach(
    base,
    CLI,
    cases.map(({ args }) => ["make", ...args]),
    cases.map(({ folder }) => folder),
  );

/** Whether another user than root can run the program here and get at the folders. */
let unprivileged: Promise<boolean> | undefined;
function hasUnprivileged(): Promise<boolean> {
  const inOpenFolder = async () => {
    const folder = ownFolder();
    chmodSync(folder, 0o777);
    return (await camroundUnprivileged(folder, "make", FERRY, "--out", "set")).status === 0;
  };
  unprivileged ??= inOpenFolder();
  return unprivileged;
}

const makingFile = (folder: string, making: unknown) => {
  writeFileSync(join(folder, "making.json"), typeof making === "string" ? making : JSON.stringify(making));
  return "making.json";
};

/** The making file that the help shows. */
let help: Promise<Result> | undefined;
async function helpMaking(): Promise<string> {
  help ??= camround(base, "make", "--help");
  const { stdout } = await help;
  const [, text] = /A making file[^\n]*\n([\s\S]*?)\n\s*\n/.exec(stdout) ?? [];
  return text;
}

function planOf({ status, stdout, stderr }: Result) {
  expect(stderr).toBe("");
  expect(status).toBe(0);
  return JSON.parse(stdout);
}

const makeJson = async (cwd: string, ...args: string[]) =>
  planOf(await camround(cwd, "make", ...args, "--json"));

/** Several plans from one process. */
const makeJsonEach = async (folder: string, ...cases: string[][]) =>
  (await runAll(cases.map((args) => ({ folder, args: [...args, "--json"] })))).map(planOf);

const plain = (value: unknown) => JSON.parse(JSON.stringify(value));
const rounded = (value: number, decimals: number) => Number(value.toFixed(decimals));
const inDegrees = (radians: number) => (radians * 180) / Math.PI;

/** Numbers of a line of the job sheet. */
function numbersOf(sheet: string, label: string): number[] {
  const line = sheet.split("\n").find((text) => text.startsWith(`- ${label}: `));
  if (line === undefined) throw new Error(`the job sheet has no "${label}"`);
  return [...line.slice(label.length + 4).matchAll(/-?\d+(\.\d+)?/g)].map(([digits]) => Number(digits));
}

function columnsOf(csv: string): { names: string[]; rows: string[][] } {
  const [names, ...rows] = csv
    .trimEnd()
    .split("\n")
    .map((line) => line.split(","));
  return { names, rows };
}

describe.concurrent("camround make writes", () => {
  test("the whole set and nothing else, and prints the job sheet", async () => {
    const folder = ownFolder();
    const { status, stdout, stderr } = await camround(folder, "make", FERRY, "--out", "set");
    expect(stderr).toBe("");
    expect(status).toBe(0);
    expect(readdirSync(folder)).toEqual(["set"]);
    expect(readdirSync(join(folder, "set")).sort()).toEqual([...SET].sort());
    const sheet = readFileSync(join(folder, "set/job.md"), "utf8");
    expect(stdout).toBe(`${sheet}\nWritten to set: ${SET.join(", ")}\n`);
    for (const words of [
      "design guidance",
      "butt when hot",
      "wear eye protection",
      "file from the outer",
      "wire springs",
      "mind the dielectric",
    ]) {
      expect(sheet).toContain(words);
    }

    // Drawings of the kind that their names say, in true size.
    const read = (name: string) => readFileSync(join(folder, "set", name), "utf8");
    expect(read("outline.dxf").trimEnd().endsWith("EOF")).toBe(true);
    for (const layer of ["OUTLINE", "CENTROID", "BORE"]) expect(read("outline.dxf")).toContain(layer);
    expect(read("template.svg")).toMatch(/^<svg [^>]*width="210mm" height="297mm" viewBox="0 0 210 297"/);
    const [, width, box] =
      /width="([\d.]+)mm"[^>]*viewBox="\S+ \S+ ([\d.]+) /.exec(read("outline.svg")) ?? [];
    expect(width).toBe(box);
    expect(read("template.html")).toContain(read("template.svg"));
  });

  test("tables whose first line names each column with its unit", async () => {
    const folder = ownFolder();
    await camround(folder, "make", FERRY, "--out", "set", "--yield", "1400 MPa");
    for (const [name, rows, ...must] of [
      ["outline.csv", undefined, "face", "x_mm", "y_mm"],
      ["coiling.csv", 181, "wire_length_mm", "angle_from_back_deg", "radius_mm", "bend_radius_mm"],
      ["cam.csv", 361, "angle_from_back_deg", "outer_radius_mm", "inner_lift_mm", "cut_out"],
      ["ends.csv", 3, "hold", "gap_mm", "left_face_deg", "band_pull_N"],
    ] as const) {
      const table = columnsOf(readFileSync(join(folder, "set", name), "utf8"));
      expect(table.names).toEqual(expect.arrayContaining([...must]));
      const words = ["face", "hold", "cut_out"];
      for (const column of table.names) {
        if (!words.includes(column)) expect(column).toMatch(/_(mm|deg|N|mm_per_rad|mm_per_rad2)$/);
      }
      if (rows !== undefined) expect(table.rows).toHaveLength(rows);
      for (const row of table.rows) {
        expect(row).toHaveLength(table.names.length);
        for (const [k, cell] of row.entries()) {
          // Only the band pulls.
          if (words.includes(table.names[k]) || (table.names[k] === "band_pull_N" && row[0] !== "held"))
            continue;
          expect(cell).toMatch(/^-?\d+(\.\d+)?$/);
        }
      }
    }
  });

  test("mandrel and gauge where the making file asks for them", async () => {
    const folder = ownFolder();
    const making = makingFile(folder, {
      gap: { gapTolerance: 0.05 },
      heatSet: { remaining: 0.02, before: "straight" },
    });
    const { status, stdout } = await camround(folder, "make", FERRY, "--making", making, "--out", "set");
    expect(status).toBe(0);
    expect(readdirSync(join(folder, "set")).sort()).toEqual([...SET, "gauge.svg", "mandrel.dxf"].sort());
    expect(readFileSync(join(folder, "set/mandrel.dxf"), "utf8")).toContain("MANDREL");
    for (const words of ["## Shape setting (mandrel.dxf)", "mandrel.dxf, gauge.svg"])
      expect(stdout).toContain(words);
  });

  test("a large ring's template over several sheets, fewer of them where the sheet is larger", async () => {
    const folder = ownFolder();
    const pages = ["A4", "A3"];
    const plans = await makeJsonEach(
      folder,
      ...pages.map((page) => [GAS_ENGINE, "--out", page, "--page", page]),
    );
    const [a4, a3] = plans.map(({ files }, k) => {
      const page = pages[k];
      expect(readdirSync(join(folder, page)).sort()).toEqual([...files].sort());
      const names = files.filter((name: string) => /^template.*svg$/.test(name));
      const html = readFileSync(join(folder, page, "template.html"), "utf8");
      expect(html.match(/<svg /g)).toHaveLength(names.length);
      for (const name of names) {
        const svg = readFileSync(join(folder, page, name), "utf8");
        expect(html).toContain(svg);
        expect(svg).toContain(`of ${names.length} (row`);
      }
      return names;
    });
    // Free, the ring is 357 mm wide and 348 mm high; the sheets show 194 × 247 mm and 281 × 370 mm.
    expect(a4).toEqual(["template.svg", "template-2.svg", "template-3.svg", "template-4.svg"]);
    expect(a3).toEqual(["template.svg", "template-2.svg"]);
    expect(readFileSync(join(folder, "A3/template-2.svg"), "utf8")).toMatch(/width="(297|420)mm"/);
  });

  test("the same bytes in any folder, at any time, with --json or without", async () => {
    const folder = ownFolder();
    await Promise.all([
      camround(folder, "make", MOTORCYCLE, "--out", "one", "--yield", "500 MPa"),
      camround(folder, "make", MOTORCYCLE, "--out", "further/two/", "--yield", "500 MPa"),
      camround(folder, "make", MOTORCYCLE, "--out", "three", "--yield", "500 MPa", "--json"),
    ]);
    const bytes = (set: string) =>
      Object.fromEntries(SET.map((name) => [name, readFileSync(join(folder, set, name), "latin1")]));
    const one = bytes("one");
    expect(bytes("further/two")).toEqual(one);
    expect(bytes("three")).toEqual(one);
    const { status } = await camround(
      folder,
      "make",
      MOTORCYCLE,
      "--out",
      "one",
      "--yield",
      "500",
      "--force",
    );
    expect(status).toBe(0);
    expect(bytes("one")).toEqual(one);
  });
});

describe.concurrent("camround make tells", () => {
  test("as JSON the plan that the library computes, with the names of the files", async () => {
    const folder = ownFolder();
    const text = await helpMaking();
    const { spec, files, others, load, stress, warnings, outline, ...plan } = await makeJson(
      folder,
      FERRY,
      "--making",
      makingFile(folder, text),
      "--out",
      "set",
    );
    const { metal, ...rest } = planMaking(ferry, parse(text));
    const { design, told: _told, finished, ...sizes } = metal;
    expect(plan).toEqual(plain({ ...rest, metal: sizes }));
    expect({ spec, load, stress, warnings }).toEqual(
      plain({ spec: finished.spec, load: design.load, stress: design.stress, warnings: design.warnings }),
    );
    expect(others).toEqual([]);
    expect(outline.deviation).toBeLessThanOrEqual(outline.tolerance);
    expect([...files].sort()).toEqual(readdirSync(join(folder, "set")).sort());
    // What is no number would come out of JSON as null.
    expect(JSON.stringify(plan)).not.toContain("null");
  });

  test("as JSON, on one line, the warnings that the job sheet has", async () => {
    const folder = ownFolder();
    const { stdout } = await camround(folder, "make", GAS_ENGINE, "--out", "set", "--json");
    expect(stdout).toMatch(/^\{[^\n]+\}\n$/);
    const warning = "without the notch effect of the slots' roots";
    expect(readFileSync(join(folder, "set/job.md"), "utf8")).toContain(warning);
    expect(stdout).toContain(warning);
  });

  test("on the job sheet the numbers of the plan", async () => {
    const folder = ownFolder();
    const making = makingFile(folder, await helpMaking());
    const plan = await makeJson(folder, FERRY, "--making", making, "--out", "set");
    const sheet = readFileSync(join(folder, "set/job.md"), "utf8");
    const { spec, coiling, cam, gap, heatSet } = plan;
    const numbers = (label: string) => numbersOf(sheet, label);
    const mm = (value: number) => rounded(value, 3);
    const inch = (value: number) => rounded(value / 25.4, 4);
    const { bore, closedGap, section, load } = spec;

    expect(sheet).toMatch(/^# Job sheet: ring Ø118 × 4.4 × 2 mm\n/);
    expect(numbers("bore, closed gap")).toEqual([bore, inch(bore), closedGap]);
    expect(numbers("free gap, mid wall")).toEqual([
      mm(plan.load.freeGap),
      inch(plan.load.freeGap),
      mm(gap.setups[0].gap),
    ]);
    // Ft = p0·d1·h1/2; the pressure counts where the ring touches, over the coating.
    expect(load.contactPressure).toBe(0.15);
    expect(numbers("Ft, p0").slice(-2)).toEqual([
      rounded((load.contactPressure * bore * section.axialHeight) / 2, 2),
      load.contactPressure,
    ]);
    expect(numbers("section to make")).toEqual([4.385, 2.02]);

    expect(coiling.blankLength).toBeCloseTo(coiling.developedLength + 2 * 0.2 + 0.3, 9);
    expect(numbers("wire for one ring")).toEqual([
      mm(coiling.blankLength),
      inch(coiling.blankLength),
      mm(coiling.developedLength),
    ]);
    const { ring, batch } = coiling.mass;
    expect(batch).toBeCloseTo(16 * 4.385 * 2.02 * coiling.blankLength * 7850e-9, 9);
    expect(numbers("weight")).toEqual([rounded(1000 * ring, 2), rounded(batch, 3), 16, 7850]);
    const { radius, bendRadius } = coiling.table;
    expect(numbers("free radius, mid wall")).toEqual([mm(radius[90]), mm(radius[180])]);
    expect(numbers("bend to, mid wall")).toEqual([mm(bendRadius[90]), mm(bendRadius[180])]);

    expect(numbers("centre, from the bore's")).toEqual(cam.centre.map(mm));
    expect(numbers("lift, outer and inner face")).toEqual([
      mm(cam.outer.largestLift),
      mm(cam.inner.largestLift),
    ]);
    expect(numbers("cut out afterwards")).toEqual(
      [cam.cutOut.from, cam.cutOut.to].map((angle) => rounded(inDegrees(angle), 4)),
    );

    expect(numbers("gap on the mandrel")).toEqual([mm(heatSet.gap)]);
    expect(numbers("free gap expected")).toEqual([mm(heatSet.freeGap.expected), 0.1]);
    expect(numbers("if less or more remains")).toEqual([
      mm(heatSet.freeGap.ifLess),
      mm(heatSet.freeGap.ifMore),
      0.02,
    ]);

    for (const [k, label] of ["free in a nest", "held part-closed in a band"].entries()) {
      const { gap: middle, gapOuter, gapInner, faces, pull, parallelCutter } = gap.setups[k];
      expect(numbers(label)).toEqual([
        mm(middle),
        mm(gapOuter),
        mm(gapInner),
        rounded(inDegrees(faces.right), 4),
        ...(pull === undefined ? [] : [rounded(pull, 2)]),
        mm(parallelCutter.gapOuter),
        mm(parallelCutter.gapInner),
      ]);
    }
    expect(numbers("closed in a sleeve")).toEqual([0.35, 0.35, 0.35, 0]);
    expect(numbers("closed gap as cut")).toEqual([0.35, 0.05]);
    expect(numbers("0.050 mm off each end")).toEqual([0.45]);
    expect(numbers("a bore 0.01 mm larger")).toEqual([rounded(Math.PI * 0.01, 3)]);
    expect(numbers("also")).toHaveLength(0);

    // Arcs as the drawing has them, and as the library counts them.
    const dxf = readFileSync(join(folder, "set/outline.dxf"), "utf8").split(/\r?\n/);
    const at = dxf.indexOf("LWPOLYLINE");
    const vertices = Number(dxf[dxf.indexOf("90", at) + 1]);
    const fit = outlineArcs(planMaking(ferry).metal.design, { added: plan.added });
    expect(fit.pieces).toHaveLength(vertices);
    expect(numbers("outline.dxf")).toEqual([vertices, rounded(1000 * fit.deviation, 2), fit.chords]);
  });

  test("in the tables the numbers of the plan", async () => {
    const folder = ownFolder();
    const { coiling, cam, gap } = await makeJson(folder, MOTORCYCLE, "--out", "set", "--yield", "500 MPa");
    const column = (file: string, name: string) => {
      const { names, rows } = columnsOf(readFileSync(join(folder, "set", file), "utf8"));
      return rows.map((row) => Number(row[names.indexOf(name)]));
    };
    const six = (values: number[]) => values.map((value) => rounded(value, 6) + 0);
    const { table } = coiling;
    expect(column("coiling.csv", "wire_length_mm")).toEqual(six(table.length));
    expect(column("coiling.csv", "angle_from_back_deg")).toEqual(six(table.theta.map(inDegrees)));
    expect(column("coiling.csv", "bend_radius_mm")).toEqual(six(table.bendRadius));
    expect(column("cam.csv", "outer_radius_mm")).toEqual(six(cam.outer.radius));
    expect(column("cam.csv", "inner_lift_slope_mm_per_rad")).toEqual(six(cam.inner.slope));
    expect(column("ends.csv", "gap_outer_mm")).toEqual(
      six(gap.setups.map(({ gapOuter }: { gapOuter: number }) => gapOuter)),
    );
  });

  test("and draws the ring as ordered, whether its coating bends with it or not", async () => {
    const folder = ownFolder();
    const stiffness = ["counted", "neglected"];
    const cases = stiffness.map((coatingStiffness) => {
      const allowances = { coating: { outer: "50 um", ends: "20 um" }, coatingStiffness };
      const making = { allowances, gap: { gapTolerance: 0.05 } };
      writeFileSync(join(folder, `${coatingStiffness}.json`), JSON.stringify(making));
      return [FERRY, "--making", `${coatingStiffness}.json`, "--out", coatingStiffness];
    });
    const plans = await makeJsonEach(folder, ...cases);
    for (const [k, set] of stiffness.entries()) {
      const read = (name: string) => readFileSync(join(folder, set, name), "utf8");
      const sheet = read("job.md");
      expect(sheet).toMatch(/^# Job sheet: ring Ø118 × 4.4 × 2 mm\n/);
      expect(numbersOf(sheet, "bore, closed gap")).toEqual([118, 4.6457, 0.45]);
      expect(numbersOf(sheet, "Ft, p0")).toEqual([17.7, 0.15]);
      expect(numbersOf(sheet, "metal on the finished faces")).toEqual([-0.05, 0, 0, -0.02, 0.05, 0.02]);
      const words = k === 0 ? "counted as metal" : "its stiffness neglected";
      expect(sheet).toContain(`; coating to put on: outer 0.050 mm, ends 0.020 mm, ${words}\n`);
      expect(read("gauge.svg")).toContain("bore Ø118 mm, gap 0.45 ± 0.05 mm");
      for (const words of [">go: 0.4 mm<", ">no go: 0.5 mm<"]) expect(read("gauge.svg")).toContain(words);
      expect(read("template.svg")).toContain("Ring Ø118 × 4.4 × 2 mm");
      expect(read("outline.dxf")).toMatch(/BORE\r?\n100\r?\nAcDbCircle\r?\n(.*\r?\n){6}40\r?\n59\r?\n/);
      expect(plans[k].spec).toMatchObject({ bore: 118, closedGap: 0.45, section: { radialThickness: 4.4 } });
      expect(plans[k].load.contactPressure).toBeCloseTo(0.15, 12);
      expect(plans[k].load.freeGap).toBeCloseTo(numbersOf(sheet, "free gap, mid wall")[0], 3);
    }
    // The metal alone is closed for cutting in a sleeve of its own.
    expect(readFileSync(join(folder, "neglected/job.md"), "utf8")).toContain(
      "in a sleeve of 117.900 mm bore",
    );
  });

  test("all of it on one page, whatever is asked for", async () => {
    const folder = ownFolder();
    const wires = [
      [FERRY, "58 mm"],
      [MOTORCYCLE, "26 mm"],
      [GAS_ENGINE, "170 mm"],
    ];
    const cases: Case[] = [];
    for (const [k, [spec, before]] of wires.entries()) {
      const making = parse(await helpMaking());
      delete making.gap.heldGap;
      making.heatSet.before = before;
      writeFileSync(join(folder, `${k}.json`), JSON.stringify(making));
      cases.push({ folder, args: [spec, "--making", `${k}.json`, "--out", `${k}`] });
    }
    for (const [k, { status, stdout }] of (await runAll(cases)).entries()) {
      expect(status).toBe(0);
      const sheet = readFileSync(join(folder, `${k}/job.md`), "utf8");
      expect(sheet.trimEnd().split("\n").length).toBeLessThanOrEqual(70);
      for (const title of ["Coil", "Cam turn", "Shape setting", "Gap", "Filing", "Files", "Cautions"])
        expect(stdout).toContain(`\n## ${title}`);
    }
  });

  test("the free radius at the back, however many rows the table has", async () => {
    const folder = ownFolder();
    const { metal } = planMaking(ferry);
    const { theta, curvature } = metal.design.free;
    const atBack = rounded(1 / curvature[theta.indexOf(0)], 3);
    const cases = [2, 4, 181].map((rows) => {
      writeFileSync(join(folder, `${rows}.json`), JSON.stringify({ coiling: { rows } }));
      return { folder, args: [FERRY, "--making", `${rows}.json`, "--out", `${rows}`] };
    });
    const told = (await runAll(cases)).map(({ stdout }) => numbersOf(stdout, "free radius, mid wall")[0]);
    expect(told).toEqual([atBack, atBack, atBack]);
  });

  test("by its help what can be given, with a making file that works", async () => {
    const [program, help] = (
      await Promise.all([camround(base, "--help"), camround(base, "make", "--help")])
    ).map(({ stdout }) => stdout);
    expect(program).toMatch(/^ {2}make /m);
    for (const flag of [
      ...[
        "out",
        "making",
        "force",
        "json",
        "tolerance",
        "yield",
        "batch",
        "filing-stock",
        "held-gap",
        "nose",
      ],
      ...["page", "bore", "gap", "wall", "height", "material", "modulus", "pressure", "free-gap"],
      ...["more-at-gap", "less-at-gap", "theory", "stations"],
    ]) {
      expect(help).toMatch(new RegExp(`^ {2}--${flag}[ \\n]`, "m"));
    }
    const folder = ownFolder();
    const text = await helpMaking();
    const { making } = await makeJson(folder, FERRY, "--making", makingFile(folder, text), "--out", "set");
    // All of it is read: units become numbers, the rest stays.
    expect(making).toMatchObject({
      allowances: { coating: { outer: 0.02 }, lapping: { outer: 0.005, sides: 0.01 } },
      coiling: { yieldStress: 1400, density: 7850, batch: 16, kerf: 0.3, grinding: 0.2 },
      cam: { centre: "minimumZone", step: Math.PI / 180, spindleSpeed: 60, noseRadius: 0.8 },
      gap: { filingStock: 0.05, heldGap: 5, gapTolerance: 0.05 },
      heatSet: { remaining: 0.1, before: 58 },
      page: "A4",
      tolerance: 0.001,
    });
  });
});

describe.concurrent("camround make takes", () => {
  test("a spec and a making file with comments, trailing commas and a mark of the byte order", async () => {
    const folder = ownFolder();
    const making = makingFile(folder, '\ufeff{\n  // as the shop has it\n  "page": "Letter", /* US */\n}\n');
    const plan = await makeJson(folder, MOTORCYCLE, "--making", making, "--out", "set");
    expect(plan.making.page).toBe("Letter");
    expect(plan.spec.bore).toBe(54);
    expect(readFileSync(join(folder, "set/template.svg"), "utf8")).toMatch(
      /width="(215.9|279.4)mm" height="(279.4|215.9)mm"/,
    );
  });

  test("flags in place of a spec file, and over one", async () => {
    const folder = ownFolder();
    const flags = {
      "--bore": "118 mm",
      "--gap": "0.45",
      "--wall": "4.4 mm",
      "--height": "2",
      "--modulus": "205 GPa",
      "--pressure": "0.15 MPa",
      "--theory": "curved",
      "--stations": "180",
    };
    const changes = ["--free-gap", "1/2 in", "--material", "EN-GJS-700-2", "--more-at-gap", "0.5"];
    const [byFile, byFlags, other] = await makeJsonEach(
      folder,
      [FERRY, "--out", "file"],
      [...Object.entries(flags).flat(), "--out", "flags"],
      [FERRY, ...changes, "--out", "other"],
    );
    expect(byFlags).toEqual(byFile);
    expect(other.spec.load).toEqual({ freeGap: 12.7 });
    expect(other.spec.material.youngsModulus).toBe(176000);
    expect(other.spec.pressure).toEqual({ shape: "moreAtGap", strength: 0.5 });
    expect(other.metal.freeGap).toBeCloseTo(12.7, 9);
  });

  test("flags over the making file, and what no flag names from the file", async () => {
    const folder = ownFolder();
    const making = makingFile(folder, {
      tolerance: 0.01,
      page: "A4",
      coiling: { yieldStress: 1000, batch: 2, kerf: 0.25 },
      gap: { filingStock: 0.01, heldGap: 4, gapTolerance: 0.03 },
      cam: { noseRadius: 0.2, step: "2 deg" },
    });
    const { making: read } = await makeJson(
      folder,
      ...[FERRY, "--making", making, "--out", "set"],
      ...["--tolerance", "2 um", "--yield", "1.4 GPa", "--batch", "12", "--filing-stock", "0.02"],
      ...["--held-gap", "1/4 in", "--nose", "0.8", "--page", "A3"],
    );
    expect(read).toMatchObject({
      tolerance: 0.002,
      page: "A3",
      coiling: { yieldStress: 1400, batch: 12, kerf: 0.25 },
      gap: { filingStock: 0.02, heldGap: 6.35, gapTolerance: 0.03 },
      cam: { noseRadius: 0.8, step: Math.PI / 90 },
    });
  });

  test("quantities in all units, in the file and by flag", async () => {
    const folder = ownFolder();
    const making = makingFile(folder, {
      coiling: { density: "7.2 g/cm3", kerf: "12 thou", grinding: "0.02 cm" },
      cam: { step: "5 deg", centre: ["100 um", "0.01 in"] },
      allowances: { coating: { outer: "15 µm" } },
    });
    const files = [FERRY, "--making", making];
    const [one, two] = (
      await makeJsonEach(
        folder,
        [...files, "--out", "1", "--tolerance", "1 um", "--yield", "1400 MPa", "--filing-stock", "2 thou"],
        [...files, "--out", "2", "--tolerance", "0.0001 in", "--yield", "200 ksi", "--nose", "1/32 in"],
      )
    ).map((plan) => plan.making);
    expect(one.tolerance).toBeCloseTo(0.001, 12);
    expect(one.coiling.yieldStress).toBe(1400);
    expect(one.gap.filingStock).toBeCloseTo(0.0508, 12);
    expect(one.coiling.density).toBeCloseTo(7200, 9);
    expect(one.coiling.kerf).toBeCloseTo(0.3048, 12);
    expect(one.coiling.grinding).toBeCloseTo(0.2, 12);
    expect(one.cam.step).toBeCloseTo(Math.PI / 36, 12);
    expect(one.cam.centre[0]).toBeCloseTo(0.1, 12);
    expect(one.cam.centre[1]).toBeCloseTo(0.254, 12);
    expect(one.allowances.coating.outer).toBeCloseTo(0.015, 12);
    expect(two.tolerance).toBeCloseTo(0.00254, 12);
    // 1 ksi = 1000 lbf/in² = 6.894757 MPa.
    expect(two.coiling.yieldStress).toBeCloseTo(200 * 6.894757, 3);
    expect(two.cam.noseRadius).toBeCloseTo(0.79375, 12);
  });

  test("a folder that is there, by a link too, and leaves what else is in it alone", async () => {
    const folder = ownFolder();
    mkdirSync(join(folder, "set"), { mode: 0o700 });
    mkdirSync(join(folder, "set/old"));
    writeFileSync(join(folder, "set/notes.txt"), "keep");
    writeFileSync(join(folder, "set/old/cam.csv"), "keep");
    symlinkSync("set", join(folder, "link"));
    const before = snapshot(folder);
    expect((await camround(folder, "make", FERRY, "--out", "link")).status).toBe(0);
    const after = snapshot(folder);
    expect(Object.keys(after).sort()).toEqual(
      [...Object.keys(before), ...SET.map((name) => join("set", name))].sort(),
    );
    expect(after).toMatchObject(before);

    writeFileSync(join(folder, "set/job.md"), "old");
    writeFileSync(join(folder, "set/cam.csv"), "old");
    const { status } = await camround(folder, "make", MOTORCYCLE, "--out", "set", "--force");
    expect(status).toBe(0);
    expect(snapshot(folder)).toMatchObject(before);
    expect(Object.keys(snapshot(folder))).toEqual(Object.keys(after));
    expect(readFileSync(join(folder, "set/job.md"), "utf8")).toContain("Ø54");
    expect(readFileSync(join(folder, "set/cam.csv"), "utf8")).toContain("angle_from_back_deg");
  });

  test("permissions of new folders and files from the umask", async () => {
    const folder = ownFolder();
    for (const [umask, folders, files] of [
      [0o022, 0o755, 0o644],
      [0o027, 0o750, 0o640],
    ]) {
      const out = `new-${umask}/set`;
      await camroundAfter(`process.umask(${umask})`, folder, "make", FERRY, "--out", out);
      const mode = (...path: string[]) => statSync(join(folder, ...path)).mode & 0o777;
      expect(mode(`new-${umask}`)).toBe(folders);
      expect(mode(out)).toBe(folders);
      for (const name of SET) expect(mode(out, name)).toBe(files);
    }
  });
});

/** Bad input: status 2, one line that carries the words, nothing on stdout, nothing written or changed. */
function expectRefused(
  { status, stdout, stderr }: Result,
  words: readonly string[],
  folder: string,
  before: Record<string, string>,
) {
  expect(stderr).toMatch(/^camround: [^\n]+\n$/);
  for (const word of words) expect(stderr).toContain(word);
  // A name that the user never gave helps nobody.
  expect(stderr).not.toContain(".camround-");
  expect(stdout).toBe("");
  expect(snapshot(folder)).toEqual(before);
  expect(status).toBe(2);
}

/** A test a case; `prepare` fills its folder and gives the arguments. */
function refuses<Case extends readonly [what: string, input: unknown, ...words: string[]]>(
  cases: readonly Case[],
  prepare: (folder: string, input: Case[1]) => string[],
) {
  let outcomes: { folder: string; before: Record<string, string>; result: Result }[];
  beforeAll(async () => {
    const prepared = cases.map(([, input]) => {
      const folder = ownFolder();
      const args = prepare(folder, input);
      return { folder, args, before: snapshot(folder) };
    });
    const results = await runAll(prepared.map(({ folder, args }) => ({ folder, args })));
    outcomes = prepared.map(({ folder, before }, k) => ({ folder, before, result: results[k] }));
  });
  test.each(cases.map(([what, , ...words], k) => [what, words, k] as const))("%s", (_, words, k) => {
    const { folder, before, result } = outcomes[k];
    expectRefused(result, words, folder, before);
  });
}

describe("camround make refuses in the making file", () => {
  const coated = (coating: object, lapping: object) => ({ allowances: { coating, lapping } });
  const cases: [what: string, making: unknown, ...words: string[]][] = [
    ["no tolerance", { tolerance: 0 }, "tolerance = 0", "from 0.00001 to"],
    ["a negative tolerance", { tolerance: -0.001 }, "tolerance = -0.001", "from 0.00001 to"],
    ["NaN as text", { tolerance: "NaN" }, 'tolerance = "NaN"', "a number in mm or a string with a unit"],
    ["a tolerance below what files tell", { tolerance: "1e-9 mm" }, '"1e-9 mm"', "from 0.00001 to"],
    ["a tolerance of inches", { tolerance: "2 in" }, '"2 in"', "to 10 mm"],
    ["a tolerance coarse for the bore", { tolerance: 1.5 }, "tolerance = 1.5", "to 1.18 mm", "bore"],
    ["a number too large for one", '{ "tolerance": 1e999 }', "tolerance = Infinity", "from 0.00001"],
    ["null for a number", { tolerance: null }, "tolerance = null", "a number in mm"],
    ["a nose larger than the hollow", { cam: { noseRadius: 60 } }, "noseRadius = 60", "below 54.599 mm"],
    ["a negative nose", { cam: { noseRadius: -1 } }, "cam.noseRadius = -1", "from 0 to"],
    ["rows a radian apart", { cam: { step: 1 } }, "cam.step = 1", "from 0.0001 to 0.2 rad"],
    ["rows 30 degrees apart", { cam: { step: "30 deg" } }, 'cam.step = "30 deg"', "0.2 rad"],
    ["a centre outside", { cam: { centre: [80, 0] } }, "centre = [80,0]", "inside"],
    ["a centre without y", { cam: { centre: [1] } }, "cam.centre", "must be"],
    ["a centre in three dimensions", { cam: { centre: [0, 0, 0] } }, "cam.centre", "x and y"],
    ["a centre of no name", { cam: { centre: "axis" } }, 'cam.centre = "axis"', '"minimumZone"'],
    ["more stock than the gap has", { gap: { filingStock: 0.3 } }, "filingStock = 0.3", "at most 0.225"],
    ["a held gap wider than free", { gap: { heldGap: 20 } }, "heldGap = 20", "0.45", "11.114"],
    ["a held gap below the closed one", { gap: { heldGap: 0.1 } }, "heldGap = 0.1", "0.45", "11.114"],
    ["a gauge for no gap", { gap: { gapTolerance: 0.45 } }, "gapTolerance = 0.45", "below the closed gap"],
    ["an empty batch", { coiling: { batch: 0 } }, "coiling.batch = 0", "from 1 to"],
    ["one ring and a half", { coiling: { batch: 1.5 } }, "coiling.batch = 1.5", "whole number"],
    ["a batch as text", { coiling: { batch: "16" } }, 'coiling.batch = "16"', "number from 1"],
    ["a density without unit", { coiling: { density: "7.85" } }, 'density = "7.85"', "kg/m³", "g/cm3"],
    ["a density in quotes", { coiling: { density: "7850" } }, 'density = "7850"', "kg/m³", "g/cm3"],
    [
      "a density lighter than air",
      { coiling: { density: 7.85 } },
      "density = 7.85",
      "from 500 to 25000 kg/m³",
    ],
    ["tons", { coiling: { density: "7.85 t/m3" } }, '"t/m3" is not a density unit', "g/cm3"],
    ["a soft unit", { coiling: { yieldStress: "1400 Mpa" } }, '"Mpa" is not a pressure unit', "MPa"],
    ["one row", { coiling: { rows: 1 } }, "coiling.rows = 1", "from 2 to"],
    ["an unknown field", { coiling: { yield: 1400 } }, "coiling.yield", 'nearest is "yieldStress"'],
    ["a misspelt part", { coilng: {} }, "coilng", 'nearest is "coiling"', "heatSet"],
    ["a misspelt face", coated({ otuer: 1 }, {}), "allowances.coating.otuer = 1", 'nearest is "outer"'],
    ["a number for a part", { coiling: 5 }, "coiling = 5", "must be an object"],
    ["null for a part", { gap: null }, "gap = null", "must be an object"],
    ["a list for a part", { coiling: [] }, "coiling = []", "must be an object"],
    ["micrometres as mm", coated({ outer: 20 }, {}), "coating.outer = 20", "from 0 to 5 mm"],
    [
      "a coating lapped through",
      coated({ outer: "20 um" }, { outer: "30 um" }),
      "lapping.outer = 0.03",
      "less than the coating there, 0.02 mm",
    ],
    [
      "a coating lapped off",
      coated({ outer: "20 um" }, { outer: "20 um" }),
      "lapping.outer = 0.02",
      "less than the coating there, 0.02 mm",
    ],
    ["a coating thicker than the ring", coated({ outer: 5 }, {}), "coating", "must leave metal"],
    ["more to lap than the gap has", coated({}, { ends: 0.3 }), "lapping.ends = 0.3", "0.225 mm"],
    [
      "no coating stiffness known",
      { allowances: { coatingStiffness: 1 } },
      "coatingStiffness = 1",
      '"counted"',
    ],
    ["a soak of no wire", { heatSet: { remaining: 0.1 } }, "heatSet.before", "must be given"],
    ["a soak of no effect", { heatSet: { before: 58 } }, "heatSet.remaining", "must be given"],
    [
      "a soak that leaves all",
      { heatSet: { remaining: 1, before: "straight" } },
      "heatSet.remaining = 1",
      "from 0 to 0.95",
    ],
    [
      "a soak whose ends overlap",
      { heatSet: { remaining: 0.5, before: "straight" } },
      "remaining = 0.5",
      "would pass each other",
    ],
    [
      "the word straight misspelt",
      { heatSet: { remaining: 0.1, before: "straigth" } },
      'heatSet.before = "straigth"',
      '"straight"',
    ],
    ["a sheet of no such size", { page: "A5" }, 'page = "A5"', '"A4", "A3", "Letter"'],
    ["a list of everything", [], "--making", "making.json", "one object"],
    ["nothing at all", "", "--making", "making.json", "not JSON", "line 1"],
    ["what is not JSON", "{\n  page: ", "--making", "making.json", "not JSON", "line 2"],
    ["NaN", '{ "tolerance": NaN }', "--making", "making.json", "not JSON", "line 1, column 16"],
    ["Infinity", '{ "tolerance": Infinity }', "--making", "making.json", "not JSON", "line 1, column 16"],
  ];
  const args = [FERRY, "--out", "set", "--making", "making.json"];
  refuses(cases, (folder, making) => {
    makingFile(folder, making);
    return args;
  });

  describe("a part of the wrong kind, under a flag that would set one of its fields:", () => {
    refuses(
      [5, "fine", [], null].map((part) => {
        const text = JSON.stringify(part);
        return [text, part, `coiling = ${text}`, "must be an object"];
      }),
      (folder, coiling) => {
        makingFile(folder, { coiling });
        return [...args, "--batch", "3"];
      },
    );
  });
});

describe("camround make refuses on its command line", () => {
  const cases: [what: string, args: string[], ...words: string[]][] = [
    [
      "a making file that is not there",
      [FERRY, "--making", "no.json"],
      "--making",
      "no.json",
      "no such file",
    ],
    ["a folder for a making file", [FERRY, "--making", "."], '--making = "."'],
    ["a spec for a making file", [FERRY, "--making", FERRY], '"118 mm"', "not a known field"],
    ["no spec", [], "SPEC.json", "--bore"],
    ["a spec that is not there", ["no.json"], "no.json", "no such file"],
    ["two specs", [FERRY, MOTORCYCLE], "argument"],
    ["part of a spec", ["--bore", "118"], "closedGap", "must be given"],
    ["NaN for the bore", [FERRY, "--bore", "NaN"], 'bore = "NaN"', "mm"],
    ["an endless bore", [FERRY, "--bore", "Infinity"], "bore = Infinity", "from 1 to"],
    ["two loads", [FERRY, "--pressure", "0.1", "--free-gap", "10"], "--pressure and --free-gap contradict"],
    ["two pressures", [FERRY, "--more-at-gap", "1", "--less-at-gap", "1"], "--more-at-gap and --less-at-gap"],
    ["a flag misspelt", [FERRY, "--toleranse", "1 um"], "--toleranse", "--tolerance"],
    ["a flag without its value", [FERRY, "--page"], "--page", "missing"],
    ["no tolerance", [FERRY, "--tolerance", "0"], "tolerance = 0", "from 0.00001"],
    ["a tolerance in words", [FERRY, "--tolerance", "fine"], 'tolerance = "fine"', "18 thou"],
    ["a yield stress of nothing", [FERRY, "--yield", "0 MPa"], 'yieldStress = "0 MPa"', "above 0 MPa"],
    ["a batch in words", [FERRY, "--batch", "ten"], 'batch = "ten"', "number from 1"],
    ["all of the gap for filing", [FERRY, "--filing-stock", "10 thou"], "filingStock = 0.254", "0.225 mm"],
    ["a ring held wide open", [FERRY, "--held-gap", "20 mm"], "heldGap = 20", "11.114"],
    ["a blunt nose", [FERRY, "--nose", "100"], "noseRadius = 100", "54.599 mm"],
    ["an empty sheet", [FERRY, "--page", ""], 'page = ""', '"A4", "A3", "Letter"'],
    ["more sheets than anyone glues", ["large.json"], 'page = "A4"', "2365 sheets"],
  ];
  refuses(cases, (folder, args) => {
    const large = { bore: "10 m", closedGap: 20, section: { radialThickness: 300, axialHeight: 100 } };
    const load = { contactPressure: 0.01 };
    writeFileSync(join(folder, "large.json"), JSON.stringify({ ...ferry, ...large, load }));
    return ["--out", "set", ...args];
  });

  test("with the process's own exit status", async () => {
    const folder = ownFolder();
    const result = await camround(folder, "make", FERRY, "--out", "set", "--batch", "0");
    expectRefused(result, ["coiling.batch = 0", "from 1 to"], folder, {});
  });
});

describe("camround make refuses a spec with", () => {
  const cases: [what: string, spec: object | string, ...words: string[]][] = [
    ["a wrong bore", { ...ferry, bore: -1 }, "bore = -1", "from 1 to 10000 mm"],
    ["a field misspelt", { ...ferry, boer: 5 }, "boer", '"bore"'],
    ["two loads", { ...ferry, load: { contactPressure: 0.1, freeGap: 10 } }, "load", "exactly one"],
    ["a field of the making file", { ...ferry, coiling: {} }, "coiling", "not a known field"],
    ["NaN", '{ "bore": NaN }', "spec.json", "not JSON", "line 1, column 11"],
    ["Infinity", '{ "bore": -Infinity }', "spec.json", "not JSON", "line 1"],
    ["a number too large for one", '{ "bore": 1e999 }', "bore = Infinity", "from 1 to"],
    ["a list", [], "spec.json", "one object"],
  ];
  refuses(cases, (folder, spec) => {
    writeFileSync(join(folder, "spec.json"), typeof spec === "string" ? spec : JSON.stringify(spec));
    return ["spec.json", "--out", "set"];
  });
});

describe("camround make refuses to write", () => {
  const cases: [what: string, args: string[], ...words: string[]][] = [
    ["without a folder", [], "--out"],
    ["to a folder of no name", ["--out", ""], "--out"],
    ["to what is missing", ["--out"], "--out", "missing"],
    ["to a file", ["--out", "file"], '--out = "file"', "must be a folder"],
    ["to a file with --force", ["--out", "file", "--force"], '--out = "file"', "must be a folder"],
    ["below a file", ["--out", "file/set"], '--out = "file/set"'],
    ["far below a file", ["--out", "file/deeper/set"], '--out = "file/deeper/set"'],
    ["to a name too long for a folder", ["--out", "x".repeat(300)], '--out = "xxx'],
    ["through a link to nowhere", ["--out", "nowhere"], '--out = "nowhere"'],
    ["over one file of the set", ["--out", "one"], '--out = "one"', "cam.csv", "--force"],
    ["over a whole set", ["--out", "whole"], '--out = "whole"', "job.md", "--force"],
    ["over a folder of a file's name", ["--out", "taken"], '--out = "taken"'],
    ["over such a folder with --force", ["--out", "taken", "--force"], '--out = "taken"', "outline.svg"],
    ["over a write-protected file", ["--out", "kept", "--force"], '--out = "kept"', "ends.csv", "protected"],
  ];
  refuses(cases, (folder, args) => {
    writeFileSync(join(folder, "file"), "keep");
    symlinkSync("not-there", join(folder, "nowhere"));
    for (const name of ["one", "whole", "taken", "kept"]) mkdirSync(join(folder, name));
    writeFileSync(join(folder, "one/cam.csv"), "keep");
    for (const name of SET) writeFileSync(join(folder, "whole", name), "keep");
    mkdirSync(join(folder, "taken/outline.svg"));
    writeFileSync(join(folder, "taken/job.md"), "keep");
    writeFileSync(join(folder, "kept/job.md"), "keep");
    writeFileSync(join(folder, "kept/ends.csv"), "keep", { mode: 0o444 });
    return [FERRY, ...args];
  });

  test("where it has no permission", async (context) => {
    if (!(await hasUnprivileged())) context.skip("no other user can run the program here");
    const folder = ownFolder();
    mkdirSync(join(folder, "locked"));
    writeFileSync(join(folder, "locked/notes.txt"), "keep");
    chmodSync(join(folder, "locked"), 0o555);
    context.onTestFinished(() => chmodSync(join(folder, "locked"), 0o755));
    const before = snapshot(folder);
    for (const out of ["locked", "locked/new", "locked/new/deeper"]) {
      const result = await camroundUnprivileged(folder, "make", FERRY, "--out", out, "--force");
      expectRefused(result, [`--out = "${out}"`, "cannot be written to"], folder, before);
    }
  });

  test("where it cannot even look", async (context) => {
    if (!(await hasUnprivileged())) context.skip("no other user can run the program here");
    const folder = ownFolder();
    mkdirSync(join(folder, "hidden"));
    chmodSync(join(folder, "hidden"), 0o444);
    const before = snapshot(folder);
    for (const out of ["hidden", "hidden/new"]) {
      const result = await camroundUnprivileged(folder, "make", FERRY, "--out", out);
      expectRefused(result, [`--out = "${out}"`, "cannot be written to"], folder, before);
    }
  });

  test("half a set, where a file of it belongs to somebody else in a shared folder", async (context) => {
    if (!IS_ROOT || !(await hasUnprivileged())) context.skip("needs two users");
    const folder = ownFolder();
    mkdirSync(join(folder, "shared"));
    chmodSync(join(folder, "shared"), 0o1777);
    // All may write into it, but in such a folder only its owner may replace it.
    writeFileSync(join(folder, "shared/cam.csv"), "keep");
    chmodSync(join(folder, "shared/cam.csv"), 0o666);
    const before = snapshot(folder);
    const result = await camroundUnprivileged(folder, "make", FERRY, "--out", "shared", "--force");
    expectRefused(result, ['--out = "shared"', "cannot be written to"], folder, before);
  });

  test("half a set, where the disk is full", async () => {
    const folder = ownFolder();
    mkdirSync(join(folder, "old"));
    for (const name of SET) writeFileSync(join(folder, "old", name), "keep");
    for (const args of [
      ["--out", "old", "--force"],
      ["--out", "new"],
      ["--out", "further/new"],
    ]) {
      const before = snapshot(folder);
      // A limit on the size of files stands for the disk: the outline's points go past it.
      const { status, stdout, stderr } = spawnSync(
        "bash",
        ["-c", 'ulimit -f 16; exec "$@"', "bash", process.execPath, CLI, "make", FERRY, ...args],
        { cwd: folder, encoding: "utf8" },
      );
      expect(stderr).toMatch(/^camround: [^\n]+\n$/);
      expect(stderr).toContain(args[1]);
      expect(stdout).toBe("");
      expect(status).toBeGreaterThan(0);
      expect(snapshot(folder)).toEqual(before);
    }
  });
});

test("camround make takes not much longer than the start of the runtime", () => {
  const folder = ownFolder();
  const time = (...args: string[]) => {
    const start = performance.now();
    const { status } = spawnSync(process.execPath, args, { cwd: folder, encoding: "utf8" });
    expect(status).toBe(0);
    return performance.now() - start;
  };
  const [bare, whole] = [[], []] as number[][];
  // Turn about, so that a busy spell of the machine falls on both; the least is the least disturbed.
  for (let k = 0; k < 4; k++) {
    bare.push(time("-e", "0"));
    whole.push(time(CLI, "make", FERRY, "--out", `${k}`));
  }
  const [least, most] = [Math.min(...bare), Math.min(...whole)];
  console.log(
    `bare runtime ${least.toFixed(0)} ms, camround make ${most.toFixed(0)} ms, ×${(most / least).toFixed(1)}`,
  );
  // Measured 4 to 8, on a quiet and on a busy machine.
  expect(most / least).toBeLessThan(25);
  expect(readdirSync(join(folder, "3"))).toHaveLength(SET.length);
});
