import type { Making } from "../making/makingSchema.js";

/** Sheets of paper, mm, upright. Sources: ISO 216 (A4, A3); ANSI/ASME Y14.1 (Letter, 8.5 in × 11 in); from memory. */
export const PAGE_SIZES = {
  A4: { width: 210, height: 297 },
  A3: { width: 297, height: 420 },
  Letter: { width: 215.9, height: 279.4 },
} as const satisfies Record<Making["page"], { readonly width: number; readonly height: number }>;

/** Sheets of paper that templates are laid out for. */
export type PageSize = keyof typeof PAGE_SIZES;

/** A sheet with a window for the drawing above a band for the words. mm, from the upper left corner. */
export interface Page {
  readonly width: number;
  readonly height: number;
  readonly window: {
    readonly x: number;
    readonly y: number;
    readonly width: number;
    readonly height: number;
  };
}

/** Printers leave this much blank at the edges. */
const MARGIN = 8;
/** For title and calibration bars. */
const BAND = 34;

/** Part of a drawing on a sheet: its upper left corner in the drawing, y down. */
export interface Tile {
  readonly column: number;
  readonly row: number;
  readonly x: number;
  readonly y: number;
}

export interface Layout {
  readonly page: Page;
  readonly columns: number;
  readonly rows: number;
  /** Row by row. */
  readonly tiles: readonly Tile[];
}

/** Neighbouring sheets show this much of each other, to be glued. */
export const OVERLAP = 10;

/** The fewest sheets, upright or lying, that show a drawing of a size at its true scale; it stands in their middle. */
export function layOut(
  size: PageSize,
  drawing: { x: number; y: number; width: number; height: number },
): Layout {
  const { width, height } = PAGE_SIZES[size];
  const layouts = [pageOf(width, height), pageOf(height, width)].map((page) => tiled(page, drawing));
  return layouts.reduce((best, other) => (other.tiles.length < best.tiles.length ? other : best));
}

function pageOf(width: number, height: number): Page {
  const window = { x: MARGIN, y: MARGIN, width: width - 2 * MARGIN, height: height - 2 * MARGIN - BAND };
  return { width, height, window };
}

function tiled(page: Page, drawing: { x: number; y: number; width: number; height: number }): Layout {
  const { window } = page;
  const sheets = (length: number, shown: number) =>
    length <= shown ? 1 : Math.ceil((length - OVERLAP) / (shown - OVERLAP));
  const columns = sheets(drawing.width, window.width);
  const rows = sheets(drawing.height, window.height);
  const start = (from: number, length: number, shown: number, count: number) =>
    from + length / 2 - (count * (shown - OVERLAP) + OVERLAP) / 2;
  const left = start(drawing.x, drawing.width, window.width, columns);
  const top = start(drawing.y, drawing.height, window.height, rows);
  const tiles = Array.from({ length: columns * rows }, (_, k): Tile => {
    const [column, row] = [k % columns, Math.floor(k / columns)];
    return {
      column,
      row,
      x: left + column * (window.width - OVERLAP),
      y: top + row * (window.height - OVERLAP),
    };
  });
  return { page, columns, rows, tiles };
}
