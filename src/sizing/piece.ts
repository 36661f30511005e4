import { inMm, type Point } from "./drawing.ts";

/** A piece of sheet, flat and full size, mm; y goes down. */
export interface Piece {
  name: string;
  count: number;
  thicknessMm: number;
  outline: readonly Point[];
  bends: readonly (readonly [Point, Point])[];
  windows: readonly (readonly Point[])[];
  note: string | null;
}

/** Where in its thickness a bend keeps its length, as a part of it (practice: 0.33 sharp to 0.5 wide). */
export const USUAL_BEND = 0.4;

/** Length of sheet that a bend takes: angle x (inside radius + factor x thickness). */
export const bendAllowanceMm = (
  angleRad: number,
  insideMm: number,
  plateMm: number,
  factor: number,
): number => angleRad * (insideMm + factor * plateMm);

export interface Extent {
  leftMm: number;
  topMm: number;
  widthMm: number;
  heightMm: number;
}

export function extentOf(points: readonly Point[]): Extent {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    left = Math.min(left, x);
    right = Math.max(right, x);
    top = Math.min(top, y);
    bottom = Math.max(bottom, y);
  }
  return { leftMm: left, topMm: top, widthMm: right - left, heightMm: bottom - top };
}

export const sizeWords = (piece: Piece): string => {
  const { widthMm, heightMm } = extentOf(piece.outline);
  return `${inMm(widthMm)} x ${inMm(heightMm)} mm, ${piece.thicknessMm} mm thick`;
};
