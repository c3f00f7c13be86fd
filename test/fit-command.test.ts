import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { parse } from "jsonc-parser";
import { SaxesParser } from "saxes";
import { beforeAll, describe, expect, test } from "vitest";
import { designRing, engineFit, proposeRing, type RingSpecInput, spreadRing } from "../src/index.js";
import { CLI, camround, example, file, ownFolders, readExample } from "./commandLine.js";
import { type Result, runNode } from "./programs.js";
import { runEach } from "./refused.js";

/** `camround fit` and `camround propose` as programs. */

const FERRY = example("ferry-118.json");
const ENGINE = example("ferry-engine.json");
const ORDER = example("ferry-order.json");
const ownFolder = ownFolders("fit");

/** The line of a report that begins with a label. */
function line(report: string, label: string): string {
  const found = report.split("\n").find((text) => text.trimStart().startsWith(label));
  if (found === undefined) throw new Error(`the report has no "${label}"`);
  return found.trimStart().slice(label.length);
}
const numbers = (text: string) => (text.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);

describe.concurrent("camround fit", () => {
  const args = ["fit", FERRY, "--engine", ENGINE, "--material", "1.4112", "--stations", "48"];
  const ferry: RingSpecInput = { ...readExample(FERRY), material: "1.4112", stations: 48 };

  test("prints as JSON what engineFit says, and the same as a report", async () => {
    const folder = ownFolder();
    const [json, report] = await Promise.all([
      camround(folder, ...args, "--json"),
      camround(folder, ...args),
    ]);
    const fit = JSON.parse(json);
    const design = designRing(ferry);
    expect(fit).toEqual(
      JSON.parse(JSON.stringify({ spec: design.spec, ...engineFit(design, readExample(ENGINE)) })),
    );
    expect(readdirSync(folder)).toEqual([]);

    const expectRow = (label: string, ...expected: [value: number, decimals: number][]) => {
      const found = numbers(line(report, label));
      for (const [k, [value, decimals]] of expected.entries()) {
        expect(found[k], label).toBe(Number(value.toFixed(decimals)));
      }
    };
    const { area, inPlane } = fit.section.properties;
    expectRow("area", [area, 4]);
    expectRow("second moment, in the ring's plane", [inPlane, 4]);
    const [hand, pliers, plates] = fit.spread;
    expectRow("by hand, pull on each tip", [hand.stress.max, 0], [hand.force, 2], [0, 4], [hand.tipGap, 3]);
    expectRow("by pliers, couple", [pliers.stress.max, 0], [pliers.couple / 1000, 3]);
    expectRow("on plates, force on each tip", [plates.stress.max, 0], [plates.force, 2]);
    for (const state of ["cold", "hot"]) {
      const { axialClearance, backClearance, sink } = fit.groove[state];
      const limits = ([least, most]: number[]): [number, number][] => [
        [least, 3],
        [most, 3],
      ];
      expectRow(`axial clearance, ${state}`, ...limits(axialClearance));
      expectRow(`back clearance, ${state}`, ...limits(backClearance));
      expectRow(`sinks below the piston, ${state}`, ...limits(sink));
    }
    expectRow("gap between the ends", [fit.hot.closedGap, 3], [0.45, 3]);
    expectRow("ends meet with the ring at", [fit.hot.buttingTemperature, 0]);
    expectRow("smallest cold gap", [fit.hot.smallestColdGap, 3]);
    expectRow("tangential force Ft", [fit.hot.tangentialForce, 2], [100 * fit.hot.forceShare, 1]);
    for (const words of ["Cautions", "design guidance", "take special care with cast iron"]) {
      expect(report).toContain(words);
    }
    expect(report).not.toMatch(/NaN|undefined|Infinity/);
  });

  test("puts no minus before nothing", async () => {
    const report = await camround(ownFolder(), "fit", FERRY, "--stations", "16");
    expect(report).toContain("product of inertia");
    expect(report).not.toMatch(/-0\.0+\D/);
  });

  test("names the thickest wall that fits cold and hot", async () => {
    const folder = ownFolder();
    const report = await camround(folder, ...args);
    // Cold the groove is 5.2 mm deep, of which the wall's tolerance takes 0.05; warm it has grown more than the ring.
    expect(numbers(line(report, "thickest wall that fits"))[0]).toBe(5.15);
  });

  test("takes the examples of ring and engine, the ring of a material whose expansion is known", async () => {
    const steel = ["--material", "1.4112"];
    const report = await camround(
      ownFolder(),
      "fit",
      FERRY,
      "--engine",
      ENGINE,
      ...steel,
      "--stations",
      "16",
    );
    expect(report).toContain("axial clearance, hot");
  });

  test("tells of a ring without an engine its section and how it is spread over its bore", async () => {
    const report = await camround(ownFolder(), "fit", FERRY, "--stations", "48");
    expect(report).toContain("Spread over 118.000 mm");
    for (const words of ["Groove", "\nHot", "Warnings", "yield"]) expect(report).not.toContain(words);
  });

  test("says that a ring passes as it is", async () => {
    const folder = ownFolder();
    const engine = file(folder, "engine.json", {
      piston: { diameter: 110, groove: { width: 2.05, depth: 5 } },
    });
    const report = await camround(folder, "fit", FERRY, "--engine", engine, "--stations", "48");
    expect(report).toContain("Spread over 110.000 mm");
    expect(line(report, "by hand, pull on each tip")).toMatch(/^ +0 MPa +passes as it is$/);
  });

  test("tells yield and set, butting ends with their warning, twist and worn face", async () => {
    const folder = ownFolder();
    const { section } = readExample(FERRY);
    const spec = file(folder, "iron.json", {
      ...readExample(FERRY),
      section: {
        ...section,
        face: { shape: "taper", angle: "1 deg" },
        inner: { shape: "bevel", side: "top", depth: 0.5, height: 0.5 },
      },
      pressure: { shape: "harmonics", cosine: [], sine: [0.2] },
      material: "EN-GJS-500-7",
      stations: 48,
    });
    const engine = file(folder, "engine.json", { heat: { ring: { temperature: 300 }, bore: {} } });
    const [json, report] = await Promise.all([
      camround(folder, "fit", spec, "--engine", engine, "--json"),
      camround(folder, "fit", spec, "--engine", engine),
    ]);
    const fit = JSON.parse(json);
    expect(fit.spread.map(({ by }: { by: string }) => by)).toEqual(["hand", "pliers"]);
    expect(report).not.toContain("on plates");
    const { share, set } = fit.spread[0].yield;
    expect(share).toBe(fit.spread[0].stress.max / 320);
    expect(line(report, "by hand")).toContain(
      `${(100 * share).toFixed(0)} % of yield, set ${set.toFixed(3)} mm`,
    );
    expect(fit.hot.butts).toBe(true);
    expect(line(report, "gap between the ends")).toMatch(/^ +-\d\.\d{3} mm +THE ENDS BUTT$/);
    expect(report).toMatch(/Warnings\n {2}! the ends butt/);
    expect(line(report, "twist when closed")).toMatch(/positive: the lower outer edge on the bore/);
    for (const { wear, land } of fit.section.face) {
      expect(line(report, `${(1000 * wear).toFixed(2)} µm`)).toContain(`land ${land.toFixed(3)} mm`);
    }
  });

  test("draws how closing and fitting stress trade, in a well-formed picture", async () => {
    const folder = ownFolder();
    await camround(folder, ...args, "--svg", "trade.svg");
    expect(readdirSync(folder)).toEqual(["trade.svg"]);
    const svg = readFileSync(join(folder, "trade.svg"), "utf8");
    const names: string[] = [];
    let description = "";
    const parser = new SaxesParser();
    parser.on("error", (error) => {
      throw error;
    });
    parser.on("opentag", ({ name }) => names.push(name));
    parser.on("text", (text) => {
      if (names.at(-1) === "desc") description += text;
    });
    parser.write(svg).close();
    expect(names[0]).toBe("svg");
    expect(names).toContain("circle");
    const [diameter, stress, freeGap] = numbers(description);
    expect(diameter).toBe(117.4);
    // The same ring with that free gap is stressed so, closed and spread: to half a MPa as printed, half a hundredth of a millimetre
    // of 0.3 MPa, and 0.1 MPa for the straight line between two of the gaps looked at.
    const design = designRing({ ...ferry, load: { freeGap } });
    expect(Math.abs(design.stress.closing.max - stress)).toBeLessThan(1);
    expect(Math.abs(spreadRing(design, { diameter: 117.4 }).stress.max - stress)).toBeLessThan(1);
  });
});

describe.concurrent("camround propose", () => {
  const order = {
    bore: "54 mm",
    piston: { diameter: 53.6, groove: { width: 1.03, depth: 2.6 } },
    materials: [{ youngsModulus: "160 GPa" }],
    closedGap: 0.2,
    stock: [
      { radialThickness: 1.9, axialHeight: 1 },
      { radialThickness: 2.4, axialHeight: 1 },
    ],
    contactPressure: [0.15, 0.2] as [number, number],
  };

  test("prints as JSON what proposeRing says, and the same as a report", async () => {
    const folder = ownFolder();
    const path = file(folder, "order.json", `// invented\n${JSON.stringify(order)}`);
    const [json, report] = await Promise.all([
      camround(folder, "propose", path, "--json"),
      camround(folder, "propose", path),
    ]);
    const { proposals, notes } = JSON.parse(json);
    expect(proposals).toEqual(JSON.parse(JSON.stringify(proposeRing(order))));
    expect(proposals.map(({ missed }: { missed: number }) => missed)).toEqual([0, 1]);
    expect(readdirSync(folder)).toEqual(["order.json"]);
    const blocks = report.split(/\n\n(?=\d\. )/).slice(1);
    expect(blocks).toHaveLength(2);
    for (const [k, block] of blocks.entries()) {
      const { spec, limits, missed, ...rest } = proposals[k];
      expect(block.split("\n")[0]).toBe(
        `${k + 1}. ${missed === 0 ? "meets all limits" : "misses 1 of 3 limits"}`,
      );
      expect(line(block, "section")).toMatch(`${spec.section.radialThickness} × 1 mm  E 160 GPa`);
      expect(numbers(line(block, "contact pressure, Ft"))).toEqual([
        Number(rest.contactPressure.toFixed(3)),
        Number(rest.tangentialForce.toFixed(2)),
      ]);
      expect(numbers(line(block, "free gap, closed gap"))).toEqual([Number(rest.freeGap.toFixed(3)), 0.2]);
      expect(numbers(line(block, "axial friction"))[0]).toBe(Number(rest.friction.toFixed(2)));
      for (const { limit, value, met, source } of limits) {
        expect(numbers(line(block, limit))[0]).toBe(Number(value.toPrecision(4)));
        expect(line(block, limit)).toContain(met ? "met: " : "MISSED: ");
        expect(line(block, limit)).toContain(`(${source})`);
      }
    }
    for (const note of notes) expect(report).toContain(`  - ${note}\n`);
    expect(report).toContain("Cautions");
    expect(report).not.toMatch(/NaN|undefined/);
    // A proposal is a spec as it stands.
    const spec = file(folder, "first.json", proposals[0].spec);
    const design = JSON.parse(await camround(folder, "design", spec, "--json"));
    expect(design.free.gap).toBe(proposals[0].freeGap);
  });

  test("proposes rings for the example's order, best first", async () => {
    const report = await camround(ownFolder(), "propose", ORDER);
    const verdicts = report.match(/^\d\. .*$/gm) ?? [];
    expect(verdicts).toHaveLength(5);
    const missed = verdicts.map((verdict) => Number(/misses (\d)/.exec(verdict)?.[1] ?? 0));
    expect(missed).toEqual([...missed].sort());
    expect(report.match(/MISSED/g)).toHaveLength(missed.reduce((sum, one) => sum + one, 0));
    // 0.0035 of the bore, rounded up to a hundredth of a millimetre.
    expect(report.match(/0\.420 mm$/gm)).toHaveLength(5);
  });
});

describe("refused with status 2, one line, and nothing written:", () => {
  const piston = { diameter: 117.4, groove: { width: 2.05, depth: 5.2 } };
  const order = { bore: 118, piston, materials: ["1.4112"], closedGap: 0.5 };
  const withEngine = (engine: unknown, ...flags: string[]) => [
    "fit",
    FERRY,
    "--stations",
    "16",
    "--engine",
    engine,
    ...flags,
  ];
  const cases: [what: string, args: unknown[], ...words: string[]][] = [
    ["an engine that is not there", withEngine("no.json"), "--engine", "no.json", "no such file"],
    ["a folder for an engine", withEngine("."), '--engine = "."'],
    ["an engine that is not JSON", withEngine("{ piston: "), "not JSON", "line 1"],
    ["a list for an engine", withEngine([]), "one object"],
    ["a list for a part", withEngine({ piston: [] }), "piston"],
    [
      "a piston of no size",
      withEngine({ piston: { groove: piston.groove } }),
      "piston.diameter",
      "must be given",
    ],
    ["NaN for a piston", withEngine('{ "piston": { "diameter": NaN } }'), "not JSON", "line 1"],
    [
      "a piston in pounds",
      withEngine({ piston: { ...piston, diameter: "117 lb" } }),
      '"lb" is not a length unit',
    ],
    ["a negative tolerance", withEngine({ tolerance: { wall: -1 } }), "tolerance.wall = -1", "from 0"],
    [
      "a ring that binds",
      withEngine({ piston: { ...piston, groove: { width: 1.9, depth: 5.2 } } }),
      "axialHeight = 2",
      "bind",
    ],
    [
      "a ring that stands proud",
      withEngine({ piston: { ...piston, groove: { width: 2.1, depth: 4 } } }),
      "radialThickness = 4.4",
      "at most 4.0000 mm",
    ],
    [
      "heat for an unknown metal",
      withEngine({ heat: { ring: { temperature: 100 }, bore: {} } }),
      "material",
      "expansion",
    ],
    [
      "a warm bore of no metal",
      withEngine({ heat: { ring: {}, bore: { temperature: 100 } } }, "--material", "1.4112"),
      "heat.bore.material",
      "must be given",
    ],
    ["a part misspelt", withEngine({ pistn: piston }), "pistn", "piston, heat, tolerance"],
    ["a field of a part misspelt", withEngine({ tolerance: { wal: 0.1 } }), "tolerance.wal", "wall"],
    ["no spec", ["fit"], "SPEC.json"],
    ["a spec that is not there", ["fit", "no.json"], "no.json", "no such file"],
    ["a wrong spec", ["fit", FERRY, "--bore", "-1"], "bore = -1"],
    ["a flag misspelt", ["fit", FERRY, "--engin", "x"], "--engin", "--engine"],
    ["no order", ["propose"], "ORDER.json"],
    ["an order that is not there", ["propose", "no.json"], "no.json", "no such file"],
    ["an order without a gap", ["propose", { ...order, closedGap: undefined }], "closedGap", "duty"],
    [
      "an order for a piston as wide as its bore",
      ["propose", { ...order, piston: { ...piston, diameter: 118 } }],
      "piston.diameter = 118",
      "less than the bore, 118 mm",
    ],
    ["an order misspelt", ["propose", { ...order, boer: 118 }], "boer", '"bore"'],
    [
      "an order that nothing fits",
      ["propose", { ...order, stock: [{ radialThickness: 6, axialHeight: 2 }] }],
      "piston.groove",
    ],
    [
      "an order upside down",
      ["propose", { ...order, contactPressure: [0.3, 0.1] }],
      "contactPressure = [0.3,0.1]",
    ],
    ["a flag that propose has not", ["propose", ORDER, "--svg", "x.svg"], "--svg"],
  ];
  let results: Result[];
  let folder: string;
  let before: string[];
  beforeAll(async () => {
    folder = ownFolder();
    const argsOf = ([, args]: (typeof cases)[number], k: number) => {
      const own = args.map((arg, at) => {
        const inline = typeof arg !== "string" || arg.startsWith("{");
        return inline ? file(folder, `case-${k}-${at}.json`, arg) : (arg as string);
      });
      return own[0] === "fit" ? [...own, "--svg", "out.svg"] : own;
    };
    const all = cases.map(argsOf);
    before = readdirSync(folder);
    results = await runEach(folder, CLI, all);
  });

  test.each(cases.map(([what, , ...words], k) => [what, k, words] as const))("%s", (_, k, words) => {
    const { status, stdout, stderr } = results[k];
    expect(stderr).toMatch(/^camround: [^\n]+\n$/);
    for (const word of words) expect(stderr).toContain(word);
    expect(stdout).toBe("");
    expect(status).toBe(2);
    expect(readdirSync(folder)).toEqual(before);
  });

  test("and a picture that cannot be written is said so, with status 1 and no report", async () => {
    const { status, stdout, stderr } = await runNode(folder, [
      CLI,
      "fit",
      FERRY,
      "--stations",
      "16",
      "--svg",
      "nowhere/out.svg",
    ]);
    expect(stderr).toMatch(/^camround: cannot write "nowhere\/out\.svg"[^\n]+\n$/);
    expect(stdout).toBe("");
    expect(status).toBe(1);
  });
});

test("both commands teach by their help", async () => {
  const folder = ownFolder();
  const [fit, propose] = await Promise.all([
    camround(folder, "fit", "--help"),
    camround(folder, "propose", "--help"),
  ]);
  for (const word of ["--engine", "--svg", "--json", "keepGap", "[smallest, largest]"])
    expect(fit).toContain(word);
  for (const word of ["ORDER.json", "duty", "--json"]) expect(propose).toContain(word);
  // The files that they show are ones that the program takes.
  const [, engine] = /An engine file[^\n]*\n([\s\S]*)$/.exec(fit) ?? [];
  const [, order] = /An order:\n([\s\S]*)$/.exec(propose) ?? [];
  const design = designRing({ ...readExample(FERRY), material: "1.4112", stations: 16 });
  expect(engineFit(design, parse(engine)).groove?.hot).toBeDefined();
  expect(Object.keys(parse(order))).toEqual(["bore", "piston", "materials", "duty"]);
});
