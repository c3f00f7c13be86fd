import { conformability } from "../assess/conformability.js";
import { designRing } from "../design/designRing.js";
import type { RingDesign } from "../design/ringDesign.js";
import { SpecError } from "../spec/error.js";
import type { Material } from "../spec/materials.js";
import type { RingSpec } from "../spec/ringSpec.js";
import { faultOf, type GrooveFit, grooveClearances } from "./grooveClearances.js";
import { COLD, growths } from "./growth.js";
import { warmRing } from "./hotRing.js";
import { atMost, between, type LimitMet, USUAL } from "./limitMet.js";
import type { Order } from "./orderSchema.js";
import { spreadRing } from "./spreadRing.js";

/** A complete spec, and the numbers that rank it. mm, N, MPa. */
export interface Proposal {
  /** For `designRing`. */
  readonly spec: RingSpec;
  /** p₀. */
  readonly contactPressure: number;
  /** Ft. */
  readonly tangentialForce: number;
  /** Between the ends at mid wall, free. */
  readonly freeGap: number;
  /** Largest in the closed ring. */
  readonly closingStress: number;
  /** Spread by hand over the piston. */
  readonly fittingStress: number;
  /** Amplitude of a four-lobed bore that it follows all round. */
  readonly followsFourLobes: number;
  /** Gap at working temperature in the smallest bore, where temperatures are given. */
  readonly closedGapHot?: number;
  /** Axial friction at a coefficient of 0.1, N: 2π·0.1·Ft. */
  readonly friction: number;
  /** Hot where temperatures are given, else cold. */
  readonly groove: GrooveFit;
  /** Every limit looked at, met or not. */
  readonly limits: readonly LimitMet[];
  /** How many limits are not met. */
  readonly missed: number;
}

/** Coefficient between face and bore. */
export const FRICTION = 0.1;

type Section = { radialThickness: number; axialHeight: number };

/** A ring that is tried for an order. mm, MPa. */
export interface Candidate {
  readonly bore: number;
  readonly closedGap: number;
  readonly section: Section;
  readonly material: Material;
  readonly pressure: number;
  readonly stations?: number;
}

/** A candidate with its limits; none where no such ring exists or, if that is enough, where closing overstresses it. */
export function proposalOf(candidate: Candidate, order: Order, soundOnly = false): Proposal | undefined {
  const { pressure, bore, section, material, closedGap, stations } = candidate;
  const { piston, heat } = order;
  const { radialThickness: wall, axialHeight: height } = section;
  // Without the others' temperatures a warm piston alone would mislead.
  const warm = heat ? growths(heat, piston, material, "materials") : COLD;
  const [hotFit, coldFit] = [warm, COLD].map((growth) =>
    grooveClearances(piston, {
      bore: heat?.bore.diameter ?? [bore, bore],
      wall: [wall, wall],
      height: [height, height],
      growth,
    }),
  );
  // A ring that does not go into its groove, cold or hot, is no proposal.
  if (faultOf(hotFit) || faultOf(coldFit)) return undefined;
  const design = designed({
    bore,
    closedGap,
    section,
    material,
    load: { contactPressure: pressure },
    ...(stations && { stations }),
  });
  if (!design) return undefined;
  const closing = design.stress.closing.max;
  const closingLimit = atMost("closing stress, MPa", closing, material.stressLimit, USUAL.closing);
  if (soundOnly && !closingLimit.met) return undefined;
  const hot = heat && warmRing(design, heat, "heat.", "materials");
  const fitting = spreadRing(design, { diameter: piston.diameter[1] }).stress.max;
  const limits: LimitMet[] = [
    closingLimit,
    atMost("fitting stress by hand, MPa", fitting, material.yieldStress, USUAL.fitting),
    between("contact pressure, MPa", pressure, order.contactPressure),
  ];
  if (hot) {
    const { keepGap } = heat;
    limits.push({
      limit: "gap when hot, mm",
      value: hot.closedGap,
      allowed: `above ${keepGap}, cold at least ${hot.smallestColdGap.toFixed(3)}`,
      met: hot.closedGap > keepGap && closedGap >= hot.smallestColdGap,
      source: "computed from the temperatures given",
    });
  }
  const tangentialForce = design.load.tangentialForce;
  return {
    spec: design.spec,
    contactPressure: pressure,
    tangentialForce,
    freeGap: design.free.gap,
    closingStress: closing,
    fittingStress: fitting,
    followsFourLobes: conformability(design, [4]).limits[0].fullContact,
    ...(hot && { closedGapHot: hot.closedGap }),
    friction: 2 * Math.PI * FRICTION * tangentialForce,
    groove: hotFit,
    limits,
    missed: limits.filter(({ met }) => !met).length,
  };
}

function designed(spec: Parameters<typeof designRing>[0]): RingDesign | undefined {
  try {
    return designRing(spec);
  } catch (error) {
    // A wall too thick for its bore or a load too large for its wall; anything else is not the candidate's fault.
    if (error instanceof SpecError && /^(load|section)\b/.test(error.field)) return undefined;
    throw error;
  }
}
