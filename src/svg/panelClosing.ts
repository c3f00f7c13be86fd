import type { Point } from "../numeric/point.js";
import type { RingOverview } from "../overview/ringOverview.js";
import type { Outline } from "../shape/outline.js";
import {
  type Box,
  chain,
  drawnStations,
  figure,
  inside,
  LINE,
  scaleInWords,
  standardScale,
  words,
} from "./panel.js";
import { closedFaces, extentsOf } from "./paths.js";
import { fixed } from "./text.js";

/** Stations a half that are drawn of so small a ring. */
const DRAWN = 90;

/** The ring on its way from free to closed in a band, each state as computed, in the bore that it is made for. */
export function closingPanel(
  { design, closing }: Pick<RingOverview, "design" | "closing">,
  box: Box,
): string {
  const { outline, installed, free, spec, load } = design;
  const R = installed.outerRadius;
  const states: readonly { name: string; pull: number; gap: number; faces: Faces }[] = [
    { name: "free", pull: 0, gap: free.gap, faces: outline },
    ...closing.map(({ gap, pull, outline: faces }) => ({ name: "in a band", pull, gap, faces })),
    { name: "in its bore", pull: load.tangentialForce, gap: spec.closedGap, faces: closedFaces(design) },
  ];
  const field = inside(box, 4);
  const width = field.width / states.length;
  const { side: reach, top, bottom } = extentsOf(design);
  const scale = Math.min(standardScale(2 * reach, width - 2), standardScale(top + bottom, field.height - 2));
  const y = field.y + (field.height - scale * (top + bottom)) / 2 + scale * top;
  return figure(
    box,
    `Closing, ${scaleInWords(scale)}`,
    states.flatMap(({ name, pull, gap, faces }, k) => {
      const x = field.x + (k + 0.5) * width;
      const below = [name, `${gap.toFixed(2)} mm`, k === 0 ? "" : `${pull.toFixed(2)} N`];
      return [
        `<path class="free" stroke-width="0.13" d="${bodyOf(faces, ([px, py]) => [x + scale * px, y - scale * py])}"/>`,
        `<circle class="dashed" cx="${fixed(x, 2)}" cy="${fixed(y, 2)}" r="${fixed(scale * R, 2)}"/>`,
        ...below.map((line, i) =>
          words(x, field.y + field.height + (i + 1) * LINE, line, { anchor: "middle", within: width - 1 }),
        ),
      ];
    }),
  );
}

type Faces = Pick<Outline, "outer" | "inner">;

function bodyOf({ outer, inner }: Faces, onPaper: (point: Point) => Point): string {
  const thinned = (face: readonly Point[]) => drawnStations(face.length, DRAWN).map((i) => face[i]);
  return chain([...thinned(outer), ...thinned(inner).reverse()].map(onPaper), true);
}
