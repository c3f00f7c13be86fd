import type { Conformability } from "../assess/conformability.js";
import type { PressureDescription } from "../assess/describePressure.js";
import type { RingDesign } from "../design/ringDesign.js";
import type { PressureSpec } from "../spec/ringSpec.js";
import { degrees, inches, inMicrometres, millimetres, newtons, place, type Row } from "./layout.js";

/** The wanted pressure in a few words. */
export function pressureInWords(pressure: PressureSpec): string {
  switch (pressure.shape) {
    case "uniform":
      return "uniform pressure";
    case "moreAtGap":
      return `more pressure at the gap, strength ${pressure.strength}`;
    case "lessAtGap":
      return `less pressure at the gap, strength ${pressure.strength}`;
    case "harmonics":
      return `pressure by harmonics up to order ${Math.max(pressure.cosine.length, pressure.sine?.length ?? 0) + 1}`;
    case "sampled":
      return `pressure through ${pressure.angle.length} samples`;
  }
}

/** Wall and slots, where they are not plain. */
export function wallRows({ spec, wall }: RingDesign): Row[] {
  const rows: Row[] = [];
  const { slots } = spec.section;
  if (wall && spec.section.wall) {
    const [thinnest, thickest] = [Math.min(...wall.thickness), Math.max(...wall.thickness)];
    rows.push(
      ["wall along the ring, thinnest", millimetres(thinnest), inches(thinnest)],
      ["wall along the ring, thickest", millimetres(thickest), inches(thickest)],
    );
  }
  if (wall && slots) {
    const share = Math.max(...wall.netShare);
    rows.push(
      [
        "inner slots",
        `${slots.count} ×`,
        `${slots.depth} mm deep, ${slots.width} mm wide, from ${degrees(slots.from)} to ${degrees(slots.to)}`,
      ],
      [
        "share of the net section in the flexibility",
        share.toFixed(3),
        "0 as unslotted, 1 as if slotted through",
      ],
    );
  }
  return rows;
}

/** What the pressure is like. */
export function pressureRows({ relative, lowest, highest, harmonics, tape }: PressureDescription): Row[] {
  const share = (value: number) => value.toFixed(4);
  const content = harmonics
    .filter(({ order, cosine, sine }) => order >= 2 && Math.hypot(cosine, sine) >= 0.01)
    .map(({ order, cosine, sine }): Row => {
      const alsoSine = Math.abs(sine) < 5e-5 ? "" : `, sine ${share(sine)}`;
      return [`harmonic ${order} over the mean`, share(cosine), `cosine, θ from the back${alsoSine}`];
    });
  return [
    ["at the back, over the mean", share(relative.atBack)],
    ...(Math.abs(relative.atLeftEnd - relative.atRightEnd) < 5e-5
      ? ([["at the gap, over the mean", share(relative.atGap)]] as Row[])
      : ([
          ["at the right end, over the mean", share(relative.atRightEnd)],
          ["at the left end, over the mean", share(relative.atLeftEnd)],
        ] as Row[])),
    ["lowest, over the mean", share(lowest.relative), place(lowest.theta)],
    ["highest, over the mean", share(highest.relative), place(highest.theta)],
    ...content,
    ["pull of a tape that closes it, small openings", newtons(tape.tangentialForce)],
    ["ovality in that tape, small openings", millimetres(tape.ovality), "through the gap minus across"],
  ];
}

/** Limits for the lower orders, in µm. */
export function conformabilityRows({ limits }: Conformability): Row[] {
  return limits
    .filter(({ order }) => order <= 8)
    .map(({ order, fullContact, semiEmpirical }) => [
      `order ${order}`,
      inMicrometres(fullContact),
      `semi-empirical ${inMicrometres(semiEmpirical)}`,
    ]);
}
