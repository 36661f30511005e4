import { arc, type Point } from "./drawing.ts";
import { bendAllowanceMm, type Piece } from "./piece.ts";
import type { TankShape } from "./tank-shape.ts";
import { floorMm, insideLengthMm, roofMm } from "./tank-water.ts";

const QUARTER = Math.PI / 2;

/** Steps over an arc, at most. */
const MOST_STEPS = 1000;

/** Heights at which an inner edge is drawn: over its arc near enough that chords leave it by less than 0.01 mm. */
function heights(tank: TankShape): number[] {
  const [bottomMm, topMm] = [tank.undersideMm, tank.undersideMm + tank.heightMm];
  const onMm = tank.curvedOnMm ?? 0;
  const [fromMm, toMm] = [Math.max(bottomMm, -onMm), Math.min(topMm, onMm)];
  if (!(toMm > fromMm)) return [bottomMm, topMm];
  const count = Math.min(MOST_STEPS, Math.max(1, Math.ceil((toMm - fromMm) / 0.5)));
  const onArc = Array.from({ length: count + 1 }, (_, i) => fromMm + ((toMm - fromMm) * i) / count);
  return [...(fromMm > bottomMm ? [bottomMm] : []), ...onArc, ...(toMm < topMm ? [topMm] : [])];
}

/** Pieces of one side tank; the other is its mirror image. */
export function sidePieces(tank: TankShape, factor: number): Piece[] {
  return [wrapper(tank, factor), innerSheet(tank, factor), ...floorAndRoof(tank), ...linings(tank)].map(
    (piece) => ({ ...piece, count: piece.count * 2 }),
  );
}

/**
 * Front, outer side and rear in one, bent twice; its free edges lie on the outside of the inner sheet. Flat length of
 * a leg: its outside depth less radius and plate; of the side: the outside length less twice that.
 */
function wrapper(tank: TankShape, factor: number): Piece {
  const { plateMm, cornerRadiusMm, heightMm, undersideMm } = tank;
  const setBackMm = cornerRadiusMm + plateMm;
  const allowanceMm = bendAllowanceMm(QUARTER, cornerRadiusMm, plateMm, factor);
  const outsideMm = tank.section.outerMm + plateMm;
  const legMm = (z: number) => outsideMm - outsideOfInnerMm(tank, z) - setBackMm;
  const widestMm = Math.max(...heights(tank).map(legMm));
  const sideMm = tank.lengthMm - 2 * setBackMm;
  const wholeMm = 2 * (widestMm + allowanceMm) + sideMm;
  const topMm = undersideMm + heightMm;
  const edge = heights(tank).map((z) => [widestMm - legMm(z), topMm - z] as const);
  const left = edge.map(([x, y]): Point => [x, y]);
  const right = edge.map(([x, y]): Point => [wholeMm - x, y]).reverse();
  const bends = [widestMm, widestMm + allowanceMm, widestMm + allowanceMm + sideMm, wholeMm - widestMm];
  const windows = tank.cutOuts.map((cut) => {
    const x = widestMm + allowanceMm + cut.alongMm - cornerRadiusMm;
    const y = heightMm - plateMm - cut.upMm - cut.heightMm;
    return rectangle(x, y, cut.lengthMm, cut.heightMm);
  });
  return {
    name: `${tank.name}: front, side and rear`,
    count: 1,
    thicknessMm: plateMm,
    outline: isFlat(tank) ? rectangle(0, 0, wholeMm, heightMm) : [...left, ...right],
    bends: bends.map(
      (x) =>
        [
          [x, 0],
          [x, heightMm],
        ] as const,
    ),
    windows,
    note: `bend 90 degrees at both ends, inside radius ${cornerRadiusMm} mm; each bend lies between its two lines`,
  };
}

const isFlat = (tank: TankShape): boolean => tank.curvedOnMm === null;

/** Outside of the inner sheet at a height: the arc itself, or the upright face. */
export function outsideOfInnerMm(tank: TankShape, z: number): number {
  const uprightMm = tank.faceMm - tank.plateMm;
  if (tank.curvedOnMm === null) return uprightMm;
  const on = tank.curvedOnMm;
  return Math.abs(z) < on ? Math.max(uprightMm, Math.sqrt(on ** 2 - z ** 2)) : uprightMm;
}

/** Between the ends; a curved one is developed along the arc at the bend factor's depth. */
function innerSheet(tank: TankShape, factor: number): Piece {
  const lengthMm = insideLengthMm(tank);
  const developedMm = developedHeightMm(tank, factor);
  const windows = tank.cutOuts
    .filter((cut) => cut.widthMm === null)
    .map((cut) => {
      const bottom = developedBelowMm(tank, factor, floorMm(tank) + cut.upMm);
      const top = developedBelowMm(tank, factor, floorMm(tank) + cut.upMm + cut.heightMm);
      return rectangle(cut.alongMm, developedMm - top, cut.lengthMm, top - bottom);
    });
  return {
    name: `${tank.name}: inner sheet`,
    count: 1,
    thicknessMm: tank.plateMm,
    outline: rectangle(0, 0, lengthMm, developedMm),
    bends: [],
    windows,
    note: isFlat(tank) ? null : `rolled to ${(tank.curvedOnMm ?? 0).toFixed(1)} mm radius on its boiler side`,
  };
}

const developedHeightMm = (tank: TankShape, factor: number): number =>
  developedBelowMm(tank, factor, tank.undersideMm + tank.heightMm);

/** Length of sheet from the underside up to a height. */
function developedBelowMm(tank: TankShape, factor: number, height: number): number {
  const from = tank.undersideMm;
  if (tank.curvedOnMm === null) return height - from;
  const on = tank.curvedOnMm;
  const endMm = Math.sqrt(Math.max(0, on ** 2 - (tank.faceMm - tank.plateMm) ** 2));
  const [a, b] = [Math.max(from, -endMm), Math.min(height, endMm)];
  if (b <= a) return height - from;
  return (on + factor * tank.plateMm) * (Math.asin(b / on) - Math.asin(a / on)) + (height - from - (b - a));
}

function floorAndRoof(tank: TankShape): Piece[] {
  const lengthMm = insideLengthMm(tank);
  const at = [
    ["floor", floorMm(tank)],
    ["roof", roofMm(tank)],
  ] as const;
  return at.map(([name, z]) => {
    const widthMm = tank.section.outerMm - tank.section.innerMm(z);
    const radiusMm = tank.cornerRadiusMm;
    return {
      name: `${tank.name}: ${name}`,
      count: 1,
      thicknessMm: tank.plateMm,
      outline: rounded(lengthMm, widthMm, radiusMm, tank.corners === 4),
      bends: [],
      windows: [],
      note: `between the plates${radiusMm > 0 ? `, corners rounded to ${radiusMm} mm` : ""}`,
    };
  });
}

/** Strips that line the cut-outs: round all four sides, as wide as the cut-out is deep. */
function linings(tank: TankShape): Piece[] {
  return tank.cutOuts.map((cut, i) => {
    const from = floorMm(tank) + cut.upMm;
    const deepest = Math.max(
      tank.section.outerMm - tank.section.innerMm(from),
      tank.section.outerMm - tank.section.innerMm(from + cut.heightMm),
    );
    const widthMm = (cut.widthMm ?? deepest) + 2 * tank.plateMm;
    return {
      name: `${tank.name}: lining of cut-out ${i + 1}`,
      count: 1,
      thicknessMm: tank.plateMm,
      outline: rectangle(0, 0, 2 * (cut.lengthMm + cut.heightMm), widthMm),
      bends: [],
      windows: [],
      note: "wrapped inside the opening; cut to fit",
    };
  });
}

/**
 * A box: one wrapper bent four times, its joint in the middle of one long side, floor and roof inside it. Seen from
 * outside the first bend is the front corner of the whole long side, which is the outer one: cut-outs that do not go
 * right through open there; those that do open in the jointed side too, in halves where they lie over the joint.
 */
export function boxPieces(tank: TankShape, factor: number): Piece[] {
  const { plateMm, cornerRadiusMm, heightMm } = tank;
  const setBackMm = cornerRadiusMm + plateMm;
  const allowanceMm = bendAllowanceMm(QUARTER, cornerRadiusMm, plateMm, factor);
  const longMm = tank.lengthMm - 2 * setBackMm;
  const acrossMm = tank.widthMm - 2 * setBackMm;
  const steps = [longMm / 2, acrossMm, longMm, acrossMm];
  const bends: number[] = [];
  let x = 0;
  for (const flat of steps) {
    x += flat;
    bends.push(x, x + allowanceMm);
    x += allowanceMm;
  }
  const wholeMm = x + longMm / 2;
  const wholeSideMm = longMm / 2 + 2 * allowanceMm + acrossMm;
  const windows = tank.cutOuts.flatMap((cut) => {
    const y = heightMm - plateMm - cut.upMm - cut.heightMm;
    const fromMm = cut.alongMm - cornerRadiusMm;
    const opening = (at: number, long: number) => rectangle(at, y, long, cut.heightMm);
    const outer = opening(wholeSideMm + fromMm, cut.lengthMm);
    if (cut.widthMm !== null) return [outer];
    // from the front corner backwards on the one half, from the rear corner forwards on the other
    const inFront = Math.max(0, Math.min(longMm / 2, fromMm + cut.lengthMm) - fromMm);
    const behind = cut.lengthMm - inFront;
    return [
      outer,
      ...(inFront > 0 ? [opening(longMm / 2 - fromMm - inFront, inFront)] : []),
      ...(behind > 0 ? [opening(x + longMm - fromMm - cut.lengthMm, behind)] : []),
    ];
  });
  const side: Piece = {
    name: `${tank.name}: sides in one`,
    count: 1,
    thicknessMm: plateMm,
    outline: rectangle(0, 0, wholeMm, heightMm),
    bends: bends.map(
      (at) =>
        [
          [at, 0],
          [at, heightMm],
        ] as const,
    ),
    windows,
    note: `bend 90 degrees four times, inside radius ${cornerRadiusMm} mm; each bend lies between its two lines${windows.length > 0 ? "; the front end lies between the first two bends, this face outwards" : ""}`,
  };
  return [side, ...floorAndRoof(tank), ...linings(tank)];
}

export const rectangle = (x: number, y: number, width: number, height: number): Point[] => [
  [x, y],
  [x + width, y],
  [x + width, y + height],
  [x, y + height],
];

/** A rectangle whose lower two corners, or all four, are rounded. */
function rounded(length: number, width: number, radius: number, all: boolean): Point[] {
  if (radius === 0) return rectangle(0, 0, length, width);
  const upper: Point[] = all
    ? [
        ...arc([radius, radius], radius, Math.PI, 1.5 * Math.PI),
        ...arc([length - radius, radius], radius, 1.5 * Math.PI, 2 * Math.PI),
      ]
    : [
        [0, 0],
        [length, 0],
      ];
  return [
    ...upper,
    ...arc([length - radius, width - radius], radius, 0, QUARTER),
    ...arc([radius, width - radius], radius, QUARTER, Math.PI),
  ];
}
