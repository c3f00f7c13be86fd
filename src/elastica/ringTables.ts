import { localPolynomial } from "../numeric/localPolynomial.js";
import { smoothRuns } from "../numeric/smoothRuns.js";
import { type Wall, type WallStations, wallAt, wallOf } from "../section/wall.js";

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
  /** Whether the wall is another from place to place. */
  readonly wallVaries: boolean;
}

/** Tables along a free ring. */
interface Tables {
  readonly arcLength: readonly number[];
  readonly curvature: readonly number[];
  /** None where no pressure acts. */
  readonly pressure?: readonly number[];
  readonly nominal: number;
  readonly wall: WallStations | undefined;
}

/** Intervals between the stations of a ring, from the left end to the right; none reaches over a jump of the section. */
export function intervals({ arcLength, curvature, pressure, nominal, wall }: Tables): Interval[] {
  return smoothRuns(arcLength).flatMap(([first, last]) => {
    // Sliced once a table: once an interval would cost the square of their number.
    const slices = new Map<readonly number[], readonly number[]>();
    const inRun = (f: readonly number[]) => {
      const slice = slices.get(f) ?? f.slice(first, last + 1);
      slices.set(f, slice);
      return slice;
    };
    const s = inRun(arcLength);
    const between = (f: readonly number[], k: number) => localPolynomial(s, inRun(f), k);
    const same = (f: readonly number[]) => inRun(f).every((value, _, run) => value === run[0]);
    // Over slots, too, the wall is mostly the same all along a run.
    const wallVaries = wall !== undefined && ![wall.thickness, wall.taper, wall.netShare].every(same);
    const one = wallAt(nominal, wall, first);
    return Array.from(
      { length: last - first },
      (_, k): Interval => ({
        index: first + k,
        from: s[k + 1],
        to: s[k],
        curvatureAt: between(curvature, k),
        pressureAt: pressure ? between(pressure, k) : () => 0,
        wallAt: wallVaries ? varyingWall(wall, (f) => between(f, k)) : () => one,
        wallVaries,
      }),
    );
  });
}

/** The wall between two stations. */
function varyingWall(wall: WallStations, between: (f: readonly number[]) => (s: number) => number) {
  const [thickness, taper, netShare] = [wall.thickness, wall.taper, wall.netShare].map(between);
  return (s: number) => wallOf(thickness(s), taper(s), netShare(s), wall.slotDepth);
}
