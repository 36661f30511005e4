import type { Locomotive } from "../logbook/locomotive.ts";
import { cleadingPieces } from "./cleading.ts";
import { heldBy, type Layout } from "./layout.ts";
import { type Piece, USUAL_BEND } from "./piece.ts";
import { boxPieces, sidePieces } from "./tank-pieces.ts";

/** Every piece of sheet of a plan. Tanks that cannot be made give none. */
export function piecesOf(locomotive: Locomotive, layout: Layout, bendFactor = USUAL_BEND): Piece[] {
  const tanks = layout.tanks.flatMap((tank) => {
    const { shape, water } = heldBy(layout, tank);
    if (shape === null || water === null) return [];
    return shape.kind === "side-pair" ? sidePieces(shape, bendFactor) : boxPieces(shape, bendFactor);
  });
  return [...tanks, ...cleadingPieces(locomotive, layout.buildUp)];
}
