import type { HalfBar } from "../curvature/lawsAlong.js";
import { joinedBy } from "../forces/mirror.js";
import type { Halves } from "../forces/relativeForces.js";
import type { WallStations } from "../section/wall.js";
import type { RingSpec, SlotsSpec } from "../spec/ringSpec.js";

/** The wall of both halves as arrays, end to end. */
export function wallStations(bars: Halves<HalfBar>, slots: SlotsSpec | undefined): WallStations {
  return {
    thickness: joinedBy(bars, ({ walls }) => walls.map((wall) => wall.thickness), 1),
    taper: joinedBy(bars, ({ walls }) => walls.map((wall) => wall.taper ?? 0), 1),
    netShare: joinedBy(bars, ({ walls }) => walls.map((wall) => wall.slotted?.share ?? 0), 1),
    slotDepth: slots?.depth ?? 0,
  };
}

/** The spec with the wall as a table of its stations, so that one given as a function survives as data. */
export function specOfWall(spec: RingSpec, theta: readonly number[], wall: WallStations): RingSpec {
  const once = theta.map((_, i) => i).filter((i) => i === 0 || theta[i] !== theta[i - 1]);
  const nominal = spec.section.radialThickness;
  const table = {
    angle: once.map((i) => theta[i]),
    relative: once.map((i) => wall.thickness[i] / nominal),
  };
  return { ...spec, section: { ...spec.section, wall: table } };
}
