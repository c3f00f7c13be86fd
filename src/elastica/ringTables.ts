import { localPolynomial } from "../numeric/localPolynomial.js";
import { smoothRuns } from "../numeric/smoothRuns.js";
import { type Wall, type WallStations, wallAt } from "../section/wall.js";

/** What the forward computations march over: from station index + 1 down to station index. */
export interface Interval {
  readonly index: number;
  /** Free arc length at both stations, mm. */
  readonly from: number;
  readonly to: number;
  /** Quantities between the stations, over the free arc length, by the polynomial through the eight nearest. */
  readonly curvatureAt: (s: number) => number;
  readonly pressureAt: (s: number) => number;
  readonly wallAt: (s: number) => Wall;
}

/** Tables along a free ring. */
interface Tables {
  readonly arcLength: readonly number[];
  readonly curvature: readonly number[];
  readonly pressure: readonly number[];
  readonly nominal: number;
  readonly wall: WallStations | undefined;
}

/** Intervals between the stations of a ring, from the left end to the right; none reaches over a jump of the section. */
export function intervals({ arcLength, curvature, pressure, nominal, wall }: Tables): Interval[] {
  return smoothRuns(arcLength).flatMap(([first, last]) => {
    const inRun = (f: readonly number[]) => f.slice(first, last + 1);
    const s = inRun(arcLength);
    const tables = [curvature, pressure].map(inRun);
    const thickness = wall && inRun(wall.thickness);
    const netShare = wall && inRun(wall.netShare);
    return Array.from({ length: last - first }, (_, k): Interval => {
      const [curvatureAt, pressureAt] = tables.map((table) => localPolynomial(s, table, k));
      const nominalWall = wallAt(nominal, undefined, 0);
      let wallBetween = (_s: number): Wall => nominalWall;
      if (wall && thickness && netShare) {
        const thicknessAt = localPolynomial(s, thickness, k);
        const shareAt = localPolynomial(s, netShare, k);
        wallBetween = (at) =>
          wallAt(
            nominal,
            { thickness: [thicknessAt(at)], netShare: [shareAt(at)], slotDepth: wall.slotDepth },
            0,
          );
      }
      return {
        index: first + k,
        from: s[k + 1],
        to: s[k],
        curvatureAt,
        pressureAt,
        wallAt: wallBetween,
      };
    });
  });
}
