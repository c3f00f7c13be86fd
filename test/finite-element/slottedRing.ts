import type { RingDesign } from "../../src/index.js";
import { type Grid, graded, halfFace, middleAt } from "./mesh.js";

/**
 * Mesh of a half ring with its slots cut out: equal slots all along the ring, an even number of them, so that the
 * back is half-way between two. Their sides are parallel.
 *
 * @param design of a slotted ring of even wall
 * @param finest size of the elements in the corners of the slots, as a share of the wall, each next one twice as large.
 * The stress there is infinite; what a coarser mesh costs is told in the test
 * @returns the mesh's lines; each pitch has as many columns, the same to the left and to the right of its slot
 */
export function slottedGrid({ spec, outline }: RingDesign, finest: number): Grid {
  const { radialThickness: wall, slots } = spec.section;
  if (!slots || slots.count % 2 === 1) throw new Error("wants an even number of slots");
  if (slots.depth > wall / 2) throw new Error("wants slots of half the wall at most");
  const count = slots.count / 2;
  const lengths = [outline.outer, outline.inner].map((face) => halfFace(face).length.at(-1) as number);
  const slotSide = slots.width / 2;
  const inner = lengths[1] / count / 2;
  // On the inner face, from the middle of a slot to the middle of a tooth.
  const inSlot = graded(slotSide, finest * wall, 2).map((distance) => slotSide - distance);
  const besides = graded(inner - slotSide, finest * wall, 2).map((distance) => slotSide + distance);
  const halfPitch = [...inSlot.reverse(), ...besides.slice(1)];
  const wholePitch = [...halfPitch.map((x) => -x).reverse(), ...halfPitch.slice(1)];
  // The outer face is a little longer; the teeth take up the difference.
  const outer = lengths[0] / count / 2;
  const outside = (x: number) =>
    Math.abs(x) <= slotSide
      ? x
      : Math.sign(x) * (slotSide + ((Math.abs(x) - slotSide) * (outer - slotSide)) / (inner - slotSide));
  const columns = Array.from({ length: count }, (_, k) =>
    wholePitch
      .slice(k === 0 ? 0 : 1)
      .map((x): [number, number] => [
        (k + 0.5 + outside(x) / outer / 2) / count,
        (k + 0.5 + x / inner / 2) / count,
      ]),
  ).flat();

  // Shares of the wall from the outer face; mid wall is among them.
  const root = 1 - slots.depth / wall;
  const below = graded(1 - root, finest, 2).map((distance) => root + distance);
  const toMidWall = root > 0.5 ? graded(root - 0.5, finest, 2).slice(1, -1) : [];
  const above =
    root > 0.5
      ? [0, 0.25, 0.5]
      : graded(root, finest, 2)
          .slice(1)
          .map((distance) => root - distance)
          .reverse();
  const rows = [...above, ...toMidWall.reverse().map((distance) => root - distance), ...below];

  const perPitch = wholePitch.length - 1;
  return {
    columns,
    rows,
    isCut: (column, row) =>
      Math.abs(middleAt(wholePitch, 2 * (column % perPitch) + 1)) < slotSide && rows[row] >= root,
  };
}
