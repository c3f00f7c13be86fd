import { closeInBore } from "../contact/closeInBore.js";
import { type ClosedBody, closedBody, freeShape, type GivenRing } from "../contact/givenRing.js";
import { NoContact } from "../contact/noContact.js";
import { designRing } from "../design/designRing.js";
import { wallStations } from "../design/wallTable.js";
import { joined } from "../forces/mirror.js";
import { tapeTest } from "../gauge/tapeTest.js";
import { interpolateTable } from "../numeric/interpolateTable.js";
import { smoothRuns } from "../numeric/smoothRuns.js";
import { trapezoidShares } from "../numeric/trapezoid.js";
import type { RingSpec } from "../spec/ringSpec.js";
import type { RingSpecInput } from "../spec/schema.js";
import { closingStress } from "../stress/closing.js";
import type { Factor } from "./factors.js";
import { OUTCOMES, type Outcome } from "./variationSchema.js";

/** What came of a variant: its outcomes in the order of {@link Outcome}, or why there are none: its ends would meet, or it is loose in its bore. */
export type VariantOutcome = readonly number[] | "butts" | "loose";

/** Angle from either end within which the pressure is the ends' own matter, radians. */
const BY_THE_ENDS = (10 * Math.PI) / 180;

/** Share of the opening by which it is tried what more of it does to the free gap. */
const TRIAL = 1e-3;

/** Deviations from nominal: of single dimensions, and amplitudes of waves. */
type Deviations = Partial<Record<string, number>>;

/**
 * Rings made to one drawing, each a little otherwise, in bores a little otherwise. The wire is bent as the drawing says, to the same curvature
 * at the same length from the back; its wall and height, its modulus, its length and its opening are its own.
 *
 * @param input the spec as drawn
 * @param factors what differs
 * @param sensitivity narrowest slit that shows light, mm
 * @returns outcomes for a set of deviations, one a factor
 */
export function variantsOf(
  input: RingSpecInput,
  factors: readonly Factor[],
  sensitivity: number,
): (deviations: readonly number[]) => VariantOutcome {
  const drawn = designRing(input);
  const { spec, free, installed } = drawn;
  const closed = 1 / installed.centroidRadius;
  /** @param more share by which it is bent farther open all along */
  const variant = (deviations: Deviations, more: number) => {
    const { own, body } = bodyOf(spec, deviations);
    const theta = joined({ left: body.stations.theta, right: body.stations.theta }, -1);
    const bent = alongWire(free, theta, body.geometry.centroidRadius / installed.centroidRadius);
    const curvature = theta.map((angle, i) => {
      const value = bent[i] + more * (bent[i] - closed);
      let radius = 1 / value;
      for (const { name, order, phase = 0 } of factors) {
        if (order === undefined || !name.startsWith("bendRadius")) continue;
        radius += (deviations[name] ?? 0) * Math.cos(order * angle - phase);
      }
      return 1 / radius;
    });
    const wall = body.wall.plain ? undefined : wallStations(body.bars, own.section.slots);
    const ring: GivenRing = { spec: own, free: { theta, curvature }, ...(wall && { wall }) };
    return { ring, body };
  };
  /** Ft over what the theory of small openings says is nearly the same for all variants. */
  const nominal = variant({}, 0);
  const exactness = tapeTest(nominal.ring).force / smallOpeningForce(nominal.ring, nominal.body);

  const [less, more] = [-TRIAL, TRIAL]
    .map((share) => variant({}, share))
    .map(({ ring, body }) => freeShape(ring.free.curvature, body).gap);
  const gapToShare = (more - less) / (2 * TRIAL);

  return (values) => {
    const deviations: Deviations = Object.fromEntries(factors.map(({ name }, i) => [name, values[i]]));
    const { ring, body } = variant(deviations, (deviations.freeGap ?? 0) / gapToShare);
    const { centroidRadius } = body.geometry;
    const lobes = factors.flatMap(({ name, order = 0, phase = 0 }, i) =>
      name.startsWith("lobes") && order > 0 ? [{ order, amplitude: values[i], phase }] : [],
    );
    const closure = whatComes(() =>
      closeInBore(ring, { diameter: spec.bore + (deviations.bore ?? 0), harmonics: lobes }, { sensitivity }),
    );
    if (typeof closure === "string") return closure;
    if (closure.endsTouch) return "butts";
    const { theta, pressure, moment } = closure;
    // The contact's nodes stand at equal steps; where the section jumps the ring's stations do not.
    const reach = theta[theta.length - 1] / ring.free.theta[ring.free.theta.length - 1];
    const M =
      theta.length !== ring.free.theta.length || ring.wall
        ? interpolateTable(
            theta,
            moment,
            ring.free.theta.map((angle) => reach * angle),
          )
        : moment;
    const forces = { theta: ring.free.theta, moment: M, normal: M.map((value) => -value / centroidRadius) };
    // At the ends forces stand on points, which no mesh spreads.
    const along = pressure.filter((_, i) => Math.abs(theta[i]) < theta[theta.length - 1] - BY_THE_ENDS);
    const outcomes: Record<Outcome, number> = {
      tangentialForce: exactness * smallOpeningForce(ring, body),
      freeGap: freeShape(ring.free.curvature, body).gap,
      closedGap: closure.closedGap,
      lowestPressure: Math.min(...along),
      highestPressure: Math.max(...along),
      contactShare: closure.contactShare,
      closingStress: closingStress(ring.spec, forces, ring.free.curvature, ring.wall).max,
    };
    return OUTCOMES.map((outcome) => outcomes[outcome]);
  };
}

/** The spec with its own dimensions. */
function bodyOf(spec: RingSpec, deviations: Deviations): { own: RingSpec; body: ClosedBody } {
  const { section, material, bore } = spec;
  const closedGap = spec.closedGap + (deviations.closedGap ?? 0);
  const own: RingSpec = {
    ...spec,
    // A ring too long for its bore is told by the wider one that its ends would just meet in.
    bore: closedGap < 0 ? bore - closedGap / Math.PI : bore,
    closedGap: Math.max(0, closedGap),
    section: {
      ...section,
      radialThickness: section.radialThickness + (deviations.radialThickness ?? 0),
      axialHeight: section.axialHeight + (deviations.axialHeight ?? 0),
    },
    material: { ...material, youngsModulus: material.youngsModulus + (deviations.youngsModulus ?? 0) },
  };
  return { own, body: closedBody(own) };
}

/**
 * Curvature of the drawn wire at the stations of another ring, at the same length from the back; beyond its ends it goes on as there. Jumps at
 * the ends of slotted zones stay with the zones.
 *
 * @param scale of the stations' angles in the drawn ring's
 */
function alongWire(free: GivenRing["free"], theta: readonly number[], scale: number): number[] {
  const drawn = smoothRuns(free.theta);
  return smoothRuns(theta).flatMap(([first, last]) => {
    // The drawn run that its middle lies in; a cut may have taken one away.
    const middle = (scale * (theta[first] + theta[last])) / 2;
    const [from, to] = drawn.find(([, end]) => middle <= free.theta[end]) ?? drawn[drawn.length - 1];
    const [t, f] = [free.theta, free.curvature].map((values) => values.slice(from, to + 1));
    const places = theta
      .slice(first, last + 1)
      .map((angle) => Math.max(t[0], Math.min(t[t.length - 1], scale * angle)));
    return interpolateTable(t, f, places);
  });
}

/** Pull of a tape that closes the ring to its closed gap, by the theory of small openings, N. */
function smallOpeningForce({ free }: GivenRing, { geometry, stations, bars }: ClosedBody): number {
  const { centroidRadius: r } = geometry;
  const last = stations.theta.length - 1;
  const steps = trapezoidShares(stations.theta);
  let [opening, yielding] = [0, 0];
  for (const side of ["left", "right"] as const) {
    for (let i = 0; i <= last; i++) {
      const lever = 1 + stations.cosine[i];
      opening += steps[i] * lever * (1 / r - free.curvature[side === "right" ? last + i : last - i]);
      yielding += steps[i] * lever * lever * r * bars[side].laws[i].flexibility;
    }
  }
  return opening / yielding;
}

/** A ring that cannot enter its bore, or lies loose in it, is an outcome, not an error. */
function whatComes<T>(close: () => T): T | NoContact["reason"] {
  try {
    return close();
  } catch (error) {
    if (error instanceof NoContact) return error.reason;
    throw error;
  }
}
