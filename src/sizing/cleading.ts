import type { Locomotive } from "../logbook/locomotive.ts";
import type { BuildUp } from "./build-up.ts";
import type { Piece } from "./piece.ts";
import { rectangle } from "./tank-pieces.ts";

/** Overlap of the sheet under the boiler, and what a band needs for its joint (practice). */
const OVERLAP_MM = { cleading: 5, band: 12 };
/** A band about every so many mm, and its width (practice). */
const BAND = { everyMm: 45, widthMm: 3 };

/** The sheet round the lagged barrel and its bands: circumference at half their thickness, and the overlap. */
export function cleadingPieces(locomotive: Locomotive, up: BuildUp): Piece[] {
  const { shape } = locomotive.boiler;
  if (up.boilerRadiusMm === null || shape.kind === "table") return [];
  const lengthMm = shape.kind === "horizontal" ? shape.innerLengthMm : shape.innerHeightMm;
  const overLaggingMm = up.boilerRadiusMm + up.laggingMm;
  const pieces: Piece[] = [];
  const flat = (name: string, count: number, thicknessMm: number, long: number, wide: number, note: string) =>
    pieces.push({
      name,
      count,
      thicknessMm,
      outline: rectangle(0, 0, long, wide),
      bends: [],
      windows: [],
      note,
    });
  if (up.laggingMm > 0) {
    const roundMm = 2 * Math.PI * (up.boilerRadiusMm + up.laggingMm / 2);
    flat("lagging", 1, up.laggingMm, roundMm, lengthMm, "butted under the boiler");
  }
  if (up.cleadingMm > 0) {
    const roundMm = 2 * Math.PI * (overLaggingMm + up.cleadingMm / 2) + OVERLAP_MM.cleading;
    flat("cleading", 1, up.cleadingMm, roundMm, lengthMm, `with ${OVERLAP_MM.cleading} mm overlap`);
  }
  if (up.bandMm > 0) {
    const roundMm = 2 * Math.PI * (overLaggingMm + up.cleadingMm + up.bandMm / 2) + OVERLAP_MM.band;
    const count = Math.max(2, Math.round(lengthMm / BAND.everyMm) + 1);
    flat(
      "cleading band",
      count,
      up.bandMm,
      roundMm,
      BAND.widthMm,
      `with ${OVERLAP_MM.band} mm for its joint`,
    );
  }
  return pieces;
}
