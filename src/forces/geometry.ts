/**
 * The closed ring: a circle with its ends a gap apart. Lengths in mm, angles in radians from the back.
 */
export interface Geometry {
  /** R = d1/2. */
  readonly outerRadius: number;
  /** r = (d1 − a1)/2, mid wall at the nominal thickness. */
  readonly centroidRadius: number;
  /** θC = π − asin(s/(2r)), where the centroid line ends. */
  readonly centroidLimit: number;
  /** θL = π − asin(s/(2R)), where the outer face, and so the load, ends. */
  readonly loadLimit: number;
  /** δ = asin(s/(2r)), angle of either end face to the section normal. */
  readonly faceToNormal: number;
}

/**
 * Geometry of a ring closed in its bore with parallel end faces.
 *
 * @param d bore diameter, mm
 * @param a radial wall thickness, mm, 0 < a < d/2
 * @param s closed gap, mm, 0 ≤ s < d − 2a
 */
export function closedGeometry(d: number, a: number, s: number): Geometry {
  const outerRadius = d / 2;
  const centroidRadius = (d - a) / 2;
  const limitAt = (radius: number) => Math.PI - Math.asin(s / (2 * radius));
  return {
    outerRadius,
    centroidRadius,
    centroidLimit: limitAt(centroidRadius),
    loadLimit: limitAt(outerRadius),
    faceToNormal: Math.asin(s / (2 * centroidRadius)),
  };
}
