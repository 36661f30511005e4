export type Point = readonly [x: number, y: number];

/** How a line is meant: cut along it, bend along it, or only read it. */
export type Stroke = "cut" | "bend" | "water" | "thin" | "hidden" | "register";

export type Item =
  | { kind: "line"; stroke: Stroke; points: readonly Point[]; closed: boolean }
  | { kind: "circle"; stroke: Stroke; centre: Point; radiusMm: number }
  | {
      kind: "text";
      at: Point;
      text: string;
      sizeMm: number;
      anchor: "start" | "middle" | "end";
      upright?: boolean;
    };

/** Lines and words in mm; y goes down, as on paper. */
export interface Drawing {
  title: string;
  /** what it shows, for those who do not see it */
  sentence: string;
  leftMm: number;
  topMm: number;
  widthMm: number;
  heightMm: number;
  items: readonly Item[];
}

export const line = (stroke: Stroke, ...points: Point[]): Item => ({
  kind: "line",
  stroke,
  points,
  closed: false,
});
export const outline = (stroke: Stroke, points: readonly Point[]): Item => ({
  kind: "line",
  stroke,
  points,
  closed: true,
});

export const inMm = (mm: number): string => (Math.round(mm * 10) / 10).toFixed(1).replace(/\.0$/, "");

/** A dimension between two points of one upright or level line, with its figure. */
export function dimension(from: Point, to: Point, sizeMm: number): Item[] {
  const level = from[1] === to[1];
  const mm = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const tickMm = sizeMm / 3;
  const tick = ([x, y]: Point): Item => line("thin", [x - tickMm, y + tickMm], [x + tickMm, y - tickMm]);
  const middle: Point = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const at: Point = level ? [middle[0], middle[1] - sizeMm * 0.4] : [middle[0] - sizeMm * 0.4, middle[1]];
  const words: Item = { kind: "text", at, text: inMm(mm), sizeMm, anchor: "middle", upright: !level };
  return [line("thin", from, to), tick(from), tick(to), words];
}

/** Points along a circle, angles in radians, y down; fine enough that a chord leaves it by less than 0.01 mm. */
export function arc(centre: Point, radiusMm: number, fromRad: number, toRad: number): Point[] {
  if (radiusMm === 0) return [centre];
  const step = 2 * Math.acos(Math.max(0.9, 1 - 0.005 / radiusMm));
  const count = Math.max(1, Math.ceil(Math.abs(toRad - fromRad) / step));
  return Array.from({ length: count + 1 }, (_, i): Point => {
    const angle = fromRad + ((toRad - fromRad) * i) / count;
    return [centre[0] + radiusMm * Math.cos(angle), centre[1] + radiusMm * Math.sin(angle)];
  });
}
