import { describe, expect, test } from "vitest";
import { correctionCsv, readCorrectionCsv } from "../src/files.js";
import {
  camTurning,
  changedRing,
  closeInBore,
  coiling,
  compareRings,
  designRing,
  metalToMake,
  planMaking,
  ringFromScan,
  tapeTest,
} from "../src/index.js";
import { expectRefused, thrown } from "./refused.js";
import { DEMO_RINGS, relativeError } from "./rings.js";
import { SCANNED, type ScannedName, scanned } from "./scans.js";

/** From a measurement to the files for the next ring. */

const FERRY = DEMO_RINGS["ferry 118 mm"];
const drawn = designRing(FERRY);
const { theta } = drawn.free;
const most = (values: readonly number[]) => Math.max(...values.map(Math.abs));
const apart = (one: readonly number[], other: readonly number[]) => most(one.map((v, i) => v - other[i]));

/** A machine that opens rings by a tenth too little makes those of a load a tenth less. */
const made = (name: ScannedName) => {
  const { tangentialForce } = designRing(SCANNED[name]).load;
  return designRing({ ...SCANNED[name], load: { tangentialForce: 0.9 * tangentialForce } });
};

describe("A ring whose curvature is changed", () => {
  test.each(["ferry 118 mm", "ferry, slotted", "ferry, wall from a table"] as const)(
    "by nothing is the design, %s",
    (name) => {
      const design = designRing(SCANNED[name]);
      const same = changedRing(design, {
        theta: design.free.theta,
        curvature: design.free.theta.map(() => 0),
      });
      expect(same.free.curvature).toEqual(design.free.curvature);
      // The line is shortened by bending alone: 2.7e-6 mm (measured).
      expect(apart(same.free.x, design.free.x)).toBeLessThan(5e-6);
      expect(relativeError(same.free.gap, design.free.gap)).toBeLessThan(1e-6);
      expect(relativeError(same.load.tangentialForce, tapeTest(design).force)).toBeLessThan(1e-6);
    },
  );

  test("by what lies between two designs is the other one, from fewer stations too", () => {
    const other = designRing({ ...FERRY, load: { tangentialForce: "16 N" } });
    const change = (stations: number) => {
      const [one, two] = [FERRY, { ...FERRY, load: { tangentialForce: "16 N" } }].map(
        (spec) => designRing({ ...spec, stations }).free,
      );
      return { theta: one.theta, curvature: two.curvature.map((value, i) => value - one.curvature[i]) };
    };
    for (const stations of [180, 60]) {
      const ring = changedRing(drawn, change(stations));
      expect(apart(ring.free.curvature, other.free.curvature) / other.free.curvature[0]).toBeLessThan(1e-10);
      expect(relativeError(ring.load.tangentialForce, tapeTest(other).force)).toBeLessThan(1e-8);
    }
  });

  const flat = { theta, curvature: theta.map(() => 0) };
  test.each<[string, unknown, string, unknown, RegExp]>([
    ["that is none", null, "correction", null, /change of curvature/],
    ["without curvatures", { theta }, "correction.curvature", undefined, /at least 8 finite/],
    ["that is short", { ...flat, theta: [0, 1] }, "correction.theta", [0, 1], /at least 8 finite/],
    ["of unlike lists", { ...flat, curvature: Array(9).fill(0) }, "correction.curvature", 9, /as many.* 361/],
    [
      "out of order",
      { ...flat, theta: [theta[0], 1, ...theta.slice(2)] },
      "correction.theta.2",
      theta[2],
      /not decrease/,
    ],
    [
      "of a shorter arc",
      { ...flat, theta: theta.map((angle) => 0.9 * angle) },
      "correction.theta",
      [0.9 * theta[0], 0.9 * theta[360]],
      /end to end of the ring.*another ring/,
    ],
    ["of another ring", { ...flat, length: 162.5 }, "correction.length", 162.5, /356\.\d+ mm: of another/],
  ])("refuses a change %s", (_, change, field, value, allowed) => {
    expectRefused(
      thrown(() => changedRing(drawn, change as typeof flat)),
      field,
      value,
      allowed,
    );
  });
});

describe("A change too large is refused as the change that it is", () => {
  const change = (curvature: (angle: number) => number) => ({ theta, curvature: theta.map(curvature) });
  test.each<[string, (angle: number) => number, number, RegExp]>([
    [
      "of a ring that would be loose",
      () => 0.005,
      0.005,
      /less than this largest change, 1\/mm: .*loose in its bore/,
    ],
    ["by far", () => 1e3, 1e3, /less than this largest change/],
    ["bent out by far", (angle) => -1e3 * Math.cos(angle), -1e3, /less than this largest change/],
  ])("%s", (_, curvature, largest, allowed) => {
    const correction = change(curvature);
    for (const run of [
      () => changedRing(drawn, correction),
      () => planMaking(FERRY, {}, { correction }),
      () => metalToMake(FERRY, {}, { correction }),
    ]) {
      const error = thrown(run) as { value: number };
      expectRefused(error, "correction.curvature", error.value, allowed);
      expect(Math.abs(error.value)).toBe(Math.abs(largest));
    }
  });
});

describe("The files for the next ring", () => {
  test.each(["ferry 118 mm", "ferry, slotted"] as const)("are for what brings the %s home", (name) => {
    const spec = SCANNED[name];
    const design = designRing(spec);
    const bent = made(name);
    const ring = ringFromScan(scanned(bent, { noise: 0.001 }).points, { spec });
    const comparison = compareRings(ring, design);
    const { fromDrawing, ring: told, share } = comparison.correction;
    expect(share).toBe(1);
    const correction = readCorrectionCsv(correctionCsv(comparison));
    const plan = planMaking(spec, {}, { correction });
    // Twelve decimals of a curvature.
    expect(apart(plan.metal.told.free.curvature, told.free.curvature)).toBeLessThan(1e-12);
    // Bent as it is told, cut as it is drawn.
    const plain = planMaking(spec);
    expect(plan.gap).toEqual(plain.gap);
    expect(plan.metal.freeGap).toBe(plain.metal.freeGap);
    expect(plan.coiling).toEqual(coiling(plan.metal.told, plan.making.coiling, plan.added));
    expect(plan.cam.outer).toEqual(camTurning(plan.metal.told, plan.making.cam, plan.added).outer);
    expect(plan.coiling.back.radius).not.toBe(plain.coiling.back.radius);
    expect(apart(correction.curvature, fromDrawing.curvature)).toBeLessThan(1e-12);
    // What the machine, which lacks the same again, makes of it.
    const lack = {
      theta: design.free.theta,
      curvature: bent.free.curvature.map((k, i) => k - design.free.curvature[i]),
    };
    const next = changedRing(plan.metal.told, lack);
    expect(relativeError(next.load.tangentialForce, tapeTest(design).force)).toBeLessThan(5e-4);
    expect(closeInBore(next).contactShare).toBe(1);
  });

  test("take the change on to the metal under a coating, whose line is shorter", () => {
    const making = { allowances: { coating: { outer: 0.03 }, coatingStiffness: "neglected" } } as const;
    const change = { theta, curvature: theta.map((angle) => 2e-5 * Math.cos(2 * angle)), length: 356.4 };
    const [plain, changed] = [{}, { correction: change }].map((options) =>
      metalToMake(FERRY, making.allowances, options),
    );
    const by = changed.told.free.curvature.map((value, i) => value - plain.design.free.curvature[i]);
    const scale = theta[360] / plain.design.free.theta[360];
    const wanted = plain.design.free.theta.map((angle) => 2e-5 * Math.cos(2 * scale * angle));
    expect(apart(by, wanted)).toBeLessThan(1e-13);
    expect(plain.told).toBe(plain.design);
    expect(changed.design).toEqual(plain.design);
  });

  test("after a second correction hold both", () => {
    const first = compareRings(
      ringFromScan(scanned(made("ferry 118 mm"), { noise: 0.001 }).points, { spec: FERRY }),
      drawn,
    ).correction;
    const second = compareRings(
      ringFromScan(scanned(made("ferry 118 mm"), { noise: 0.001, seed: 2 }).points, { spec: FERRY }),
      drawn,
      { commanded: changedRing(drawn, first.fromDrawing) },
    ).correction;
    const both = first.fromDrawing.curvature.map((value, i) => value + second.curvature[i]);
    expect(apart(second.fromDrawing.curvature, both)).toBeLessThan(1e-15);
  });
});

test("A correction that would leave the ring loose says how much of it is told", () => {
  const soft = designRing({ ...FERRY, load: { freeGap: "0.9 mm" } });
  const stiff = designRing({ ...FERRY, load: { freeGap: "4 mm" } });
  const { correction } = compareRings(stiff, soft);
  expect(correction.share).toBeLessThan(1);
  expect(Number.isInteger(Math.log2(correction.share))).toBe(true);
  const whole = stiff.free.curvature.map((value, i) => soft.free.curvature[i] - value);
  expect(
    apart(
      correction.curvature,
      whole.map((value) => correction.share * value),
    ),
  ).toBeLessThan(1e-15);
});

test("Misspelt options of a comparison are named", () => {
  const options = { comanded: drawn } as object;
  expectRefused(
    thrown(() => compareRings(drawn, drawn, options)),
    "comanded",
    drawn,
    /nearest is "commanded"/,
  );
});

describe("A table of a correction", () => {
  const good = "angle_from_back_deg,curvature_change_per_mm,wire_length_mm\n-1,0,0\n1,1e-6,2\n";

  test("is read by its columns' names, in any place, with any line ends", () => {
    const mixed =
      "\ufeffwire_length_mm,other,curvature_change_per_mm, angle_from_back_deg\r\n5,x,0,-1\r\n7,,1e-6,1\r\n\r\n";
    for (const text of [good, mixed]) {
      const { theta, curvature, length } = readCorrectionCsv(text);
      expect(theta.map((angle) => (angle * 180) / Math.PI)).toEqual([-1, 1]);
      expect([curvature, length]).toEqual([[0, 1e-6], 2]);
    }
  });

  test.each<[string, unknown, string, unknown, RegExp]>([
    ["no text", 7, "text", 7, /as text/],
    ["nothing", "", "line 1", "", /angle_from_back_deg/],
    ["points", "x_mm,y_mm\n1,2", "line 1", "x_mm,y_mm", /angle_from_back_deg/],
    ["a word", good.replace("1e-6", "far"), "line 3", "far", /curvature_change_per_mm/],
    ["a cell too few", `${good}2,0\n`, "line 4", "", /wire_length_mm/],
    ["an infinity", good.replace("-1", "-Infinity"), "line 2", "-Infinity", /angle_from_back_deg/],
  ])("is refused if it holds %s", (_, text, field, value, allowed) => {
    expectRefused(
      thrown(() => readCorrectionCsv(text as string)),
      field,
      value,
      allowed,
    );
  });
});
