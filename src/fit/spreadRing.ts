import * as v from "valibot";
import type { RingDesign } from "../design/ringDesign.js";
import { SpecError } from "../spec/error.js";
import { positive, quantity } from "../spec/fields.js";
import { parse } from "../spec/issues.js";
import { type FibreStress, fibreStresses } from "../stress/fibreStress.js";
import { inscribedCircle } from "./inscribedCircle.js";
import { type OpenShape, openMarch } from "./openMarch.js";
import { setLeft } from "./setLeft.js";
import { byHand, byPliers, type Held, onPlates } from "./spreadWays.js";

/** How the ring is spread: tips pulled apart by hand, bent open by ring pliers that grip its ends, or riding on the piston on thin plates. */
export type SpreadBy = "hand" | "pliers" | "plates";

export const spreadSchema = () =>
  v.strictObject({
    diameter: positive("length", "diameter that the ring must pass"),
    by: v.optional(
      v.pipe(
        v.picklist(["hand", "pliers", "plates"], 'must be "hand", "pliers" or "plates"'),
        v.description("tips pulled apart, ends bent apart, or riding on thin plates"),
      ),
      "hand",
    ),
    plate: v.optional(quantity("length", { min: 0, max: 10 }, "thickness of the plates"), 0),
    yieldStress: v.optional(positive("pressure", "yield stress of the ring; the material's if not given")),
  });

/** How far a ring is to be spread, and how: see docs/reference/inputs.md#spreading. */
export type SpreadOptions = v.InferInput<ReturnType<typeof spreadSchema>>;

/** A ring spread wide enough to pass a diameter. mm, N, MPa, radians. */
export interface Spread {
  /** As asked for. */
  readonly by: SpreadBy;
  /** As asked for. */
  readonly diameter: number;
  /** Pull on each tip, by hand; radial force under each tip, on plates. */
  readonly force?: number;
  /** On plates: how deep the sides of the ring would lie inside the cylinder; in truth they rest on it, and the stress is some per cent lower. */
  readonly overlap?: number;
  /** Couple on each end, N·mm, by pliers. */
  readonly couple?: number;
  /** Distance between the ends at mid wall while it is spread. */
  readonly tipGap: number;
  /** How much that is more than the free gap; 0 where the free ring passes. */
  readonly opened: number;
  /** Largest stress while it is spread and its place from the back; inner fibre in tension. */
  readonly stress: FibreStress & {
    /** Of either fibre, without sign. */
    readonly max: number;
    /** Where, radians from the back. */
    readonly theta: number;
  };
  /** Where a yield stress is given. */
  readonly yield?: {
    /** Largest stress over it. */
    readonly share: number;
    /** By how much wider the free gap stays; an estimate. */
    readonly set: number;
  };
  /** The spread ring's line from the left end to the right one, in the ring's frame: back at (0, −r), tangent +x. */
  readonly x: number[];
  /** As many. */
  readonly y: number[];
}

/** A diameter over the bore, at most. */
const WIDEST = 1.15;

/**
 * The opening a ring needs to pass over its piston, and the stress that costs, by the elastica of its true free shape: exact for any opening
 * within the bar theory.
 *
 * The ring passes where the diameter fits as a circle inside its inner face, ends included. By hand the tips are pulled apart along one line at
 * mid wall; pliers bend it by couples at both ends; on plates it touches the cylinder, plates included, with its tips and its back,
 * without friction; that its sides may rest on it, too, is left out, which errs on the safe side (see `overlap`). The set is an estimate: what Gardiner's relation leaves of each place's bending, as for springback, if the opening is forced.
 *
 * Method: docs/theory/09-sections-and-engine.md.
 *
 * @param ring a designed ring
 * @param options diameter to pass; how; plate thickness; yield stress
 * @throws SpecError when an option is out of range, or the halves differ and plates are asked for; NotFound with the residual when no equilibrium is
 * found
 *
 * @example
 * spreadRing(design, { diameter: 117.4 }).stress.max; // 644.5, MPa
 */
export function spreadRing(ring: RingDesign, options: SpreadOptions): Spread {
  const {
    diameter,
    by,
    plate,
    yieldStress = ring.spec.material.yieldStress,
  } = parse(spreadSchema, options, "options");
  const { spec, free } = ring;
  const widest = WIDEST * spec.bore;
  if (!(diameter <= widest)) {
    throw new SpecError("diameter", options.diameter, `must be at most ${widest} mm, 15 % over the bore`);
  }
  const march = openMarch(ring);
  const unloaded = march({ force: [0, 0], couple: 0, offset: 0 }, free.tangent[free.tangent.length - 1]);
  const inside = 2 * inscribedCircle(unloaded.inner).radius;
  /** What it must pass, plates included. */
  const needed = by === "plates" ? diameter + 2 * plate : diameter;
  if (inside >= needed) {
    return { ...spreadOf(ring, by, diameter, unloaded, {}, yieldStress), tipGap: free.gap, opened: 0 };
  }
  const how = { hand: byHand, pliers: byPliers, plates: onPlates }[by];
  const { shape, load } = how(ring, march, needed, (needed - inside) / 2);
  return spreadOf(ring, by, diameter, shape, load, yieldStress);
}

function spreadOf(
  ring: RingDesign,
  by: SpreadBy,
  diameter: number,
  shape: OpenShape,
  load: Held["load"],
  yieldStress: number | undefined,
): Spread {
  const { free, spec, wall, installed } = ring;
  const last = free.theta.length - 1;
  const stressAt = fibreStresses(spec, wall);
  let stress = { outer: 0, inner: 0, max: 0, theta: 0 };
  for (let k = 0; k <= last; k++) {
    const i = last - k;
    const { outer, inner } = stressAt(i, shape.moment[k], shape.normal[k], free.curvature[i]);
    const max = Math.max(Math.abs(outer), Math.abs(inner));
    if (max > stress.max * (1 + 1e-12)) stress = { outer, inner, max, theta: free.theta[i] };
  }
  const { left, right } = shape.middles;
  const tipGap = Math.hypot(right[0] - left[0], right[1] - left[1]);
  const back = last - free.theta.indexOf(0);
  // Into the ring's frame: back at (0, −r) with its tangent along +x.
  const [c, s] = [Math.cos(shape.tangent[back]), -Math.sin(shape.tangent[back])];
  const placed = shape.x.map((x, k) => {
    const [dx, dy] = [x - shape.x[back], shape.y[k] - shape.y[back]];
    return [dx * c - dy * s, dx * s + dy * c - installed.centroidRadius];
  });
  placed.reverse();
  return {
    by,
    diameter,
    ...load,
    tipGap,
    opened: tipGap - free.gap,
    stress,
    ...(yieldStress !== undefined && {
      yield: { share: stress.max / yieldStress, set: setLeft(ring, shape.bending, yieldStress) },
    }),
    x: placed.map(([x]) => x),
    y: placed.map(([, y]) => y),
  };
}
