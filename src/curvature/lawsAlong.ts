import type { Halves } from "../forces/relativeForces.js";
import type { Stations } from "../forces/stations.js";
import { derivative } from "../numeric/finiteDifference.js";
import { curvedSection, isProfiled } from "../section/curvedSection.js";
import { area } from "../section/rectangle.js";
import { taperShare, type Wall, type WallAlong, type WallStations, wallAt } from "../section/wall.js";
import type { ProfileFeatures } from "../spec/ringSpec.js";
import { wallBar, wallFlexibility } from "./bar.js";
import { curvedLaw } from "./curved.js";
import type { BarLaw } from "./law.js";
import { profileBar } from "./profileBar.js";
import { thinLaw } from "./thin.js";

/** What the law needs to know of a ring. */
export interface BarOfRing {
  readonly theory: "thin" | "curved";
  readonly section: ProfileFeatures & { readonly radialThickness: number; readonly axialHeight: number };
  readonly material: { readonly youngsModulus: number };
}

/**
 * The law at a wall. Slots are taken not to change how it shears.
 *
 * @param ring theory, nominal section, material
 * @param r radius of the ring's line when closed, mm
 */
export function lawAt({ theory, section, material }: BarOfRing, r: number, wall: Wall): BarLaw {
  const { radialThickness, axialHeight: h } = section;
  const E = material.youngsModulus;
  if (isProfiled(section)) {
    const profiled = curvedSection(radialThickness, h, section);
    const bar = profileBar(E, profiled, r);
    return theory === "thin" ? thinLaw(bar.flexibility) : curvedLaw(bar, E * profiled.properties.area);
  }
  if (theory === "thin") return thinLaw(wallFlexibility(E, h, wall));
  return curvedLaw(wallBar(E, h, radialThickness, r, wall), E * area(wall.thickness, h));
}

/** The law at every station of a whole ring; one and the same object all along where the wall is. */
export function stationLaws(
  ring: BarOfRing,
  r: number,
  wall: WallStations | undefined,
  count: number,
): BarLaw[] {
  const nominal = ring.section.radialThickness;
  if (!wall) return new Array<BarLaw>(count).fill(lawAt(ring, r, { thickness: nominal }));
  return Array.from({ length: count }, (_, i) => lawAt(ring, r, wallAt(nominal, wall, i)));
}

/** Wall and law of a half ring at its stations. */
export interface HalfBar {
  readonly walls: readonly Wall[];
  readonly laws: readonly BarLaw[];
  /** d(shear compliance)/dθ, 1/N; none where the thickness does not vary. */
  readonly shearSlope?: readonly number[];
}

/** Wall and law at every station of both halves; one and the same object where the halves are alike. */
export function barsAlong(ring: BarOfRing, r: number, wall: WallAlong, stations: Stations): Halves<HalfBar> {
  const right = halfBar(ring, r, wall, stations, 1);
  return { left: wall.symmetric ? right : halfBar(ring, r, wall, stations, -1), right };
}

function halfBar(ring: BarOfRing, r: number, wall: WallAlong, stations: Stations, side: 1 | -1): HalfBar {
  const { theta, runs } = stations;
  if (wall.plain) {
    const one = wall.at(0, 0);
    return {
      walls: new Array(theta.length).fill(one),
      laws: new Array(theta.length).fill(lawAt(ring, r, one)),
    };
  }
  const walls = runs.flatMap(({ first, last, step }) => {
    const middle = (theta[first] + theta[last]) / 2;
    const inRun = theta.slice(first, last + 1).map((angle) => wall.at(side * angle, side * middle));
    const thickness = inRun.map((one) => one.thickness);
    const slope = derivative(thickness, r * step);
    const bend = derivative(slope, r * step);
    return inRun.map((one, k) => {
      const taper = taperShare(thickness[k], slope[k], bend[k]);
      if (taper === 0) return one;
      const { slotted } = one;
      return slotted ? { thickness: one.thickness, taper, slotted } : { thickness: one.thickness, taper };
    });
  });
  // Over slots of a wall that does not vary, neighbours share their law.
  let [lastWall, lastLaw]: [Wall | undefined, BarLaw | undefined] = [undefined, undefined];
  const laws = walls.map((one) => {
    if (lastLaw && one === lastWall) return lastLaw;
    [lastWall, lastLaw] = [one, lawAt(ring, r, one)];
    return lastLaw;
  });
  const shear = laws.map((law) => law.shearCompliance);
  const shearSlope = runs.flatMap(({ first, last, step }) => derivative(shear.slice(first, last + 1), step));
  return { walls, laws, shearSlope };
}
