import { describe, expect, test } from "vitest";
import {
  type BoreInput,
  closeInBore,
  designRing,
  type GivenRing,
  type MatchOptions,
  matchRings,
  ringOfCurvature,
  SpecError,
  tapeTest,
} from "../src/index.js";
import { frozen, type Loose } from "./refusals.js";
import { DEMO_RINGS } from "./rings.js";

/** Rings put into the bores of an engine, against all ways there are to do so. */

const FERRY = { ...DEMO_RINGS["ferry 118 mm"], stations: 24 };
/** Invented: a batch as measured. */
const ring = (closedGap: number, contactPressure: number) =>
  designRing({ ...FERRY, closedGap, load: { contactPressure } });
const RINGS: GivenRing[] = [
  ring(0.4, 0.15),
  ring(0.5, 0.14),
  ring(0.45, 0.16),
  ring(0.38, 0.147),
  ring(0.55, 0.155),
  ring(0.43, 0.152),
];
const BORES: BoreInput[] = [
  { diameter: 118.012 },
  { diameter: 117.985 },
  {},
  { diameter: 118.03, harmonics: [{ order: 2, amplitude: 0.01 }] },
  { diameter: 117.96 },
  { diameter: "118.02 mm", harmonics: [{ order: 3, amplitude: 0.005, phase: 1 }] },
];

const LOBED: BoreInput = { harmonics: [{ order: 4, amplitude: 0.03 }] };

/** All ways to give each of `takers` one of `others`, in order. */
function arrangements(takers: number, others: number): number[][] {
  if (takers === 0) return [[]];
  const all = Array.from({ length: others }, (_, i) => i);
  return arrangements(takers - 1, others).flatMap((before) =>
    all.filter((i) => !before.includes(i)).map((i) => [...before, i]),
  );
}

const mean = (values: readonly number[]) => values.reduce((sum, one) => sum + one, 0) / values.length;

interface Pair {
  gap: number;
  share: number;
  force: number;
}

/** What each ring is like in each bore, looked at once; none where it cannot stand. */
const known = new Map<GivenRing, Map<BoreInput, Pair | undefined>>();
function pairOf(one: GivenRing, bore: BoreInput): Pair | undefined {
  try {
    const { closedGap, contactShare, endsTouch } = closeInBore(one, bore);
    return endsTouch ? undefined : { gap: closedGap, share: contactShare, force: tapeTest(one).force };
  } catch {
    return undefined;
  }
}
function pairsOf(rings: readonly GivenRing[], bores: readonly BoreInput[]): (Pair | undefined)[][] {
  return rings.map((one) => {
    const ofRing = known.get(one) ?? new Map<BoreInput, Pair | undefined>();
    known.set(one, ofRing);
    for (const bore of bores) if (!ofRing.has(bore)) ofRing.set(bore, pairOf(one, bore));
    return bores.map((bore) => ofRing.get(bore));
  });
}

/** Options in the library's units. */
type Wanted = { readonly [key in keyof MatchOptions]: number };

/** The most pairs, and of those the least sum of costs, over all ways. */
function byAllWays(rings: readonly GivenRing[], bores: readonly BoreInput[], options: Wanted = {}) {
  const pairs = pairsOf(rings, bores);
  const wantedForce = options.tangentialForce ?? mean(rings.map((one) => tapeTest(one).force));
  const wantedGap = options.closedGap ?? mean(rings.map(({ spec }) => spec.closedGap));
  const costOf = (pair: Pair | undefined) => {
    if (!pair || pair.gap < (options.leastGap ?? 0)) return undefined;
    if (pair.share < (options.leastContactShare ?? 0)) return undefined;
    const gap = (pair.gap - wantedGap) / (options.gapTolerance ?? 0.05);
    const force = (pair.force - wantedForce) / (options.forceTolerance ?? wantedForce / 10);
    return gap * gap + force * force;
  };
  const ringsTake = rings.length <= bores.length;
  const [few, many] = ringsTake ? [rings.length, bores.length] : [bores.length, rings.length];
  let best = { count: -1, cost: Number.POSITIVE_INFINITY };
  for (const way of arrangements(few, many)) {
    const costs = way.flatMap((other, taker) => {
      const cost = costOf(ringsTake ? pairs[taker][other] : pairs[other][taker]);
      return cost === undefined ? [] : [cost];
    });
    const cost = costs.reduce((sum, one) => sum + one, 0);
    if (costs.length > best.count || (costs.length === best.count && cost < best.cost))
      best = { count: costs.length, cost };
  }
  return { ...best, pairs, costOf };
}

const cases: [what: string, rings: GivenRing[], bores: BoreInput[], options?: Wanted][] = [
  ["six in six", RINGS, BORES],
  ["more rings than bores", RINGS, BORES.slice(0, 3)],
  ["more bores than rings", RINGS.slice(1, 4), BORES],
  ["one in one", RINGS.slice(0, 1), BORES.slice(4, 5)],
  ["a wanted gap", RINGS.slice(0, 5), BORES, { closedGap: 0.5, gapTolerance: 0.01 }],
  ["a wanted force", RINGS, BORES.slice(0, 4), { tangentialForce: 17, forceTolerance: 0.2 }],
  ["a tight force, so that costs differ by little", RINGS, BORES, { forceTolerance: 0.001 }],
  ["a least gap", RINGS, BORES, { leastGap: 0.42 }],
  ["a least gap that some bores never give", RINGS, BORES, { leastGap: 0.5 }],
  ["a least light-tight share", RINGS, [...BORES.slice(1), LOBED], { leastContactShare: 1 }],
  [
    "narrow bores where rings butt",
    RINGS,
    [{ diameter: 117.87 }, { diameter: 117.85 }, { diameter: 117.86 }],
  ],
  [
    "wide bores, where some are loose",
    [...RINGS.slice(0, 2), ring(0.45, 0.01)],
    [{}, { diameter: 122 }, { diameter: 121 }],
  ],
];

describe("matchRings finds the best of all ways:", () => {
  test.each(cases)("%s", (_, rings, bores, options) => {
    const found = matchRings(frozen([...rings]), frozen([...bores]), frozen({ ...options }));
    const { count, cost, pairs, costOf } = byAllWays(rings, bores, options);
    expect(found.matches).toHaveLength(count);
    // Sums of up to six costs, in another order; costs over the largest are sums and differences of order 1: 1e-15 of that.
    const largest = Math.max(1, ...pairs.flat().map((pair) => costOf(pair) ?? 0));
    expect(Math.abs(found.cost - cost)).toBeLessThan(1e-13 * largest);
    // Each as it is there, in the bores' order, and none twice.
    for (const match of found.matches) {
      const pair = pairs[match.ring][match.bore] as Pair;
      expect(match.closedGap).toBe(pair.gap);
      expect(match.contactShare).toBe(pair.share);
      expect(match.tangentialForce).toBe(pair.force);
      expect(Math.abs(match.cost - (costOf(pair) as number))).toBeLessThan(1e-12 * largest);
      expect(match.closedGap).toBeGreaterThanOrEqual(options?.leastGap ?? 0);
      expect(match.contactShare).toBeGreaterThanOrEqual(options?.leastContactShare ?? 0);
    }
    const taken = found.matches.map((match) => match.bore);
    expect(taken).toEqual([...new Set(taken)].sort((one, other) => one - other));
    const all = (length: number) => Array.from({ length }, (__, i) => i);
    const ringsTold = [...found.matches.map((match) => match.ring), ...found.spareRings];
    expect(ringsTold.sort((one, other) => one - other)).toEqual(all(rings.length));
    expect([...taken, ...found.emptyBores].sort((one, other) => one - other)).toEqual(all(bores.length));
  });

  test("and the cases are not without butting, loose and forbidden pairs", () => {
    const counted = (k: number) => byAllWays(cases[k][1], cases[k][2], cases[k][3]).count;
    expect(pairsOf(cases[10][1], cases[10][2]).flat()).toContain(undefined);
    expect(counted(10)).toBeGreaterThan(0);
    expect(pairsOf(cases[11][1], cases[11][2])[2]).toContain(undefined);
    expect(counted(8)).toBeLessThan(6);
    expect(counted(9)).toBeLessThan(6);
  });
});

describe("matchRings", () => {
  test("puts no ring where all would butt", () => {
    expect(matchRings(RINGS.slice(0, 2), [{ diameter: 117.8 }])).toEqual({
      matches: [],
      spareRings: [0, 1],
      emptyBores: [0],
      cost: 0,
    });
  });

  test("takes rings of a free curvature of any kind", () => {
    const { spec, free } = designRing(FERRY);
    const given = ringOfCurvature(
      { bore: 118, closedGap: 0.45, section: spec.section, material: spec.material, stations: 24 },
      (theta) => free.curvature[24] + (1 / 56.8 - free.curvature[24]) * Math.sin(theta / 2) ** 2,
    );
    const { matches } = matchRings([given], [{ diameter: 118.01 }]);
    expect(matches[0].closedGap).toBe(closeInBore(given, { diameter: 118.01 }).closedGap);
    // Nothing to choose, nothing amiss but the gap, wider by π·0.01: (0.0314/0.05)².
    expect(Math.abs(matches[0].cost - ((Math.PI * 0.01) / 0.05) ** 2)).toBeLessThan(0.001);
  });

  test("takes what is wanted with units, as all inputs from files", () => {
    const [rings, bores] = [RINGS.slice(0, 3), BORES.slice(0, 2)];
    const numbers = {
      closedGap: 0.45,
      gapTolerance: 0.02,
      tangentialForce: 17,
      forceTolerance: 0.5,
      leastGap: 0.1,
    };
    const found = matchRings(rings, bores, numbers);
    expect(found.matches).toHaveLength(2);
    const options = {
      closedGap: "0.045 cm",
      gapTolerance: "20 um",
      tangentialForce: "17 N",
      forceTolerance: "0.0005 kN",
      leastGap: "100 µm",
    };
    // A number of micrometres is rounded once more.
    const { cost, ...others } = matchRings(rings, bores, options);
    expect(Math.abs(cost - found.cost)).toBeLessThan(1e-12 * found.cost);
    expect(others.spareRings).toEqual(found.spareRings);
    expect(matchRings(rings, bores, { leastGap: "0.6 mm" }).matches).toEqual([]);
  });

  const narrow = ringOfCurvature(
    { bore: 118, closedGap: 0.7, section: FERRY.section, material: FERRY.material, stations: 24 },
    1 / 50,
  );

  test("leaves a ring that is too narrow for any gap, and what is wanted by default is of the others", () => {
    const [rings, bores] = [RINGS.slice(0, 3), BORES.slice(0, 2)];
    const without = matchRings(rings, bores);
    const { spareRings, ...found } = matchRings([...rings, narrow], bores);
    expect({ ...found, spareRings: spareRings.slice(0, -1) }).toEqual(without);
    expect(spareRings.at(-1)).toBe(3);
    const first = matchRings([narrow, ...rings], bores);
    expect(first.spareRings).toContain(0);
    expect(first.matches.map(({ ring: at }) => at - 1)).toEqual(without.matches.map(({ ring: at }) => at));
    expect(first.cost).toBe(without.cost);
  });

  test("leaves all rings where all are too narrow, gas behind them or not", () => {
    const none = { matches: [], spareRings: [0, 1], emptyBores: [0, 1], cost: 0 };
    expect(matchRings([narrow, narrow], [{}, { backPressure: 1 }])).toEqual(none);
    expect(refusal([narrow], [{}, { diameter: 150 }]).field).toBe("bores.1.diameter");
    expect(refusal([narrow], [{ radius: 59 }]).field).toBe("bores.0.radius");
  });
});

function refusal(rings: Loose, bores: Loose, options?: Loose): SpecError {
  let error: unknown;
  try {
    matchRings(rings, bores, options);
  } catch (thrown) {
    error = thrown;
  }
  expect(error).toBeInstanceOf(SpecError);
  expect((error as SpecError).message).toMatch(/^.{1,300}$/);
  return error as SpecError;
}

describe("matchRings refuses", () => {
  const one = RINGS.slice(0, 1);
  const body = { bore: 118, closedGap: 0.45, section: FERRY.section, material: FERRY.material, stations: 24 };
  const [nan, inf] = [Number.NaN, Number.POSITIVE_INFINITY];
  const options = (change: object): [Loose, Loose, Loose] => [one, [{}], change];
  test.each<[string, [Loose, Loose, Loose?], string, unknown, RegExp]>([
    ["no rings", [[], [{}]], "rings", [], /at least one/],
    ["null for rings", [null, [{}]], "rings", null, /list/],
    ["one ring without a list", [one[0], [{}]], "rings", one[0], /list/],
    ["null for a ring", [[one[0], null], [{}]], "rings.1", null, /ring/],
    ["an empty ring", [[{}], [{}]], "rings.0", {}, /ring/],
    [
      "a ring of a gap that is none",
      [[one[0], { ...one[0], spec: { ...one[0].spec, closedGap: -0.1 } }], [{}]],
      "rings.1.free.theta",
      expect.anything(),
      /from end to end/,
    ],
    [
      "a ring without its tables",
      [[one[0], { ...ringOfCurvature(body, 1 / 50), free: { theta: [0], curvature: [0.02] } }], [{}]],
      "rings.1.free.theta",
      expect.anything(),
      /different angles/,
    ],
    ["no bores", [one, []], "bores", [], /at least one/],
    ["a bore without a list", [one, {}], "bores", {}, /list/],
    ["null for a bore", [one, [{}, null]], "bores.1", null, /object/],
    ["a bore misspelt", [one, [{ radius: 59 }]], "bores.0.radius", 59, /not a known field/],
    ["a bore of no size", [one, [{}, {}, { diameter: -1 }]], "bores.2.diameter", -1, /from 1 to/],
    ["a bore of another engine", [one, [{}, { diameter: 150 }]], "bores.1.diameter", 150, /from 106/],
    [
      "a bore far from round",
      [one, [{ harmonics: [{ order: 2, amplitude: 5 }] }]],
      "bores.0.harmonics",
      expect.any(Array),
      /1\.180 mm/,
    ],
    ["null for options", [one, [{}], null], "options", null, /object/],
    ["a number for options", [one, [{}], 5], "options", 5, /object/],
    ["a list of options", [one, [{}], [1]], "options", [1], /object/],
    ["an unknown option", options({ gap: 0.5 }), "gap", 0.5, /known here: closedGap, gapTolerance/],
    ["a misspelt one", options({ closdGap: 0.5 }), "closdGap", 0.5, /nearest is "closedGap"/],
    ["a negative gap", options({ closedGap: -0.1 }), "closedGap", -0.1, /from 0 mm/],
    ["null for a gap", options({ closedGap: null }), "closedGap", null, /from 0 mm/],
    ["a force for a gap", options({ closedGap: "0.5 N" }), "closedGap", "0.5 N", /not a length unit/],
    ["a gap without a unit", options({ leastGap: "0.5" }), "leastGap", "0.5", /string with a unit/],
    ["a gap tolerance of nothing", options({ gapTolerance: 0 }), "gapTolerance", 0, /above 0 mm/],
    ["NaN for a force", options({ tangentialForce: nan }), "tangentialForce", nan, /above 0 N/],
    ["an infinite force tolerance", options({ forceTolerance: inf }), "forceTolerance", inf, /above 0 N/],
    ["a negative least gap", options({ leastGap: -1 }), "leastGap", -1, /from 0 mm/],
    ["a share in per cent", options({ leastContactShare: 98 }), "leastContactShare", 98, /from 0 to 1/],
    ["a share in words", options({ leastContactShare: "all" }), "leastContactShare", "all", /from 0 to 1/],
  ])("%s", (_, args, field, value, allowed) => {
    const error = refusal(...args);
    expect(error.field).toBe(field);
    expect(error.value).toEqual(value);
    expect(error.allowed).toMatch(allowed);
  });
});
