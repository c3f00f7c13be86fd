import { DxfWriter, LWPolylineFlags, point3d, Units } from "@tarikjabiri/dxf";
import type { Arc } from "../curves/arcs.js";
import type { CurveFit } from "../curves/fitContour.js";
import type { Point } from "../numeric/point.js";

/** One layer of a drawing: polylines with arc segments, or circles. mm. */
export interface DxfLayer {
  /** Letters, digits, "-" and "_". */
  readonly name: string;
  /** Curves of arcs, each a polyline. */
  readonly fits?: readonly CurveFit<Arc>[];
  /** Circles; none if absent. */
  readonly circles?: readonly {
    /** x and y. */
    readonly centre: Point;
    /** Above 0. */
    readonly radius: number;
  }[];
}

/** Colours of the first layers by the format's own index; all of them show on white and on black. */
const COLOURS = [7, 1, 5, 3, 6];

const fixed = (value: number) => Number(value.toFixed(6)) + 0;
const point = ([x, y]: Point) => ({ x: fixed(x), y: fixed(y) });

/**
 * A DXF drawing in mm: closed and open polylines whose segments are straight or arcs, and circles; coordinates to a millionth of a
 * millimetre. The same text on every machine.
 *
 * @param layers in the order in which they come into the file, mm
 * @returns the text of a DXF file in mm
 *
 * @example
 * const circles = [{ centre: [0, 0] as [number, number], radius: design.installed.outerRadius }];
 * dxf([{ name: "OUTLINE", fits: [outlineArcs(design)] }, { name: "BORE", circles }]).includes("LWPOLYLINE"); // true
 */
export function dxf(layers: readonly DxfLayer[]): string {
  const drawing = new DxfWriter();
  drawing.setUnits(Units.Millimeters);
  for (const [k, { name, fits = [], circles = [] }] of layers.entries()) {
    drawing.addLayer(name, COLOURS[k % COLOURS.length], "Continuous");
    drawing.setCurrentLayerName(name);
    for (const { pieces, closed } of fits) {
      const vertices = pieces.map(({ start, bulge }) => ({
        point: point(start),
        bulge: Number(bulge.toFixed(12)) + 0,
      }));
      const last = pieces[pieces.length - 1].end;
      drawing.addLWPolyline(closed ? vertices : [...vertices, { point: point(last) }], {
        flags: closed ? LWPolylineFlags.Closed : LWPolylineFlags.None,
      });
    }
    for (const { centre, radius } of circles) {
      const { x, y } = point(centre);
      drawing.addCircle(point3d(x, y, 0), fixed(radius));
    }
  }
  return drawing.stringify();
}
