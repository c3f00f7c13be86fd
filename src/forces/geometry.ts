/**
 * The closed ring: a circle with its ends a gap apart. Lengths in mm, angles in radians from the back.
 */
export interface Geometry {
  /** R = d1/2. */
  readonly outerRadius: number;
  /** r = (d1 − a1)/2. */
  readonly centroidRadius: number;
  /** θC = π − asin(s/(2r)), where the centroid line ends. */
  readonly centroidLimit: number;
  /** θL = π − asin(s/(2R)), where the outer face, and so the load, ends. */
  readonly loadLimit: number;
  /** θI = π − asin(s/(2(r − a/2))), where the inner face ends. */
  readonly innerLimit: number;
  /** Number of equal steps from the back to θC. */
  readonly stations: number;
  /** θC/stations. */
  readonly stationStep: number;
}

/**
 * Geometry of a ring closed in its bore with parallel end faces.
 *
 * @param d bore diameter, mm
 * @param a radial wall thickness, mm, 0 < a < d/2
 * @param s closed gap, mm, 0 ≤ s < d − 2a
 * @param stations steps per half ring
 */
export function closedGeometry(d: number, a: number, s: number, stations: number): Geometry {
  const outerRadius = d / 2;
  const centroidRadius = (d - a) / 2;
  const limitAt = (radius: number) => Math.PI - Math.asin(s / (2 * radius));
  const centroidLimit = limitAt(centroidRadius);
  return {
    outerRadius,
    centroidRadius,
    centroidLimit,
    loadLimit: limitAt(outerRadius),
    innerLimit: limitAt(outerRadius - a),
    stations,
    stationStep: centroidLimit / stations,
  };
}
