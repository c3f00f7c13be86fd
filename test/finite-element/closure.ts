import { execFile } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import type { Point, RingDesign } from "../../src/index.js";
import { closureDeck } from "./deck.js";
import { halfRingMesh, type Mesh } from "./mesh.js";

const program = process.env.CCX ?? "ccx";
const run = promisify(execFile);

/** How the finite-element ring closes under its design pressure, mm. */
export interface MeasuredClosure {
  /** Mean radius of the closed outer face minus the bore's. */
  readonly meanRadiusError: number;
  /** Largest minus smallest distance of the closed outer face from its centre. */
  readonly outOfRound: number;
  /** Distance between the closed ends at mid wall. */
  readonly closedGap: number;
}

/** Whether the program can be started. It may end a version report with a status other than 0. */
export async function judgeIsInstalled(): Promise<boolean> {
  const report = await run(program, ["-v"]).catch((error: { stdout?: string }) => error);
  return /version/i.test(report.stdout ?? "");
}

/**
 * Closes the free body of a design by finite elements.
 *
 * @param design computed with some 2000 stations
 * @param along elements along the half ring
 * @param through elements through the wall
 */
export async function closeByFiniteElements(
  design: RingDesign,
  along = 160,
  through = 4,
): Promise<MeasuredClosure> {
  const mesh = halfRingMesh(design.outline, along, through);
  const moved = await solve(closureDeck(design, mesh), mesh);
  const face = mesh.outerNodes.map((node) => moved.get(node) as Point);
  const { centre, radius } = fitCircleOnAxis(face);
  const distances = face.map(([x, y]) => Math.hypot(x, y - centre));
  const [endX] = moved.get(mesh.endMid) as Point;
  return {
    meanRadiusError: radius - design.installed.outerRadius,
    outOfRound: Math.max(...distances) - Math.min(...distances),
    closedGap: 2 * endX,
  };
}

/** Places of the watched nodes at full load. The program prints seven digits of a displacement. */
async function solve(deck: string, mesh: Mesh): Promise<Map<number, Point>> {
  const folder = await mkdtemp(join(tmpdir(), "ring-closure-"));
  try {
    await writeFile(join(folder, "ring.inp"), deck);
    const { stdout } = await run(program, ["ring"], {
      cwd: folder,
      timeout: 100000,
      maxBuffer: 1 << 28,
    }).catch((error: { message: string; stdout?: string }) => {
      throw new Error(`${error.message}\n${(error.stdout ?? "").slice(-1000)}`);
    });
    const printed = await readFile(join(folder, "ring.dat"), "utf8");
    const last = printed.slice(printed.lastIndexOf("displacements"));
    const [heading, ...lines] = last.split("\n");
    const time = Number(heading.trim().split(/\s+/).at(-1));
    if (time !== 1) throw new Error(`stopped at ${time} of the load\n${stdout.slice(-1000)}`);
    const moved = new Map<number, Point>();
    for (const line of lines) {
      const [node, ux, uy] = line.trim().split(/\s+/).map(Number);
      if (!node) continue;
      const [x, y] = mesh.nodes[node - 1];
      moved.set(node, [x + ux, y + uy]);
    }
    return moved;
  } finally {
    await rm(folder, { recursive: true });
  }
}

/** Least-squares circle with its centre at x = 0, for points on the right half; Gauss–Newton. */
function fitCircleOnAxis(points: readonly Point[]): { centre: number; radius: number } {
  let centre = 0;
  let radius = 0;
  for (let turn = 0; turn < 20; turn++) {
    const distances = points.map(([x, y]) => Math.hypot(x, y - centre));
    const slopes = points.map(([, y], i) => (y - centre) / distances[i]);
    radius = mean(distances);
    const slope = mean(slopes);
    centre +=
      mean(slopes.map((value, i) => (value - slope) * (distances[i] - radius))) /
      mean(slopes.map((value) => (value - slope) ** 2));
  }
  return { centre, radius };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
