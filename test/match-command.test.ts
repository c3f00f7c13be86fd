import { beforeAll, describe, expect, test } from "vitest";
import {
  type BoreInput,
  designRing,
  matchRings,
  type RingDesign,
  type RingSpecInput,
  ringFromScan,
} from "../src/index.js";
import { CLI, camround, example, file, ownFolders, readExample } from "./commandLine.js";
import type { Result } from "./programs.js";
import { runEach } from "./refused.js";

/** `camround match` as a program: rings of one wire, coiled a little apart, and the ferry's bores (invented data). */

const [FERRY, BORES] = [example("ferry-118.json"), example("ferry-bores.json")];
const { bores, ...wanted } = readExample(BORES);
const ordered: RingSpecInput = { ...readExample(FERRY), stations: 60 };
const rings: RingDesign[] = [16.6, 17.7, 18.9].map((tangentialForce) =>
  designRing({ ...ordered, load: { tangentialForce } }),
);
const points = (ring: RingDesign) =>
  `x_mm,y_mm\n${ring.outline.outer.map(([x, y]) => `${x.toFixed(4)},${y.toFixed(4)}`).join("\n")}\n`;

const ownFolder = ownFolders("match");

describe.concurrent("camround match", () => {
  test("says what matchRings says, of rings from points and from JSON as printed", async () => {
    const folder = ownFolder();
    const spec = file(folder, "spec.json", ordered);
    const names = [
      file(folder, "one.csv", points(rings[0])),
      file(folder, "two.json", rings[1]),
      file(folder, "three.csv", points(rings[2])),
    ];
    const args = ["match", ...names, "--spec", spec, "--bores", BORES];
    const [json, report] = await Promise.all([
      camround(folder, ...args, "--json"),
      camround(folder, ...args),
    ]);
    const measured = (ring: RingDesign) =>
      ringFromScan(
        ring.outline.outer.map(([x, y]) => [Number(x.toFixed(4)), Number(y.toFixed(4))] as const),
        { spec: ordered },
      );
    // Of a design as printed its curvature counts, not its lengths.
    const printed = ({ spec, free: { theta, curvature }, wall }: RingDesign) => ({
      ...{ spec, free: { theta, curvature } },
      ...(wall && { wall }),
    });
    const matching = matchRings(
      [measured(rings[0]), printed(rings[1]), measured(rings[2])],
      bores as BoreInput[],
      wanted,
    );
    expect(JSON.parse(json)).toEqual({ rings: names, ...JSON.parse(JSON.stringify(matching)) });
    expect(matching.matches.length).toBeGreaterThan(1);
    for (const { ring, bore, closedGap, contactShare } of matching.matches) {
      const row = report.split("\n").find((line) => line.includes(`bore ${bore + 1} `));
      expect(row).toContain(names[ring]);
      expect(row).toContain(`gap ${closedGap.toFixed(3)} mm`);
      expect(row).toContain(`${(100 * contactShare).toFixed(1)} % light-tight`);
    }
    for (const ring of matching.spareRings)
      expect(report).toMatch(new RegExp(`left over\\n.*${names[ring]}`));
  });
});

describe("camround match is refused with status 2 and one line:", () => {
  const CASES: readonly (readonly [what: string, args: string[], error: RegExp])[] = [
    ["no file of bores", ["one.json"], /^camround: --bores must name a JSON file with the bores$/],
    [
      "a spec that nothing needs",
      ["one.json", "--spec", FERRY, "--bores", BORES],
      /^camround: --spec contradicts rings as JSON, which hold their own spec$/,
    ],
    [
      "flags that nothing needs",
      ["one.json", "--wall", "3", "--bores", BORES],
      /^camround: --wall contradicts rings as JSON, which hold their own spec$/,
    ],
    [
      "points of a ring that is not named",
      ["one.csv", "--bores", BORES],
      /^camround: --spec must name the ring that the points should be of$/,
    ],
    [
      "a bores file with a wrong unit",
      ["one.json", "--bores", "wrong.json"],
      /^camround: .*closedGap = "0\.45 kg": unit "kg" is not a length unit/,
    ],
  ];
  const results: Result[] = [];
  beforeAll(async () => {
    const folder = ownFolder();
    file(folder, "one.json", rings[1]);
    file(folder, "one.csv", points(rings[0]));
    file(folder, "wrong.json", { bores: [{}], closedGap: "0.45 kg" });
    results.push(
      ...(await runEach(
        folder,
        CLI,
        CASES.map(([, args]) => ["match", ...args]),
      )),
    );
  });

  test.each(CASES.map(([what, , error], k) => [what, error, k] as const))("%s", (_, error, k) => {
    const { status, stdout, stderr } = results[k];
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr.trimEnd()).toMatch(error);
  });
});
