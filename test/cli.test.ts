import { spawnSync } from "node:child_process";
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";

const root = fileURLToPath(new URL("..", import.meta.url));
const CLI = join(root, "dist/cli.js");
const FERRY = join(root, "examples/ferry-118.json");
let folder: string;

beforeAll(() => {
  if (!existsSync(CLI)) throw new Error("build first: npm run build");
});
beforeEach(() => {
  if (folder) rmSync(folder, { recursive: true, force: true });
  folder = mkdtempSync(join(tmpdir(), "camround-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function camround(...args: string[]) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [CLI, ...args], {
    cwd: folder,
    encoding: "utf8",
  });
  return { status, stdout, stderr };
}

function specFile(text: string): string {
  const path = join(folder, "spec.json");
  writeFileSync(path, text);
  return path;
}

/** Bad input: status 2, one line that carries the words, nothing on stdout, no file left behind. */
function expectRefusal(args: string[], ...words: string[]) {
  const before = readdirSync(folder);
  const { status, stdout, stderr } = camround(...args, "--svg", "out.svg");
  expect(stderr).toMatch(/^camround: [^\n]+\n$/);
  for (const word of words) expect(stderr).toContain(word);
  expect(stdout).toBe("");
  expect(status).toBe(2);
  expect(readdirSync(folder)).toEqual(before);
}

describe("camround design", () => {
  test("reports the ferry ring with mm and inch, proof and cautions", () => {
    const { status, stdout, stderr } = camround("design", FERRY);
    expect(stderr).toBe("");
    expect(status).toBe(0);
    for (const part of [
      "11.114 mm",
      "0.4376 in",
      "17.70 N",
      "Proof of closure",
      "Cautions",
      "design guidance",
      "butt when hot",
    ]) {
      expect(stdout).toContain(part);
    }
  });

  test("prints the whole design as JSON, with its proof", () => {
    const { status, stdout } = camround("design", FERRY, "--json");
    expect(status).toBe(0);
    const design = JSON.parse(stdout);
    expect(Object.keys(design)).toEqual(
      expect.arrayContaining([
        "spec",
        "stiffnessParameter",
        "load",
        "installed",
        "free",
        "outline",
        "ends",
        "stress",
        "proof",
      ]),
    );
    expect(design.spec.bore).toBe(118);
    expect(design.free.x).toHaveLength(361);
    expect(Math.abs(design.proof.closedGap - 0.45)).toBeLessThan(1e-9);
  });

  test("writes a drawing where asked, replacing an old one", () => {
    writeFileSync(join(folder, "ring.svg"), "old");
    expect(camround("design", FERRY, "--svg", "ring.svg", "--title", "A < B").status).toBe(0);
    const svg = readFileSync(join(folder, "ring.svg"), "utf8");
    expect(svg).toContain("A &lt; B");
    expect(readdirSync(folder)).toEqual(["ring.svg"]);
  });

  test("needs no file when flags give the ring", () => {
    const flags = [
      "--bore",
      "118 mm",
      "--gap",
      "0.45",
      "--wall",
      "4.4",
      "--height",
      "2",
      "--modulus",
      "205 GPa",
      "--pressure",
      "0.15",
    ];
    const byFlags = JSON.parse(camround("design", ...flags, "--json").stdout);
    const byFile = JSON.parse(camround("design", FERRY, "--json").stdout);
    expect(byFlags).toEqual(byFile);
  });

  test("lets a flag replace the file's field, and its load as a whole", () => {
    const design = JSON.parse(
      camround("design", FERRY, "--free-gap", "1/2 in", "--material", "EN-GJS-700-2", "--json").stdout,
    );
    expect(design.spec.load).toEqual({ freeGap: 12.7 });
    expect(design.spec.material.youngsModulus).toBe(176000);
    expect(design.free.gap).toBeCloseTo(12.7, 10);
  });

  test("gives the ends of the ring held part-closed", () => {
    const { held } = JSON.parse(camround("design", FERRY, "--held-gap", "5 mm", "--json").stdout);
    expect(held.gap).toBe(5);
    expect(held.faceToAxis).toBeGreaterThan(0.02);
    expect(held.pull).toBeGreaterThan(5);
    expectRefusal(["design", FERRY, "--held-gap", "20 mm"], "gap = 20", "0.45");
    expectRefusal(["design", FERRY, "--held-gap", "5 parsec"], "--held-gap", "parsec");
  });

  test("prints an example spec that it can read, comments and all", () => {
    const { stdout } = camround("example");
    expect(stdout).toContain("//");
    const ring = JSON.parse(camround("design", specFile(stdout), "--json").stdout);
    expect(ring.free).toEqual(JSON.parse(camround("design", FERRY, "--json").stdout).free);
  });

  test("stops quietly when the reader closes the pipe", () => {
    const { status, stderr } = spawnSync(
      "bash",
      [
        "-c",
        `"${process.execPath}" "${CLI}" design "${FERRY}" --json --stations 20000 | head -c 10 >"${folder}/head"; exit \${PIPESTATUS[0]}`,
      ],
      { encoding: "utf8" },
    );
    expect(stderr).toBe("");
    expect(status).toBe(0);
  });

  test("teaches by its help", () => {
    expect(camround("--help").stdout).toContain("camround example > ring.json");
    const help = camround("design", "--help").stdout;
    for (const flag of ["--bore", "--free-gap", "--held-gap", "--svg", "--json", "18 thou"])
      expect(help).toContain(flag);
    expect(camround("--version").stdout.trim()).toMatch(/^\d+\.\d+\.\d+$/);
  });
});

describe("camround design with other pressures and walls", () => {
  const ferry = JSON.parse(readFileSync(FERRY, "utf8"));
  const withChange = (change: object) => specFile(JSON.stringify({ ...ferry, ...change }));

  test("takes more or less pressure at the gap by flag, in place of the file's", () => {
    const more = JSON.parse(camround("design", FERRY, "--more-at-gap", "0.5", "--json").stdout);
    expect(more.spec.pressure).toEqual({ shape: "moreAtGap", strength: 0.5 });
    expect(more.pressure.relative.atGap).toBeGreaterThan(1.49);
    const less = JSON.parse(camround("design", FERRY, "--less-at-gap", "0.5", "--json").stdout);
    expect(less.pressure.relative.atGap).toBeLessThan(0.51);
    expect(less.pressure.tape.ovality).toBeLessThan(0);
    expectRefusal(["design", FERRY, "--less-at-gap", "1.5"], "pressure.strength = 1.5", "from 0 to 1");
    expectRefusal(["design", FERRY, "--more-at-gap", "3"], "pressure.strength = 3", "at most 2.0");
    expectRefusal(["design", FERRY, "--more-at-gap", "1", "--less-at-gap", "1"], "contradict");
  });

  test("refuses a negative pressure, and shows it with a warning when asked", () => {
    const file = withChange({ pressure: { shape: "harmonics", cosine: [0.9, 0.9] } });
    expectRefusal(["design", file], "negative", "from the back");
    const { status, stdout } = camround("design", file, "--allow-negative");
    expect(status).toBe(0);
    expect(stdout).toContain("! the pressure is negative");
  });

  test("reports each end of a ring whose halves differ", () => {
    const file = withChange({ pressure: { shape: "harmonics", cosine: [], sine: [0.3] } });
    const { stdout } = camround("design", file, "--held-gap", "5");
    for (const part of ["right face to axis", "left face to axis", "balance f", "5.000 mm, right"]) {
      expect(stdout).toContain(part);
    }
    expect(camround("design", FERRY).stdout).not.toContain("left face");
  });

  test("reports slots and what they do, with their caution", () => {
    const slots = { count: 40, depth: 1, width: 0.6 };
    const { stdout } = camround("design", withChange({ section: { ...ferry.section, slots } }));
    expect(stdout).toMatch(/inner slots +40 × +1 mm deep, 0.6 mm wide/);
    expect(stdout).toContain("notch effect");
  });
});

describe("Flags of a spec", () => {
  const printed = () => specFile(camround("design", FERRY, "--json").stdout);

  test("are refused beside a design as printed, which holds its own", () => {
    const file = printed();
    for (const command of ["gauge", "pressure", "close"]) {
      const one = camround(command, file, "--wall", "3", "--json");
      expect(one.stderr).toBe("camround: --wall contradicts a design as printed, which holds its own spec\n");
      expect([one.status, one.stdout]).toEqual([2, ""]);
      const { status, stderr } = camround(command, file, "--gap", "2", "--modulus", "100 GPa");
      expect(stderr).toMatch(/^camround: --gap and --modulus contradict a design as printed/);
      expect(status).toBe(2);
      expect(camround(command, file).status).toBe(0);
    }
  });

  test("change a spec, for the gauges as for a design", () => {
    const [own, thin] = [[], ["--wall", "3"]].map((flags) =>
      JSON.parse(camround("gauge", FERRY, ...flags, "--json").stdout),
    );
    expect(thin.spec.section.radialThickness).toBe(3);
    expect(thin.tape.freeGap).toBeGreaterThan(own.tape.freeGap);
  });

  test("where they are missing, the message names what the command takes", () => {
    for (const [args, words, not] of [
      [["close", "--bore", "118"], "RING.json", "such as --bore"],
      [["gauge"], "RING.json", "SPEC.json"],
      [["pressure"], "RING.json", "SPEC.json"],
    ] as const) {
      const { status, stderr } = camround(...args);
      expect(stderr).toMatch(/^camround: [^\n]+\n$/);
      expect(stderr).toContain(words);
      expect(stderr).not.toContain(not);
      expect(status).toBe(2);
    }
  });
});

describe("Two outputs", () => {
  test.each([
    ["a", "a"],
    ["a", "./a"],
    ["a", "link"],
    ["link", "other-link"],
    ["new", "./new"],
    ["sub/new", "folder-link/new"],
  ])("to %s and %s, one file, are refused before anything is written", (svg, sheet) => {
    mkdirSync(join(folder, "sub"));
    symlinkSync("sub", join(folder, "folder-link"));
    writeFileSync(join(folder, "a"), "old");
    symlinkSync("a", join(folder, "link"));
    symlinkSync("a", join(folder, "other-link"));
    const before = readdirSync(folder);
    const { status, stdout, stderr } = camround("design", FERRY, "--svg", svg, "--sheet", sheet);
    expect(stderr).toMatch(/^camround: --svg and --sheet contradict each other: [^\n]+\n$/);
    expect([status, stdout]).toEqual([2, ""]);
    expect(readFileSync(join(folder, "a"), "utf8")).toBe("old");
    expect(readdirSync(folder)).toEqual(before);
  });

  test("may both go to a device", () => {
    expect(camround("design", FERRY, "--svg", "/dev/null", "--sheet", "/dev/null").status).toBe(0);
  });
});

describe("camround pressure", () => {
  test("gives back the pressure of a design, and says that it touches", () => {
    const design = camround("design", FERRY, "--more-at-gap", "0.5", "--json").stdout;
    const file = specFile(design);
    const made = JSON.parse(camround("pressure", file, "--json").stdout);
    const wanted = JSON.parse(design).installed.pressure as number[];
    // Curvature differentiated twice at 180 stations: some 1e-8 of p0 = 0.15.
    for (const [i, p] of wanted.entries()) expect(Math.abs(made.pressure[i] - p)).toBeLessThan(1e-8);
    expect(made.touches).toBe(true);
    expect(camround("pressure", file).stdout).toContain("touches its bore all round");
  });

  test("tells of a round ring that its ends cannot lie so", () => {
    const { status, stdout } = camround("pressure", FERRY, "--free-radius", "58 mm");
    expect(status).toBe(0);
    expect(stdout).toContain("nothing in a bore can give it");
    expect(stdout).toContain("does not touch all round");
  });

  test("refuses what it cannot read", () => {
    const run = (...args: string[]) => camround("pressure", ...args);
    const spoilt = JSON.parse(camround("design", FERRY, "--json").stdout);
    spoilt.free.curvature.pop();
    for (const [args, words] of [
      [[FERRY], "--free-radius"],
      [[FERRY, "--free-radius", "0"], "--free-radius"],
      [[FERRY, "--free-radius", "5 parsec"], "parsec"],
      [[FERRY, "--free-radius", "58", "--bore", "-1"], "bore"],
      [[specFile(JSON.stringify(spoilt))], "free.curvature"],
      [["nowhere.json"], "no such file"],
    ] as const) {
      const { status, stdout, stderr } = run(...args);
      expect(stderr).toMatch(/^camround: [^\n]+\n$/);
      expect(stderr).toContain(words);
      expect(stdout).toBe("");
      expect(status).toBe(2);
    }
  });
});

describe("camround close", () => {
  const boreFile = (bore: object) => {
    const path = join(folder, "bore.json");
    writeFileSync(path, JSON.stringify(bore));
    return path;
  };

  test("closes the ring in its own bore, all tight", () => {
    const made = JSON.parse(camround("close", FERRY, "--bore", boreFile({}), "--json").stdout);
    expect(Object.keys(made)).toEqual(
      expect.arrayContaining([
        "theta",
        "pressure",
        "clearance",
        "contactShare",
        "lightGaps",
        "closedGap",
        "iterations",
      ]),
    );
    expect(made.theta).toHaveLength(361);
    expect(made.contactShare).toBe(1);
    expect(made.lightGaps).toEqual([]);
    expect(made.closedGap).toBeCloseTo(0.45, 6);
  });

  test("reports light gaps in a lobed bore and draws them", () => {
    const bore = boreFile({
      diameter: "118 mm",
      harmonics: [{ order: 4, amplitude: "20 um", phase: "20 deg" }],
      rotation: 0.1,
    });
    const { status, stdout } = camround("close", FERRY, "--bore", bore, "--svg", "out.svg");
    expect(status).toBe(0);
    for (const part of ["light-tight share", "Light gaps", "Forces on points", "Cautions"]) {
      expect(stdout).toContain(part);
    }
    expect(readFileSync(join(folder, "out.svg"), "utf8")).toContain('class="light"');
  });

  test("tells of a ring that lifts by less than shows light", () => {
    // Of four lobes 4.9 µm are followed all round but at the ends; of a little more there is a slit, but none that shows.
    const widest = (amplitude: string) => {
      const bore = boreFile({ harmonics: [{ order: 4, amplitude }] });
      return camround("close", FERRY, "--bore", bore).stdout.match(/widest slit +(\S+) µm *(.*)/) ?? [];
    };
    expect(widest("0 um").slice(1)).toEqual(["0.00", ""]);
    const [, hidden, words] = widest("7 um");
    expect(Number(hidden)).toBeGreaterThan(0);
    expect(Number(hidden)).toBeLessThan(2);
    expect(words).toBe("the ring lifts there by less than the eye sees");
    const [, seen, nothing] = widest("20 um");
    expect(Number(seen)).toBeGreaterThan(2);
    expect(nothing).toBe("");
  });

  test("refuses a wrong bore by its field, and writes nothing", () => {
    expectRefusal(["close", FERRY, "--bore", boreFile({ diameter: -1 })], "bore.diameter = -1");
    expectRefusal(
      ["close", FERRY, "--bore", boreFile({ diameter: 117 })],
      "bore.diameter = 117",
      "overlap by",
    );
    expectRefusal(["close", FERRY, "--bore", boreFile({ lobes: 3 })], "bore.lobes", "harmonics");
    expectRefusal(["close", FERRY, "--bore", "nowhere.json"], "--bore", "no such file");
    expectRefusal(["close", FERRY, "--bore", "117 mm"], "bore.diameter = 117", "overlap by");
    expectRefusal(["close", FERRY, "--bore", boreFile({}), "--sensitivity", "0"], "sensitivity = 0");
  });

  test("takes the ring's own bore, or a diameter for a round one", () => {
    const read = (...args: string[]) => JSON.parse(camround("close", FERRY, "--json", ...args).stdout);
    const own = read();
    expect(own).toEqual(read("--bore", boreFile({})));
    const wider = read("--bore", "118.05 mm");
    expect(wider).toEqual({ ...read("--bore", boreFile({ diameter: 118.05 })) });
    expect(wider.closedGap).toBeGreaterThan(own.closedGap + 0.1);
  });
});

describe("camround gauge", () => {
  test("reads tape, plates and light", () => {
    const read = JSON.parse(camround("gauge", FERRY, "--json").stdout);
    expect(read.tape.force).toBeCloseTo(17.69, 2);
    expect(Math.abs(read.tape.ovality)).toBeLessThan(0.01);
    expect(read.diametral.force / read.tape.force).toBe(read.ratio);
    expect(read.ratio).toBeCloseTo(2.255, 3);
    expect(read.light.passes).toBe(true);
    // Both forces fall from the closed to the free gap, and the plates need 6π/(4 + π) = 2.64 times the tape, but for
    // shares of the order of K = 0.02.
    expect(read.curve).toHaveLength(5);
    for (const { tape, diametral } of read.curve.slice(0, -1)) {
      expect(Math.abs(diametral / tape - 2.64)).toBeLessThan(0.06);
    }
    expect(Math.abs(read.curve[4].tape)).toBeLessThan(1e-6);
    const { stdout } = camround("gauge", FERRY);
    for (const part of ["tangential force Ft", "diametral force Fd", "light test", "passes"]) {
      expect(stdout).toContain(part);
    }
  });

  test("lets a ring that is round when free fail the light test", () => {
    const { status, stdout } = camround("gauge", FERRY, "--free-radius", "58 mm");
    expect(status).toBe(0);
    expect(stdout).toMatch(/light test, round gauge +fails/);
  });
});

describe("camround design refuses", () => {
  const ferry = JSON.parse(readFileSync(FERRY, "utf8"));
  const withChange = (change: object) => specFile(JSON.stringify({ ...ferry, ...change }));

  test("a spec with a wrong field", () => {
    expectRefusal(["design", withChange({ bore: -1 })], "bore = -1", "from 1 to 10000 mm");
    expectRefusal(["design", withChange({ boer: 5 })], "boer", '"bore"');
    expectRefusal(["design", withChange({ load: {} })], "load", "exactly one");
    expectRefusal(
      ["design", withChange({ load: { contactPressure: 9 } })],
      "load.contactPressure = 9",
      "at most",
    );
    expectRefusal(["design", withChange({ bore: "118 furlong" })], "furlong", "mm");
    expectRefusal(["design", withChange({ bore: "a\nb" })], "bore");
    expectRefusal(["design", withChange({ closedGap: 200 })], "closedGap = 200");
  });

  test("a file that is not a spec", () => {
    expectRefusal(["design", "nowhere.json"], "nowhere.json", "no such file");
    expectRefusal(["design", specFile("{ bore: ")], "not JSON", "line 1");
    expectRefusal(["design", specFile("[]")], "one object");
    expectRefusal(["design", specFile("")], "not JSON");
    expectRefusal(["design", folder], "SPEC.json");
  });

  test("wrong flags", () => {
    expectRefusal(["design", FERRY, "--boer", "118"], "--boer", "--bore");
    expectRefusal(["design", FERRY, "--force", "5", "--pressure", "0.1"], "--force and --pressure");
    expectRefusal(["design", FERRY, "--wall", "4.4 kg"], "section.radialThickness");
    expectRefusal(["design", FERRY, "--bore", "NaN"], "bore");
    expectRefusal(["design", FERRY, "--bore", "Infinity"], "bore");
    expectRefusal(["design", FERRY, "--bore", ""], "bore");
    expectRefusal(["design"], "SPEC.json");
    expectRefusal(["design", FERRY, "another.json"], "argument");
    expect(camround("draw").status).toBe(2);
  });

  test("nothing by half: an output that cannot be written gives status 1 and leaves the old file", () => {
    const old = join(folder, "old.svg");
    writeFileSync(old, "old");
    chmodSync(old, 0o444);
    mkdirSync(join(folder, "drawing.svg"));
    for (const path of ["old.svg", "drawing.svg", "nowhere/ring.svg"]) {
      const { status, stdout, stderr } = camround("design", FERRY, "--svg", path);
      expect(stderr).toMatch(/^camround: cannot write [^\n]+\n$/);
      expect(stdout).toBe("");
      expect(status).toBe(1);
    }
    expect(readFileSync(old, "utf8")).toBe("old");
    expect(readdirSync(folder).sort()).toEqual(["drawing.svg", "old.svg"]);
  });
});
