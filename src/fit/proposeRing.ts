import { conformability } from "../assess/conformability.js";
import { designRing } from "../design/designRing.js";
import type { RingDesign } from "../design/ringDesign.js";
import { SpecError } from "../spec/error.js";
import { parse } from "../spec/issues.js";
import { growthAt } from "../spec/materialAt.js";
import type { Material } from "../spec/materials.js";
import { readMaterial } from "../spec/readMaterial.js";
import type { RingSpec } from "../spec/ringSpec.js";
import { type GrooveFit, grooveClearances } from "./grooveFit.js";
import { growthOf } from "./growth.js";
import { GAP_RULES, hotRing } from "./hotRing.js";
import { type Order, orderSchema, type RingOrder } from "./orderSchema.js";
import { spreadRing } from "./spreadRing.js";

/** One limit, with what the proposal reaches. */
export interface LimitMet {
  /** What is limited, with its unit. */
  readonly limit: string;
  /** What the proposal reaches, in that unit. */
  readonly value: number;
  /** What would be good, in words. */
  readonly allowed: string;
  /** Whether it is. */
  readonly met: boolean;
  /** Where the limit comes from. */
  readonly source: string;
}

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
  /** Gap at working temperature, where temperatures are given. */
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

const ZEYNETDINOV = "usual range, Zeynetdinov, Dyakov & Yarygin, p. 90";
const PRACTICE = "common practice, no source";
/** Mean pressures of compression rings, MPa; largest usual closing and fitting stress, MPa. */
const USUAL = { pressure: [0.11, 0.37] as const, closing: 450, fitting: 500 };
/** Walls looked at where no stock is given: bore over wall. */
const WALLS = [20, 22, 24, 26, 28, 30];
/** Pressures looked at, from the highest down. */
const PRESSURES = 6;
const CLEARANCE = 0.04;
const FRICTION = 0.1;
/** Stations of the trials; proposals are computed again with the default. */
const TRIAL_STATIONS = 48;

/**
 * Proposes rings for a groove: complete specs, ranked. For each material and section the highest pressure of the range whose limits are all
 * met is taken, or the lowest one if there is none. Proposals with fewer limits missed come first, then those that follow a four-lobed bore
 * further. The same order gives the same list.
 *
 * Method: docs/theory/09-sections-and-engine.md.
 *
 * @param input bore, piston and groove, materials; closed gap or duty; stock of wires, range of pressures, heat
 * @returns at most `most` proposals
 * @throws SpecError when a value is out of range, neither gap nor duty is given, or no section fits the groove
 * @throws NotFound when an equilibrium is not found
 *
 * @example
 * const piston = { diameter: 117.4, groove: { width: 2.05, depth: 5.2 } };
 * proposeRing({ bore: 118, piston, materials: ["EN-GJS-500-7"], duty: "air-cooled or high load", most: 1 })[0].missed; // 1
 */
export function proposeRing(input: RingOrder): Proposal[] {
  const order = parse(orderSchema, input);
  const { bore, piston, materials, contactPressure = USUAL.pressure, most } = order;
  const [lowest, highest] = contactPressure;
  if (!(lowest <= highest)) {
    throw new SpecError(
      "contactPressure",
      input.contactPressure,
      "must be [smallest, largest], in that order",
    );
  }
  const closedGap = closedGapOf(order);
  const sections = sectionsOf(order);
  const pressures =
    lowest === highest
      ? [lowest]
      : Array.from({ length: PRESSURES }, (_, k) => highest - ((highest - lowest) * k) / (PRESSURES - 1));
  const found: { candidate: Candidate; proposal: Proposal }[] = [];
  for (const [k, given] of materials.entries()) {
    const material = readMaterial(given, `materials.${k}`);
    for (const section of sections) {
      const trials = pressures.map((pressure) => ({ bore, closedGap, section, material, pressure }));
      const best = bestOf(trials, order);
      if (best) found.push(best);
    }
  }
  if (found.length === 0) {
    throw new SpecError(
      "piston.groove",
      piston.groove,
      "leaves room for none of the sections, or no ring of them can be that strong",
    );
  }
  found.sort(
    ({ proposal: one }, { proposal: other }) =>
      one.missed - other.missed || other.followsFourLobes - one.followsFourLobes,
  );
  // Again with all stations; only a limit met or missed by a hair could come out otherwise, and then is shown so.
  return found.slice(0, most).map(({ candidate }) => proposalOf(candidate, order) as Proposal);
}

/** The first of some candidates, from the strongest down, that meets all limits; else the last that can be made. */
function bestOf(candidates: readonly Candidate[], order: Order) {
  let last: { candidate: Candidate; proposal: Proposal } | undefined;
  for (const [k, candidate] of candidates.entries()) {
    const trial = { ...candidate, stations: TRIAL_STATIONS };
    // Spreading is dear; a ring overstressed by closing alone need not be spread unless it is the last.
    const weakest = k === candidates.length - 1;
    const proposal = proposalOf(trial, order, !weakest);
    if (!proposal) continue;
    last = { candidate, proposal };
    if (proposal.missed === 0) return last;
  }
  return last;
}

type Section = { radialThickness: number; axialHeight: number };

function closedGapOf({ closedGap, duty, bore }: Order): number {
  if (closedGap !== undefined && duty !== undefined) {
    throw new SpecError("duty", duty, "must be left out where closedGap is given");
  }
  if (closedGap !== undefined) return closedGap;
  const rule = GAP_RULES.find((one) => one.duty === duty);
  if (!rule) throw new SpecError("closedGap", undefined, "must be given, or a duty for a first value");
  // To a hundredth of a millimetre, as gaps are ordered.
  return Math.ceil(rule.gapPerBore * bore * 100 - 1e-9) / 100;
}

function sectionsOf({ stock, bore, piston, axialClearance = CLEARANCE }: Order): Section[] {
  if (stock) return stock;
  const axialHeight = piston.groove.width[0] - axialClearance;
  if (!(axialHeight > 0)) {
    throw new SpecError(
      "axialClearance",
      axialClearance,
      `must be less than the groove's width, ${piston.groove.width[0]} mm`,
    );
  }
  return WALLS.map((share) => ({ radialThickness: Math.round((bore / share) * 100) / 100, axialHeight }));
}

interface Candidate {
  readonly bore: number;
  readonly closedGap: number;
  readonly section: Section;
  readonly material: Material;
  readonly pressure: number;
  readonly stations?: number;
}

/** A candidate with its limits; none where no such ring exists or, if that is enough, where closing overstresses it. */
function proposalOf(candidate: Candidate, order: Order, soundOnly = false): Proposal | undefined {
  const { pressure, bore, section, material, closedGap, stations } = candidate;
  const design = designed({
    bore,
    closedGap,
    section,
    material,
    load: { contactPressure: pressure },
    ...(stations && { stations }),
  });
  if (!design) return undefined;
  const [hotFit, coldFit] = [growths(order, material), { ring: 1, piston: 1, bore: 1 }].map((growth) =>
    grooveClearances(order.piston, {
      bore: order.heat?.bore.diameter ?? [bore, bore],
      wall: [section.radialThickness, section.radialThickness],
      height: [section.axialHeight, section.axialHeight],
      growth,
    }),
  );
  // A ring that does not go into its groove, cold or hot, is no proposal.
  const fits = ({ axialClearance, backClearance, sink }: GrooveFit) =>
    axialClearance[0] > 0 && backClearance[0] >= 0 && sink[0] >= 0;
  if (!fits(hotFit) || !fits(coldFit)) return undefined;
  const closing = design.stress.closing.max;
  const closingLimit = atMost("closing stress, MPa", closing, material.stressLimit, USUAL.closing);
  if (soundOnly && !closingLimit.met) return undefined;
  const fitting = spreadRing(design, { diameter: order.piston.diameter[1] }).stress.max;
  const hot = order.heat && hotRing(design, order.heat);
  const limits: LimitMet[] = [
    closingLimit,
    atMost("fitting stress by hand, MPa", fitting, material.yieldStress, USUAL.fitting),
    between("contact pressure, MPa", pressure, order.contactPressure),
  ];
  if (hot) {
    limits.push({
      limit: "gap when hot, mm",
      value: hot.closedGap,
      allowed: `above ${order.heat?.keepGap ?? 0}, cold at least ${hot.smallestColdGap.toFixed(3)}`,
      met: hot.closedGap > (order.heat?.keepGap ?? 0) && closedGap >= hot.smallestColdGap,
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

function growths({ heat, piston }: Order, material: Material) {
  return {
    ring: heat ? growthAt(material, heat.ring.temperature, "heat.ring", "materials") : 1,
    // Without the others' temperatures a warm piston alone would mislead.
    piston: heat ? growthOf(piston, "piston") : 1,
    bore: heat ? growthOf(heat.bore, "heat.bore") : 1,
  };
}

function atMost(limit: string, value: number, own: number | undefined, usual: number): LimitMet {
  const most = own ?? usual;
  return {
    limit,
    value,
    allowed: `at most ${most}`,
    met: value <= most,
    source: own === undefined ? `upper end of the ${ZEYNETDINOV}` : "the material's",
  };
}

function between(limit: string, value: number, own: readonly [number, number] | undefined): LimitMet {
  const [least, most] = own ?? USUAL.pressure;
  const slack = 1e-9 * most;
  return {
    limit,
    value,
    allowed: `${least} to ${most}`,
    met: value >= least - slack && value <= most + slack,
    source: own ? "as ordered" : ZEYNETDINOV,
  };
}

/** Where the numbers that rank proposals come from, for reports. */
export const PROPOSAL_NOTES: readonly string[] = [
  `height: groove less ${CLEARANCE} mm where no clearance is given (${PRACTICE})`,
  `closed gap by duty: a share of the bore (${PRACTICE}; from memory)`,
  `walls: bore/20 to bore/30 where no stock is given (${PRACTICE})`,
  `friction: coefficient ${FRICTION} (${PRACTICE}; from memory), pressure from behind the ring not counted`,
];
