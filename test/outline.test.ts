import { test as property } from "@fast-check/vitest";
import { describe, expect, test } from "vitest";
import { designRing, type Point, type RingDesign } from "../src/index.js";
import { backOf, DEMO_RINGS, EXTREME_RINGS, relativeError, runs, sensibleRing, withK } from "./rings.js";

/** The free body's faces, and its ends as a gap-cutting machine must make them. */

const minus = ([ax, ay]: Point, [bx, by]: Point): Point => [ax - bx, ay - by];
const cross = ([ax, ay]: Point, [bx, by]: Point) => ax * by - ay * bx;

/** Right end of the free ring: its point on the centroid line and the corners of its face. */
function rightEnd({ free, outline }: RingDesign): { end: Point; outer: Point; inner: Point } {
  const last = free.x.length - 1;
  return {
    end: [free.x[last], free.y[last]],
    outer: outline.outer[outline.outer.length - 1],
    inner: outline.inner[outline.inner.length - 1],
  };
}

describe("the faces of any sensible ring", () => {
  property.prop([sensibleRing], runs(60))("stand off the centroid line by a/2, along its normal", (spec) => {
    const design = designRing(spec);
    const { x, y, tangent } = design.free;
    const back = backOf(design);
    const half = spec.section.radialThickness / 2;
    // A few roundings of coordinates of the size of the bore.
    const rounding = 4e-16 * spec.bore;
    for (const [face, side] of [
      [design.outline.outer, 1],
      [design.outline.inner, -1],
    ] as const) {
      const middle = (face.length - 1) / 2;
      let worst = 0;
      for (let i = 1; i < face.length - 1; i++) {
        const at = back + i - middle;
        const [dx, dy] = minus(face[i], [x[at], y[at]]);
        // Outward is to the right of the direction of travel: (sin ψ, −cos ψ).
        worst = Math.max(
          worst,
          Math.abs(dx - side * half * Math.sin(tangent[at])),
          Math.abs(dy + side * half * Math.cos(tangent[at])),
        );
      }
      expect(worst).toBeLessThan(rounding);
    }
  });

  property.prop([sensibleRing], runs(60))("run forward all the way into their corners", (spec) => {
    const { outline } = designRing(spec);
    for (const face of [outline.outer, outline.inner]) {
      let heading = minus(face[1], face[0]);
      let [leastAdvance, leastBend] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
      for (let i = 2; i < face.length; i++) {
        const next = minus(face[i], face[i - 1]);
        leastAdvance = Math.min(leastAdvance, next[0] * heading[0] + next[1] * heading[1]);
        leastBend = Math.min(leastBend, cross(heading, next));
        heading = next;
      }
      // No step goes back, and every bend is to the left.
      expect(leastAdvance).toBeGreaterThan(0);
      expect(leastBend).toBeGreaterThan(-1e-15 * spec.bore ** 2);
    }
  });
});

describe("the cut of any sensible ring", () => {
  property.prop([sensibleRing], runs(60))("is straight through the end of the centroid line", (spec) => {
    const design = designRing(spec);
    const { end, outer, inner } = rightEnd(design);
    const [toOuter, toInner] = [minus(outer, end), minus(inner, end)];
    const a = spec.section.radialThickness;
    const coordinate = 4e-16 * spec.bore;
    expect(Math.abs(cross(toOuter, toInner))).toBeLessThan(2 * a * coordinate);
    expect(toOuter[0] * toInner[0] + toOuter[1] * toInner[1]).toBeLessThan(0);
    // Worked: corners on the circles ρ ± a/2 about the local centre, on a line that passes it at ρ·sin δ.
    const rho = 1 / design.free.curvature[0];
    const arm = rho * Math.sin(design.ends.faceToNormal);
    const middle = Math.sqrt(rho ** 2 - arm ** 2);
    const reach = (offset: number) => Math.abs(Math.sqrt((rho + offset) ** 2 - arm ** 2) - middle);
    // Difference of lengths of the size of ρ.
    expect(Math.abs(Math.hypot(...toOuter) - reach(a / 2))).toBeLessThan(4 * coordinate);
    expect(Math.abs(Math.hypot(...toInner) - reach(-a / 2))).toBeLessThan(4 * coordinate);
  });

  property.prop([sensibleRing], runs(60))("stands at faceToAxis to the axis, wider outside", (spec) => {
    const design = designRing(spec);
    const { outer, inner } = rightEnd(design);
    const [dx, dy] = minus(outer, inner);
    // Rounding of the corners over the length of the face.
    const rounding = (1e-15 * spec.bore) / spec.section.radialThickness;
    expect(Math.abs(Math.atan2(dx, dy) - design.ends.faceToAxis)).toBeLessThan(rounding);
    // From the section normal, which points to (sin ψ, −cos ψ), it is δ ahead.
    const psi = design.free.tangent[design.free.tangent.length - 1];
    const ahead = Math.PI - psi - Math.atan2(dx, dy);
    expect(Math.abs(Math.abs(ahead) - design.ends.faceToNormal)).toBeLessThan(rounding + 1e-15);
  });

  property.prop([sensibleRing], runs(60))("turns parallel to the axis when the ring closes", (spec) => {
    const { ends, free, installed } = designRing(spec);
    const last = free.theta.length - 1;
    // Closed, the tangent at θC is θC itself.
    expect(Math.abs(ends.turn - (free.tangent[last] - free.theta[last]))).toBeLessThan(1e-15 * Math.PI);
    expect(ends.turn).toBeLessThan(0);
    expect(ends.faceToAxis).toBe(-ends.turn);
    const { closedGap: s, section } = spec;
    const r = installed.centroidRadius;
    // A face parallel to the axis at s/2 from it meets the radius at θC under asin((s/2)/r).
    expect(Math.abs(ends.faceToNormal - Math.asin(s / 2 / r))).toBeLessThan(1e-16);
    // Cut square, both faces lie on radii at θC: gaps 2·(r ± a/2)·sin(π − θC).
    const gapAt = (radius: number) => 2 * radius * Math.sin(Math.PI - free.theta[last]);
    const wedge = gapAt(r + section.radialThickness / 2) - gapAt(r - section.radialThickness / 2);
    expect(Math.abs(ends.wedgeIfSquare - wedge)).toBeLessThan(4e-16 * spec.bore);
    expect(Math.abs(ends.wedgeIfSquare - (section.radialThickness * s) / r)).toBeLessThan(1e-15 * s + 1e-300);
  });
});

test("the end of a uniform thin ring with closed gap turns by π·K", () => {
  // From ψ(θ) = θ − K·(θ + sin θ) at θ = π.
  const { load: _, ...ferry } = DEMO_RINGS["ferry 118 mm"];
  const { ends } = designRing(withK({ ...ferry, closedGap: 0, theory: "thin" }, 0.02));
  expect(relativeError(ends.faceToAxis, 0.02 * Math.PI)).toBeLessThan(1e-13);
  expect(ends.faceToNormal).toBe(0);
  expect(ends.wedgeIfSquare).toBe(0);
});

test.each(EXTREME_RINGS)("the outline of the ring '%s' has finite points only", (_name, spec) => {
  const { outline } = designRing({ ...spec, stations: 16 });
  for (const point of [...outline.outer, ...outline.inner]) {
    expect(point.map(Number.isFinite)).toEqual([true, true]);
  }
});
