/** An arc along which light passes between ring and bore. */
export interface LightGap {
  /** Left end, radians from the back. */
  readonly from: number;
  /** Right end, radians from the back. */
  readonly to: number;
  /** Widest clearance on it, mm. */
  readonly largest: number;
  /** Area of the slit, mm². */
  readonly area: number;
}

/**
 * Arcs on which the clearance is wider than the eye's limit, with the clearance taken as straight between nodes.
 *
 * @param angle of the nodes, radians, increasing
 * @param clearance mm
 * @param sensitivity narrowest slit that shows light, mm
 * @param radius of the bore, mm
 */
export function lightGaps(
  angle: readonly number[],
  clearance: readonly number[],
  sensitivity: number,
  radius: number,
): LightGap[] {
  const gaps: LightGap[] = [];
  let open: { from: number; largest: number; area: number } | undefined;
  const addPiece = (from: number, to: number, one: number, other: number) => {
    if (!open) return;
    open.largest = Math.max(open.largest, one, other);
    open.area += 0.5 * (one + other) * (to - from) * radius;
  };
  const close = (to: number) => {
    if (open) gaps.push({ from: open.from, to, largest: open.largest, area: open.area });
    open = undefined;
  };
  const last = angle.length - 1;
  if (clearance[0] > sensitivity) open = { from: angle[0], largest: 0, area: 0 };
  for (let i = 0; i < last; i++) {
    const [before, after] = [clearance[i], clearance[i + 1]];
    const crosses = before > sensitivity !== after > sensitivity;
    if (!crosses) {
      addPiece(angle[i], angle[i + 1], before, after);
      continue;
    }
    const share = (sensitivity - before) / (after - before);
    const at = angle[i] + share * (angle[i + 1] - angle[i]);
    if (open) {
      addPiece(angle[i], at, before, sensitivity);
      close(at);
    } else {
      open = { from: at, largest: 0, area: 0 };
      addPiece(at, angle[i + 1], sensitivity, after);
    }
  }
  close(angle[last]);
  return gaps;
}
