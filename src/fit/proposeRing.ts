import { SpecError } from "../spec/error.js";
import { parse } from "../spec/issues.js";
import { readMaterial } from "../spec/readMaterial.js";
import { type Candidate, FRICTION, type Proposal, proposalOf } from "./candidate.js";
import { GAP_RULES } from "./gapRules.js";
import { USUAL } from "./limitMet.js";
import { type Order, orderSchema, type RingOrder } from "./orderSchema.js";

const PRACTICE = "common practice, no source";
/** Walls looked at where no stock is given: bore over wall. */
const WALLS = [20, 22, 24, 26, 28, 30];
/** Pressures looked at, from the highest down. */
const PRESSURES = 6;
const CLEARANCE = 0.04;
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
 * @throws SpecError when a value is out of range, neither gap nor duty is given, the piston does not go into the bore, or no section fits the groove
 * @throws NotFound when an equilibrium is not found
 *
 * @example
 * const piston = { diameter: 117.4, groove: { width: 2.05, depth: 5.2 } };
 * proposeRing({ bore: 118, piston, materials: ["EN-GJS-500-7"], duty: "air-cooled or high load", most: 1 })[0].missed; // 1
 */
export function proposeRing(input: RingOrder): Proposal[] {
  const order = parse(orderSchema, input, "order");
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

function sectionsOf({ stock, bore, piston, axialClearance = CLEARANCE }: Order): Candidate["section"][] {
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

/** Where the numbers that rank proposals come from, for reports. */
export const PROPOSAL_NOTES: readonly string[] = [
  `height: groove less ${CLEARANCE} mm where no clearance is given (${PRACTICE})`,
  `closed gap by duty: a share of the bore (${PRACTICE}; from memory)`,
  `walls: bore/20 to bore/30 where no stock is given (${PRACTICE})`,
  `friction: coefficient ${FRICTION} (${PRACTICE}; from memory), pressure from behind the ring not counted`,
];
