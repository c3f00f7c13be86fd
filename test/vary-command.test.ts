import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { SaxesParser } from "saxes";
import { beforeAll, describe, expect, test } from "vitest";
import {
  planVariation,
  type RingSpecInput,
  type Variation,
  variation,
  variationSlice,
} from "../src/index.js";
import { renderVariation } from "../src/svg.js";
import { CLI, camround, example, file, ownFolders, readExample } from "./commandLine.js";
import { type Result, snapshot } from "./programs.js";
import { runEach } from "./refused.js";

/** `camround vary` as a program. */

const [FERRY, TOLERANCES] = [example("ferry-118.json"), example("ferry-tolerances.json")];
const SMALL = ["--stations", "24", "--samples", "16", "--seed", "5"];

const ownFolder = ownFolders("vary");

/** What the library says of the examples. */
let found: Variation | undefined;
function whole(): Variation {
  const { limits, ...tolerances } = readExample(TOLERANCES);
  const spec: RingSpecInput = { ...readExample(FERRY), stations: 24 };
  found ??= variation(spec, tolerances, { samples: 16, seed: 5, limits });
  return found;
}

const vary = ["vary", FERRY, "--tolerances", TOLERANCES, ...SMALL];

/** The whole study as JSON and as a report, computed once. */
let printed: Promise<[json: string, report: string]> | undefined;
function wholePrinted(): NonNullable<typeof printed> {
  const folder = ownFolder();
  printed ??= Promise.all([
    camround(folder, ...vary, "--json", "--threads", "1"),
    camround(folder, ...vary),
  ]).finally(() => expect(readdirSync(folder)).toEqual([]));
  return printed;
}

describe.concurrent("camround vary", () => {
  test("prints as JSON what variation says, whatever the threads, and writes nothing", async () => {
    const [one] = await wholePrinted();
    const two = await camround(ownFolder(), ...vary, "--json", "--threads", "2");
    expect(two).toBe(one);
    expect(JSON.parse(one)).toEqual(whole());
  });

  test("prints the same as a report", async () => {
    const [, report] = await wholePrinted();
    const { outcomes, inside, evaluations } = whole();
    const line = (label: string) => {
      const row = report.split("\n").find((text) => text.trimStart().startsWith(label));
      if (row === undefined) throw new Error(`the report has no "${label}"`);
      return row.trimStart().slice(label.length);
    };
    const numbers = (text: string) => (text.match(/-?\d+(\.\d+)?/g) ?? []).map(Number);
    expect(numbers(line("variants"))[0]).toBe(32);
    expect(numbers(line("contacts computed"))).toEqual([evaluations, 5]);
    const rows: [label: string, name: keyof typeof outcomes, digits: number][] = [
      ["tangential force Ft, N", "tangentialForce", 3],
      ["free gap m, mm", "freeGap", 3],
      ["gap in the bore, mm", "closedGap", 3],
      ["lowest pressure off the ends, MPa", "lowestPressure", 4],
      ["closing stress, MPa", "closingStress", 0],
    ];
    for (const [label, name, digits] of rows) {
      const { mean, standardDeviation, percentiles, nominal } = outcomes[name];
      const at = (percent: number) => percentiles.find((one) => one.percent === percent)?.value as number;
      const told = [mean, standardDeviation, 1, at(1), at(50), 99, at(99), nominal];
      const shown = told.map((value, k) => (k === 2 || k === 5 ? value : Number(value.toFixed(digits))));
      expect(numbers(line(label)), label).toEqual(shown);
    }
    const percent = (share: number) => Number((100 * share).toFixed(2));
    expect(numbers(line("tangential force Ft  "))).toEqual([
      percent(outcomes.tangentialForce.inside),
      16.5,
      19,
    ]);
    expect(numbers(line("all of them  "))).toEqual([percent(inside)]);
    const { first, total } = outcomes.tangentialForce.sensitivity.freeGap;
    const [, owed = ""] = /What the tangential force Ft owes[\s\S]*?\n( +freeGap .*)\n/.exec(report) ?? [];
    expect([numbers(owed)[0], numbers(owed)[2]]).toEqual([total, first].map((one) => Number(one.toFixed(3))));
    expect(report).toContain("Cautions");
    expect(report).not.toMatch(/NaN|undefined|Infinity/);
  });

  test("joins parts to the same bytes, in any order, and draws them", async () => {
    const folder = ownFolder();
    const parts = await Promise.all(
      ["1/3", "2/3", "3/3"].map((shard) => camround(folder, ...vary, "--shard", shard, "--threads", "1")),
    );
    for (const [k, part] of parts.entries()) file(folder, `part${k}.json`, part);
    const files = ["part2.json", "part0.json", "part1.json"];
    const [json, report, [wholeJson, wholeReport]] = await Promise.all([
      camround(folder, "vary", "--merge", ...files, "--json"),
      camround(folder, "vary", "--merge", ...files, "--svg", "spread.svg"),
      wholePrinted(),
    ]);
    expect(json).toBe(wholeJson);
    expect(report).toBe(wholeReport);
    const svg = readFileSync(join(folder, "spread.svg"), "utf8");
    expect(svg).toBe(renderVariation(whole()));
    const parser = new SaxesParser();
    parser.on("error", (error) => {
      throw error;
    });
    parser.write(svg).close();
    expect(readdirSync(folder).sort()).toEqual(["part0.json", "part1.json", "part2.json", "spread.svg"]);
  });

  test("takes flags over the spec, lengths with units, and 256 samples from seed 1 by default", async () => {
    const folder = ownFolder();
    const tolerances = file(folder, "t.json", '// one\n{ "bore": "20 um", }');
    const args = ["vary", FERRY, "--tolerances", tolerances, "--stations", "16", "--gap", "0.5 mm"];
    const { plan } = JSON.parse(await camround(folder, ...args, "--sensitivity", "1 um", "--json"));
    expect([plan.samples, plan.seed, plan.sensitivity]).toEqual([256, 1, 0.001]);
    expect([plan.spec.closedGap, plan.spec.stations]).toEqual([0.5, 16]);
    expect(plan.factors).toEqual([{ name: "bore", lower: -0.02, upper: 0.02, distribution: "normal" }]);
  });

  test("tells of rings whose ends butt", async () => {
    const folder = ownFolder();
    const tolerances = file(folder, "t.json", { bore: { lower: -0.2, upper: 0, distribution: "uniform" } });
    expect(await camround(folder, "vary", FERRY, "--tolerances", tolerances, ...SMALL)).toMatch(
      /variants +32 +\d+ whose ends butt/,
    );
  });
});

describe("refused with status 2, one line, and nothing written:", () => {
  const ferry = ["vary", FERRY, "--stations", "16", "--samples", "8"];
  const good = [...ferry, "--tolerances", TOLERANCES];
  const svg = ["--svg", "out.svg"];
  const slice = { plan: {}, from: 0, rows: [[1]] };
  const part = (index: number, seed: number) => {
    const spec = { ...readExample(FERRY), stations: 16 };
    return variationSlice(planVariation(spec, { bore: 0.01 }, { samples: 8, seed }), { index, of: 2 });
  };
  const cases: [what: string, args: (string | object)[], ...words: string[]][] = [
    ["no tolerances", [...ferry, ...svg], "--tolerances"],
    ["tolerances that are not there", [...ferry, "--tolerances", "no.json"], "no.json", "no such file"],
    ["a folder for tolerances", [...ferry, "--tolerances", "."], '--tolerances = "."', "folder"],
    ["tolerances that are not JSON", [...ferry, "--tolerances", "{ bore: "], "not JSON", "line 1"],
    ["a list for tolerances", [...ferry, "--tolerances", []], "one object"],
    ["a spec for tolerances", [...ferry, "--tolerances", FERRY], "not a known field", "freeGap"],
    ["empty tolerances", [...ferry, "--tolerances", {}], "tolerances = {}", "radialThickness"],
    ["a misspelt tolerance", [...ferry, "--tolerances", { boer: 1 }], "boer", '"bore"'],
    ["a misspelt limit", [...ferry, "--tolerances", { bore: 0.01, limits: { force: {} } }], "limits.force"],
    ["a huge tolerance", [...ferry, "--tolerances", { bore: 10 }], "tolerances.bore = 10"],
    ["NaN for a tolerance", [...ferry, "--tolerances", '{ "bore": NaN }'], "not JSON"],
    [
      "ones of which nothing works",
      [...ferry, "--tolerances", { bore: { lower: -3.5, upper: -3 } }, ...svg],
      "tolerances",
    ],
    ["no spec", ["vary", "--tolerances", TOLERANCES], "SPEC.json"],
    ["a spec that is not there", ["vary", "no.json", "--tolerances", TOLERANCES], "no.json", "no such file"],
    ["a wrong spec", [...good, "--bore", "-1"], "bore = -1"],
    ["samples in letters", [...good, "--samples", "many"], 'samples = "many"', "8 to 1000000"],
    ["too few samples", [...good, "--samples", "4"], "samples = 4"],
    ["no sensitivity", [...good, "--sensitivity", "0"], "sensitivity = 0"],
    ["a sensitivity in kilograms", [...good, "--sensitivity", "5 kg"], "--sensitivity", "not a length unit"],
    ["no threads", [...good, "--threads", "0", ...svg], "threads = 0", "1 to 256"],
    ["threads in letters", [...good, "--threads", "two"], 'threads = "two"'],
    ["shard 0", [...good, "--shard", "0/2"], "shard.index = 0", "1 to 2"],
    ["shard 3 of 2", [...good, "--shard", "3/2"], "shard.index = 3"],
    ["more shards than samples", [...good, "--shard", "1/9"], "shard.of = 9", "8"],
    ["a shard in words", [...good, "--shard", "first"], '--shard = "first"', "2/8"],
    ["a picture of a shard", [...good, "--shard", "1/2", ...svg], "--shard", "--svg"],
    ["nothing to join", ["vary", "--merge"], "--merge"],
    ["a part that is not there", ["vary", "--merge", "no.json", ...svg], "no.json", "no such file"],
    ["a spec for a part", ["vary", "--merge", FERRY], "--merge", "--shard"],
    ["a part of junk", ["vary", "--merge", slice, ...svg], '--merge = "case-', '-2.json"', ": plan = {}"],
    [
      "a part of another study",
      ["vary", "--merge", part(1, 2), part(2, 3)],
      '--merge = "case-',
      '-3.json"',
      "one study",
    ],
    [
      "a part twice",
      ["vary", "--merge", part(2, 2), part(1, 2), part(2, 2)],
      '--merge = "case-',
      '-4.json": from = 4',
      "doubled",
    ],
    ["a part too few", ["vary", "--merge", part(1, 2)], "slices = 4", "all 8 samples"],
    ["a part with no plan", ["vary", "--merge", { ...slice, plan: null }], "slice"],
    [
      "joining and computing at once",
      [...good, "--shard", "1/2", "--merge", "x.json"],
      "--merge",
      "--tolerances",
    ],
    ["a flag misspelt", [...good, "--smples", "8"], "--smples"],
  ];
  let results: Result[];
  let folder: string;
  let before: ReturnType<typeof snapshot>;
  beforeAll(async () => {
    folder = ownFolder();
    const all = cases.map(([, args], k) =>
      args.map((arg, at) =>
        typeof arg !== "string" || arg.startsWith("{") ? file(folder, `case-${k}-${at}.json`, arg) : arg,
      ),
    );
    before = snapshot(folder);
    results = await runEach(folder, CLI, all);
  }, 60000);

  test.each(cases.map(([what, , ...words], k) => [what, k, words] as const))("%s", (_, k, words) => {
    const { status, stdout, stderr } = results[k];
    expect(stderr).toMatch(/^camround: .{1,300}\n$/);
    for (const word of words) expect(stderr).toContain(word);
    expect(stdout).toBe("");
    expect(status).toBe(2);
  });

  test("none of them wrote anything", () => {
    expect(snapshot(folder)).toEqual(before);
  });
});
