import { describe, expect, test } from "vitest";
import { designRing, endsInBand, type RingSpecInput, SpecError } from "../src/index.js";
import { DEMO_RINGS } from "./rings.js";

const FERRY: RingSpecInput = DEMO_RINGS["ferry 118 mm"];

describe("endsInBand", () => {
  test("gives the free ends when the ring is held at its free gap", () => {
    const design = designRing(FERRY);
    const held = endsInBand(design, design.free.gap);
    expect(held.pull).toBeCloseTo(0, 9);
    expect(held.turn).toBeCloseTo(design.ends.turn, 12);
  });

  test("closes a ring without a gap by the tangential force, its faces parallel", () => {
    // A band round a circle presses uniformly with T/(h·R), which is the design pressure as the gap goes to 0;
    // the pull is then Ft by its definition (ISO 6621-2, from memory).
    for (const theory of ["thin", "curved"] as const) {
      const design = designRing({ ...FERRY, closedGap: 0, theory });
      const held = endsInBand(design, 0);
      expect(held.pull / design.load.tangentialForce).toBeCloseTo(1, 10);
      expect(held.turn).toBeCloseTo(0, 10);
    }
  });

  test("turns the ends in proportion to the opening for a small opening", () => {
    // Linear bending: half open, half the pull, half the turn. The error of that is of the order of K.
    const design = designRing({ ...FERRY, closedGap: 0, load: { contactPressure: 0.0015 } });
    const held = endsInBand(design, design.free.gap / 2);
    expect(held.pull / design.load.tangentialForce).toBeCloseTo(0.5, 3);
    expect(held.turn / design.ends.turn).toBeCloseTo(0.5, 3);
  });

  test("opens the faces the more, and pulls the less, the wider the ring is held", () => {
    for (const load of [{ contactPressure: 0.15 }, { contactPressure: 1.5 }]) {
      const design = designRing({ ...FERRY, load });
      const { gap } = design.free;
      const held = [0.02, 0.2, 0.4, 0.6, 0.8, 1].map((share) =>
        endsInBand(design, 0.45 + share * (gap - 0.45)),
      );
      for (let i = 1; i < held.length; i++) {
        expect(held[i].turn).toBeLessThan(held[i - 1].turn);
        expect(held[i].pull).toBeLessThan(held[i - 1].pull);
      }
    }
  });

  test.each([NaN, 0.4, -1, 11.2, Infinity])(
    "refuses an opening of %s mm with the range that is allowed",
    (gap) => {
      const design = designRing(FERRY);
      expect(() => endsInBand(design, gap)).toThrow(SpecError);
      expect(() => endsInBand(design, gap)).toThrow(/from the closed gap 0\.45 to the free gap 11\.11/);
    },
  );
});
