import { gapWithMetal, turnsOf } from "../curves/gapWithMetal.js";
import type { RingDesign } from "../design/ringDesign.js";
import { endsInBand } from "../ends/endsInBand.js";
import type { Halves } from "../forces/relativeForces.js";
import { SpecError } from "../spec/error.js";
import { parse } from "../spec/issues.js";
import { type GapInput, gapSchema } from "./makingSchema.js";

/** How a ring is held while its gap is cut: free in a nest, part-closed by a band, closed in a sleeve. */
export type Hold = "free" | "held" | "closed";

/**
 * The gap as cut in one way of holding. Distances across the gap, mm; angles to the axis through back and gap (held: to the square of the
 * band's pull), radians, positive where the faces stand wider apart outside.
 */
export interface CutSetup {
  /** How the ring is held. */
  readonly hold: Hold;
  /** Between the faces at the middle. */
  readonly gap: number;
  /** Between the outer corners. */
  readonly gapOuter: number;
  /** Between the inner corners. */
  readonly gapInner: number;
  /** Angle of each face. */
  readonly faces: Halves<number>;
  /** Of the outer corners over the outer face at the back, along the axis; mean of both. */
  readonly height: number;
  /** Pull on the band, N; held only. */
  readonly pull?: number;
  /** What one straight cutter along the axis, as wide as `gap`, leaves when the ring is closed. */
  readonly parallelCutter: {
    /** Closed gap between the outer corners. */
    readonly gapOuter: number;
    /** Closed gap between the inner corners. */
    readonly gapInner: number;
    /** Between the closed faces; negative where they stand closer outside. */
    readonly facesAngle: number;
    /** To file off both faces together, at the tight edge, to make them parallel. */
    readonly toFile: number;
  };
}

/** How the gap grows as the ends are filed. mm. */
export interface FilingStep {
  /** Off each end. */
  readonly filed: number;
  /** Closed gap then. */
  readonly closedGap: number;
  /** Free gap then, at the middle of the faces. */
  readonly freeGap: number;
}

/** How the gap is cut and filed. mm. */
export interface GapCutting {
  /** Left to file on each end. */
  readonly filingStock: number;
  /** Closed gap as cut, before filing. */
  readonly closedGap: number;
  /** Length of an end face from its inner to its outer corner. */
  readonly faceLength: number;
  /** Free, held, closed. */
  readonly setups: readonly CutSetup[];
  /** From no filing to the whole stock; one row where there is none. */
  readonly filing: readonly FilingStep[];
}

/** Metal on the ends alone: gaps here are those at the middle of the designed faces. */
const onEnds = (ends: number) => ({ ends, outer: 0, inner: 0 });

/** Rows of the filing table, besides the first. */
const FILING_STEPS = 5;

/**
 * Set-ups for cutting the gap in three ways of holding the ring, so that the closed faces are parallel and a stock is left to file.
 *
 * The ends are rigid, so the faces keep their length and only turn. Filing keeps them parallel: each hundredth off either end opens the closed
 * gap by a hundredth; a bore larger by Δ opens it by π·Δ.
 *
 * Method: docs/theory/10-making.md.
 *
 * @param ring the ring that bends, as designed
 * @param options `filingStock` left on each end, mm; `heldGap`: opening of the finished ring at which it is held, mm, by default half-way
 * between closed and free
 * @param ends metal on each end besides, such as is to be ground off, mm; negative where a coating is to come on; default 0
 * @throws SpecError when a value is out of range, the stock is more than half the closed gap or the held gap is not between closed and free
 * @throws NotFound when no equilibrium in the band is found
 *
 * @example
 * gapCutting(design, { filingStock: 0.05 }).closedGap; // 0.35, mm
 */
export function gapCutting(ring: RingDesign, options: GapInput = {}, ends = 0): GapCutting {
  const { filingStock, heldGap } = parse(gapSchema, options, "options");
  if (!Number.isFinite(ends)) throw new SpecError("ends", ends, "must be a finite length, mm");
  const { closedGap, section } = ring.spec;
  const metal = filingStock + ends;
  if (!(2 * metal <= closedGap)) {
    throw new SpecError(
      "filingStock",
      filingStock,
      `must be at most ${Math.max(0, closedGap / 2 - ends)} mm, so that the ends do not meet before the ring is closed to ${closedGap} mm`,
    );
  }
  const R = ring.installed.outerRadius;
  const a = section.radialThickness;
  const last = ring.free.theta.length - 1;
  const endWall = ring.wall ? (ring.wall.thickness[0] + ring.wall.thickness[last]) / 2 : a;
  const heightAt = (radius: number) => Math.sqrt(radius * radius - (closedGap * closedGap) / 4);
  const faceLength = heightAt(R) - heightAt(R - endWall);

  const setup = (hold: Hold, gap: number, faces: Halves<number>, height: number, pull?: number): CutSetup => {
    const sines = Math.sin(faces.left) + Math.sin(faces.right);
    const wedge = faceLength * (Math.tan(faces.left) + Math.tan(faces.right));
    const middle = gapWithMetal(gap, { left: -faces.left, right: -faces.right }, onEnds(metal));
    const closed = closedGap - 2 * metal;
    return {
      hold,
      gap: middle,
      gapOuter: middle + (faceLength / 2) * sines,
      gapInner: middle - (faceLength / 2) * sines,
      faces,
      height,
      ...(pull !== undefined && { pull }),
      parallelCutter: {
        gapOuter: closed - wedge / 2,
        gapInner: closed + wedge / 2,
        facesAngle: 0 - faces.left - faces.right,
        toFile: Math.abs(wedge),
      },
    };
  };

  const { outer } = ring.outline;
  const freeHeight = (outer[0][1] + outer[outer.length - 1][1]) / 2 + R;
  const opened = (turns: Halves<{ turn: number }>) => ({ left: -turns.left.turn, right: -turns.right.turn });
  if (heldGap !== undefined && !(heldGap >= closedGap && heldGap <= ring.free.gap)) {
    const range = `${closedGap} mm, to the free gap, ${ring.free.gap.toFixed(4)} mm`;
    throw new SpecError("heldGap", options.heldGap, `must be from the closed gap, ${range}`);
  }
  const band = endsInBand(ring, heldGap ?? (closedGap + ring.free.gap) / 2);
  return {
    filingStock,
    closedGap: closedGap - 2 * metal,
    faceLength,
    setups: [
      setup("free", ring.free.gap, opened(ring.ends), freeHeight),
      setup("held", band.gap, opened(band), band.height, band.pull),
      setup("closed", closedGap, { left: 0, right: 0 }, heightAt(R) + R),
    ],
    filing: Array.from({ length: filingStock > 0 ? FILING_STEPS + 1 : 1 }, (_, k) => {
      const filed = (filingStock * k) / FILING_STEPS;
      const left = metal - filed;
      return {
        filed,
        closedGap: closedGap - 2 * left,
        freeGap: gapWithMetal(ring.free.gap, turnsOf(ring), onEnds(left)),
      };
    }),
  };
}
