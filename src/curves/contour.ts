import type { Point } from "../numeric/point.js";
import { type Curve, crossing, partOf, reversed } from "./curve.js";
import {
  type AddedMetal,
  type EndPlane,
  endPlanes,
  type FreeBody,
  NO_METAL,
  ringFaces,
} from "./ringFaces.js";

/** A straight piece of a contour. */
export interface Straight {
  readonly start: Point;
  readonly end: Point;
}

export type ContourPiece = { readonly curve: Curve } | { readonly straight: Straight };

/** Pieces that follow on each other, the last one back to the first where the contour is closed. */
export type Contour = readonly ContourPiece[];

/**
 * The free body's contour: outer face from the left end to the right end, right end face, inner face back with its slots, left end face.
 * Closed, counter-clockwise.
 *
 * @param ring a design
 * @param added metal on the finished faces; none if not given. Slots stay as they are
 */
export function ringContour(ring: FreeBody, added: AddedMetal = NO_METAL): Contour {
  const faces = ringFaces(ring, added);
  const outer = cutFace(ring, faces.outer, added.ends);
  const inner = slottedFace(ring, cutFace(ring, faces.inner, added.ends));
  const back = [...inner]
    .reverse()
    .map(
      (piece): ContourPiece =>
        "curve" in piece
          ? { curve: reversed(piece.curve) }
          : { straight: { start: piece.straight.end, end: piece.straight.start } },
    );
  const straight = (from: Point, to: Point): ContourPiece => ({ straight: { start: from, end: to } });
  const innerEnds = [startOf(back[0]), endOf(back[back.length - 1])];
  return [
    { curve: outer },
    straight(endOf({ curve: outer }), innerEnds[0]),
    ...back,
    straight(innerEnds[1], startOf({ curve: outer })),
  ];
}

/** A face between the end faces. */
export function cutFace(ring: FreeBody, face: Curve, metal: number): Curve {
  const { left, right } = endPlanes(ring, metal);
  const cut = ({ origin, normal }: EndPlane, guess: number) => crossing(face, origin, normal, guess);
  return partOf(face, cut(left, face.from), cut(right, face.to));
}

/** An inner face from left to right with its slots cut in. */
function slottedFace({ spec, outline, installed }: FreeBody, face: Curve): ContourPiece[] {
  const { slots } = spec.section;
  if (!slots || !outline.slots) return [{ curve: face }];
  const spacing = (slots.to - slots.from) / slots.count;
  const halfAngle = slots.width / 2 / installed.centroidRadius;
  const pieces: ContourPiece[] = [];
  let from = face.from;
  for (const [k, corners] of outline.slots.entries()) {
    const [near, root, farRoot, far] = corners;
    const length = Math.hypot(far[0] - near[0], far[1] - near[1]);
    const along: Point = [(far[0] - near[0]) / length, (far[1] - near[1]) / length];
    const middle = slots.from + (k + 0.5) * spacing;
    const enter = crossing(face, near, along, middle - halfAngle);
    const leave = crossing(face, far, along, middle + halfAngle);
    const points: Point[] = [positionOf(face.at(enter)), root, farRoot, positionOf(face.at(leave))];
    pieces.push({ curve: partOf(face, from, enter) });
    for (let i = 0; i < 3; i++) pieces.push({ straight: { start: points[i], end: points[i + 1] } });
    from = leave;
  }
  return [...pieces, { curve: partOf(face, from, face.to) }];
}

const positionOf = ({ x, y }: { x: number; y: number }): Point => [x, y];

function startOf(piece: ContourPiece): Point {
  return "curve" in piece ? positionOf(piece.curve.at(piece.curve.from)) : piece.straight.start;
}

function endOf(piece: ContourPiece): Point {
  return "curve" in piece ? positionOf(piece.curve.at(piece.curve.to)) : piece.straight.end;
}
