import { CAUTION_SENTENCES } from "../analysis/words/cautions.ts";
import { wrapped } from "../analysis/words/sheet-foot.ts";
import { type Item, line, type Point } from "./drawing.ts";
import { extentOf, type Piece, sizeWords } from "./piece.ts";

/** A4 in mm, and the part of it that every printer reaches; tiles join at the corners of that part. */
export const A4 = { widthMm: 210, heightMm: 297 } as const;
export const TILE = { leftMm: 15, topMm: 20, widthMm: 180, heightMm: 245 } as const;
export const SCALE_BAR_MM = 100;
const BAR = { leftMm: 15, topMm: 284 } as const;
/** Between the lower crosses and the bar; a line of words goes across the tile. */
const CAUTIONS = { topMm: 272, stepMm: 3.95, letters: 92 } as const;
const GAP_MM = 7;
/** Clear of the registration crosses. */
const HEAD_MM = 5;
/** 14 px on a screen. */
const WORDS_MM = 3.8;
const LETTER_MM = WORDS_MM * 0.5;
/** From one line of words to the next. */
const LINE_MM = 4.2;
/** Baseline of the heading; with more than a line under it, it stands higher. What is under it begins clear of the cross. */
const HEADING = { topMm: 13, leftMm: TILE.leftMm + 6, letters: 84 } as const;
/** What is to be done with a piece goes over lines about as long as this at least. */
const NOTE_LETTERS = 44;

export interface TemplatePage {
  title: string;
  /** said under the heading */
  note?: string | null;
  items: readonly Item[];
}

const words = (text: string, at: Point): Item => ({
  kind: "text",
  at,
  text,
  sizeMm: WORDS_MM,
  anchor: "start",
});

/** Lines and words of one piece, moved so that its corner stands at 0, 0. */
interface Placed {
  piece: Piece;
  widthMm: number;
  heightMm: number;
  items: readonly Item[];
  /** what it is, and what is done with it, in lines */
  label: readonly string[];
}

const labelMm = (label: readonly string[]): number => WORDS_MM + label.length * LINE_MM;

/** Full-size pages for all pieces: small ones together, those larger than a page over several that join. */
export function templatePages(pieces: readonly Piece[]): TemplatePage[] {
  const placed = pieces.map(placedPiece);
  const fits = (one: Placed) =>
    one.widthMm <= TILE.widthMm && one.heightMm + labelMm(one.label) + HEAD_MM <= TILE.heightMm;
  const together = shelves(placed.filter(fits));
  const tiled = placed.filter((one) => !fits(one)).flatMap(tiles);
  const pages = [...together, ...tiled];
  return pages.map(({ title, note, items }, i) => {
    const heading = `${title} (page ${i + 1} of ${pages.length})`;
    return { title: heading, items: [...furniture(heading, note ?? null), ...items] };
  });
}

/** Registration crosses at the corners of the tile, the scale-check bar, the cautions and the heading with its note. */
function furniture(title: string, note: string | null): Item[] {
  const under = note === null ? [] : wrapped([note], HEADING.letters);
  const headMm = HEADING.topMm - LINE_MM * Math.max(0, under.length - 1);
  const { leftMm, topMm, widthMm, heightMm } = TILE;
  const corners: Point[] = [
    [leftMm, topMm],
    [leftMm + widthMm, topMm],
    [leftMm, topMm + heightMm],
    [leftMm + widthMm, topMm + heightMm],
  ];
  const y = BAR.topMm;
  return [
    ...corners.flatMap(([x, at]) => [
      line("register", [x - 4, at], [x + 4, at]),
      line("register", [x, at - 4], [x, at + 4]),
    ]),
    line("register", [BAR.leftMm, y], [BAR.leftMm + SCALE_BAR_MM, y]),
    ...Array.from({ length: 11 }, (_, i) => {
      const x = BAR.leftMm + i * 10;
      return line("register", [x, y - (i % 5 === 0 ? 3 : 1.5)], [x, y]);
    }),
    words(`This bar measures ${SCALE_BAR_MM} mm: print at 100 %`, [BAR.leftMm + SCALE_BAR_MM + 4, y]),
    ...wrapped(CAUTION_SENTENCES, CAUTIONS.letters).map((text, i) =>
      words(text, [TILE.leftMm, CAUTIONS.topMm + i * CAUTIONS.stepMm]),
    ),
    words(title, [TILE.leftMm, headMm]),
    ...under.map((text, i) => words(text, [HEADING.leftMm, headMm + LINE_MM * (i + 1)])),
  ];
}

function placedPiece(piece: Piece): Placed {
  const extent = extentOf(piece.outline);
  const turned = extent.widthMm > TILE.widthMm && extent.heightMm <= TILE.widthMm;
  const move = ([x, y]: Point): Point => {
    const [atX, atY] = [x - extent.leftMm, y - extent.topMm];
    return turned ? [extent.heightMm - atY, atX] : [atX, atY];
  };
  const widthMm = turned ? extent.heightMm : extent.widthMm;
  return {
    piece,
    widthMm,
    heightMm: turned ? extent.widthMm : extent.heightMm,
    label: labelOf(piece, widthMm),
    items: [
      { kind: "line", stroke: "cut", points: piece.outline.map(move), closed: true },
      ...piece.windows.map(
        (window): Item => ({ kind: "line", stroke: "cut", points: window.map(move), closed: true }),
      ),
      ...piece.bends.map(([from, to]) => line("bend", move(from), move(to))),
    ],
  };
}

const nameOf = (piece: Piece): string => `${piece.count} x ${piece.name}: ${sizeWords(piece)}`;

/** What it is in a line, and under it what is done with it, no wider than the piece or that line where they give room. */
function labelOf(piece: Piece, widthMm: number): string[] {
  const name = nameOf(piece);
  const room = Math.floor(Math.min(widthMm, TILE.widthMm) / LETTER_MM);
  const letters = Math.max(NOTE_LETTERS, name.length, room);
  return [name, ...(piece.note === null ? [] : wrapped([piece.note], letters))];
}

/** Pieces in rows on as few pages as rows of falling height take. */
function shelves(placed: readonly Placed[]): TemplatePage[] {
  const pages: Item[][] = [];
  let [x, y, rowMm] = [0, HEAD_MM, 0];
  let page: Item[] = [];
  const turnPage = () => {
    if (page.length > 0) pages.push(page);
    page = [];
    [x, y, rowMm] = [0, HEAD_MM, 0];
  };
  for (const one of placed.toSorted((a, b) => b.heightMm - a.heightMm)) {
    const needMm = one.heightMm + labelMm(one.label);
    const letters = Math.max(...one.label.map((text) => text.length));
    const wideMm = Math.max(one.widthMm, letters * LETTER_MM);
    if (x > 0 && x + wideMm > TILE.widthMm) {
      y += rowMm + GAP_MM;
      [x, rowMm] = [0, 0];
    }
    if (y + needMm > TILE.heightMm) turnPage();
    const [left, top] = [TILE.leftMm + x, TILE.topMm + y + WORDS_MM * 0.5 + one.label.length * LINE_MM];
    page.push(...one.items.map((item) => moved(item, left, top)));
    page.push(
      ...one.label.map((text, i) =>
        words(text, [left, top - WORDS_MM * 0.6 - LINE_MM * (one.label.length - 1 - i)]),
      ),
    );
    x += wideMm + GAP_MM;
    rowMm = Math.max(rowMm, needMm);
  }
  turnPage();
  return pages.map((items) => ({ title: "Templates, full size", items }));
}

/** One piece over several pages: neighbours join at their registration crosses, without overlap. */
function tiles(one: Placed): TemplatePage[] {
  const across = Math.ceil(one.widthMm / TILE.widthMm - 1e-9);
  const down = Math.ceil(one.heightMm / TILE.heightMm - 1e-9);
  return Array.from({ length: across * down }, (_, i) => {
    const [column, row] = [i % across, Math.floor(i / across)];
    const [left, top] = [column * TILE.widthMm, row * TILE.heightMm];
    const place = `${String.fromCharCode(65 + row)}${column + 1}`;
    return {
      title: `${nameOf(one.piece)}, part ${place} of ${down} x ${across}`,
      note: one.piece.note,
      items: one.items.flatMap((item) => clipped(item, left, top)),
    };
  });
}

const shifted = ([x, y]: Point, dx: number, dy: number): Point => [x + dx, y + dy];

function moved(item: Item, dx: number, dy: number): Item {
  switch (item.kind) {
    case "line":
      return { ...item, points: item.points.map((point) => shifted(point, dx, dy)) };
    case "circle":
      return { ...item, centre: shifted(item.centre, dx, dy) };
    case "text":
      return { ...item, at: shifted(item.at, dx, dy) };
  }
}

/** What of a line lies in the tile that begins at left, top; moved onto the page. Cut, not merely hidden. */
function clipped(item: Item, left: number, top: number): Item[] {
  if (item.kind !== "line") return [];
  const ring = item.closed ? [...item.points, ...item.points.slice(0, 1)] : item.points;
  return ring.slice(1).flatMap((to, i): Item[] => {
    const from = ring[i];
    const kept = from === undefined ? null : within(from, to, left, top);
    return kept === null
      ? []
      : [line(item.stroke, ...kept.map((point) => shifted(point, TILE.leftMm - left, TILE.topMm - top)))];
  });
}

/** Liang and Barsky's clipping of a line to a rectangle. */
function within(from: Point, to: Point, left: number, top: number): [Point, Point] | null {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  let [start, end] = [0, 1];
  const edges = [
    [-dx, from[0] - left],
    [dx, left + TILE.widthMm - from[0]],
    [-dy, from[1] - top],
    [dy, top + TILE.heightMm - from[1]],
  ] as const;
  for (const [towards, room] of edges) {
    if (towards === 0) {
      if (room < 0) return null;
      continue;
    }
    const share = room / towards;
    if (towards < 0) start = Math.max(start, share);
    else end = Math.min(end, share);
  }
  if (start >= end) return null;
  const at = (share: number): Point => [from[0] + share * dx, from[1] + share * dy];
  return [at(start), at(end)];
}
