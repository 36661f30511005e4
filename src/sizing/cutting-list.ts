import type { Locomotive } from "../logbook/locomotive.ts";
import { heldBy, type Layout } from "./layout.ts";
import { extentOf } from "./piece.ts";
import { piecesOf } from "./sheet-pieces.ts";
import type { CutPiece } from "./sizing-schema.ts";
import { balancePipeLengthMm } from "./tank-water.ts";

/** Every piece of sheet by its flat size, and the balance pipes. */
export function cuttingList(locomotive: Locomotive, layout: Layout, bendFactor?: number): CutPiece[] {
  const sheet = piecesOf(locomotive, layout, bendFactor).map((piece): CutPiece => {
    const { widthMm, heightMm } = extentOf(piece.outline);
    return {
      name: piece.name,
      count: piece.count,
      lengthMm: Math.max(widthMm, heightMm),
      widthMm: Math.min(widthMm, heightMm),
      thicknessMm: piece.thicknessMm,
      note: piece.note,
    };
  });
  const pipes = layout.tanks.flatMap((tank): CutPiece[] => {
    const { shape, water } = heldBy(layout, tank);
    if (shape === null || water === null || shape.balancePipeMm === null) return [];
    const lengthMm = balancePipeLengthMm(shape);
    return [
      {
        name: `${shape.name}: balance pipe`,
        count: 1,
        lengthMm,
        widthMm: shape.balancePipeMm,
        thicknessMm: 0,
        note: "straight between the inner faces; its width is the bore, longer if led round anything",
      },
    ];
  });
  return [...sheet, ...pipes];
}
