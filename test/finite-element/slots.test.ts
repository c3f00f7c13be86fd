import { afterAll, describe, expect, it } from "vitest";
import { crackRotation, slotShare } from "../../src/section/slots.js";
import { reached } from "../reached.js";
import { judgeIsInstalled } from "./ccx.js";
import { measureExtraCompliance, type SlottedWall } from "./slotCell.js";

/**
 * What slots across the inner face add to the bending of a wall, judged by finite elements on half a pitch: see
 * `slotCell.ts`. Both are for a modulus of elasticity and a height of 1.
 *
 * What is fitted, and to what: three constants of the crack's rotation and the one of the saturation, to some 500
 * cells by finite elements of another program (quadratic quadrilaterals, Poisson's ratio 0.3), which agree with the
 * judge's to 0.03 %. The points below are none of those cells, but like them: the judge tells whether the formula is
 * written down as it was fitted, and that both programs agree. It cannot tell how slots with rounded bottoms, in a
 * curved wall, or under an axial force besides the moment differ from these.
 */

/** Largest shares of error: of the whole compliance, 12 / wall³ and what the slots add, and of the addition alone. */
type Limits = { whole: number; extra: number };

const WITHIN: Limits = { whole: 0.021, extra: 0.04 };

/** Shares of the wall. */
function slotted(depth: number, width: number, pitch: number, wall = 1): SlottedWall {
  return { wall, depth: depth * wall, width: width * wall, pitch: pitch * wall };
}

/** Slots as they may be cut: a tenth to two thirds of the wall deep, at pitches from a third of the wall. */
const usual: [string, SlottedWall][] = [
  ["shallow, narrow, close", slotted(0.12, 0.06, 0.35)],
  ["shallow, wide", slotted(0.15, 0.3, 1.2)],
  ["mm, quarter deep", slotted(0.25, 0.08, 0.7, 4.4)],
  ["third deep, close", slotted(0.35, 0.07, 0.4)],
  ["third deep, wide", slotted(0.35, 0.6, 1.4)],
  ["cracks at 0.9", slotted(0.42, 0, 0.9)],
  ["half deep, apart", slotted(0.45, 0.15, 2.5)],
  ["half deep, narrow teeth", slotted(0.55, 0.45, 0.6)],
  ["deep, close", slotted(0.62, 0.04, 0.6)],
  ["deep, wide, apart", slotted(0.65, 0.4, 3.3)],
];

/**
 * Cells outside the limits, each held to what it reaches, with about a tenth to spare. Wide shallow slots: their two
 * corners act on their own, which adds more than one crack does, up to a fifth, but there is little to add to. Deep
 * slots at small pitches: the saturation has no constant for the depth.
 */
const beyond: [string, SlottedWall, Limits][] = [
  ["very shallow, wide", slotted(0.05, 0.25, 0.8), { whole: 0.0053, extra: 0.062 }],
  ["very deep cracks, close", slotted(0.8, 0, 0.2), { whole: 0.043, extra: 0.044 }],
];

/** If the net section stood everywhere. */
function netCompliance({ wall, depth }: SlottedWall): number {
  return 12 / (wall - depth) ** 3 - 12 / wall ** 3;
}

/** What the model of the library says that the slots add. */
function modelCompliance(cell: SlottedWall): number {
  const { wall, depth, width, pitch } = cell;
  return netCompliance(cell) * slotShare(wall, depth, width, pitch);
}

const table: string[] = [];

async function judge(name: string, cell: SlottedWall): Promise<{ measured: number } & Limits> {
  const measured = await measureExtraCompliance(cell);
  const solid = 12 / cell.wall ** 3;
  const model = modelCompliance(cell);
  const error = { whole: (solid + model) / (solid + measured) - 1, extra: model / measured - 1 };
  table.push(
    [
      name.padEnd(24),
      ...[cell.depth, cell.width, cell.pitch].map((length) => (length / cell.wall).toFixed(2)),
      `slots add ${((100 * measured) / solid).toFixed(1).padStart(7)} %`,
      `error ${(100 * error.whole).toFixed(2).padStart(5)} % of the whole`,
      `${(100 * error.extra).toFixed(2).padStart(5)} % of the addition`,
    ].join("  "),
  );
  return { measured, whole: Math.abs(error.whole), extra: Math.abs(error.extra) };
}

/** Net section in the slots alone, and everywhere: no cell can be stiffer or softer. */
function expectBetweenBounds(cell: SlottedWall, measured: number): void {
  const net = netCompliance(cell);
  for (const compliance of [measured, modelCompliance(cell)]) {
    expect(compliance).toBeGreaterThan((net * cell.width) / cell.pitch);
    expect(compliance).toBeLessThan(net);
  }
}

const installed = await judgeIsInstalled("Bending of a slotted wall");

describe.skipIf(!installed)("slots by finite elements", () => {
  afterAll(() => console.log(table.join("\n")));

  it.each(usual)("bends like the model: %s", async (name, cell) => {
    const { measured, whole, extra } = await judge(name, cell);
    reached("slotted cell", "whole", whole, WITHIN.whole, name);
    expect(extra).toBeLessThanOrEqual(WITHIN.extra);
    expectBetweenBounds(cell, measured);
  });

  it.each(beyond)("bends as nearly as stated: %s", async (name, cell, limits) => {
    const { measured, whole, extra } = await judge(name, cell);
    reached("slotted cell", "whole", whole, limits.whole, name);
    expect(extra).toBeLessThanOrEqual(limits.extra);
    expectBetweenBounds(cell, measured);
  });

  // Six walls apart, cracks know nothing of each other. The fit is within 0.04 %, the judge's mesh within 0.03 %.
  it.each([0.04, 0.17, 0.36, 0.58, 0.82])("turns at a single crack of depth %f", async (depth) => {
    const { measured } = await judge("single crack", slotted(depth, 0, 6));
    reached(
      "slotted cell",
      "single crack",
      Math.abs((6 * measured) / (24 * crackRotation(depth)) - 1),
      0.001,
    );
  });
});
