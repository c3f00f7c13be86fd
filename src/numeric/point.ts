/** A point of the plane, mm. */
export type Point = [x: number, y: number];
