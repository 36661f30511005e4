import { roundedDown, roundedUp } from "./rounding.ts";
import type { CutOut, TankShape } from "./tank-shape.ts";

/** Inside of the floor and of the roof, mm. */
export const floorMm = (tank: TankShape): number => tank.undersideMm + tank.plateMm;
export const roofMm = (tank: TankShape): number => tank.undersideMm + tank.heightMm - tank.plateMm;
export const insideLengthMm = (tank: TankShape): number => tank.lengthMm - 2 * tank.plateMm;

/** A square corner less the quarter circle in it, mm2. */
const cornerLossMm2 = (tank: TankShape): number =>
  tank.corners * (1 - Math.PI / 4) * tank.cornerRadiusMm ** 2;

/** Room for water in one tank between two heights, ml; cut-outs taken away, pump and pipes not. */
export function roomMl(tank: TankShape, fromMm: number, toMm: number): number {
  const [low, high] = [Math.max(fromMm, floorMm(tank)), Math.min(toMm, roofMm(tank))];
  if (!(high > low)) return 0;
  let mm3 = insideLengthMm(tank) * tank.section.areaMm2(low, high) - cornerLossMm2(tank) * (high - low);
  for (const cut of tank.cutOuts) {
    const from = Math.max(low, floorMm(tank) + cut.upMm);
    const to = Math.min(high, floorMm(tank) + cut.upMm + cut.heightMm);
    if (!(to > from)) continue;
    mm3 -= cut.lengthMm * (cut.widthMm === null ? tank.section.areaMm2(from, to) : cut.widthMm * (to - from));
  }
  return mm3 / 1000;
}

/** Water in the pipe that joins a pair, straight from inside to inside at the floor, ml; it can hold no more than that. */
export const balancePipeMl = (tank: TankShape): number =>
  tank.balancePipeMm === null
    ? 0
    : ((Math.PI / 4) * tank.balancePipeMm ** 2 * balancePipeLengthMm(tank)) / 1000;

/** Between the inner faces at the floor, plates and all. */
export const balancePipeLengthMm = (tank: TankShape): number => 2 * tank.section.innerMm(floorMm(tank));

export interface TankWater {
  /** all tanks of it (a pair: both, and the pipe that joins them), ml */
  wholeMl: number;
  /** never the pipe's: it lies at the floor */
  usableMl: number;
}

/**
 * What the tanks hold in all, and what can be drawn: between the dead depth and the freeboard, where either is given,
 * else the usable fraction of the whole; less pump and pipes.
 * @returns why it can hold nothing, in words, where it cannot
 */
export function tankWaterOf(tank: TankShape, usableFraction: number): TankWater | string {
  const problem = impossible(tank);
  if (problem !== null) return problem;
  const wholeMl = roomMl(tank, floorMm(tank), roofMm(tank));
  if (wholeMl <= 0) return "the cut-outs take up all the room that there is";
  const byDepth = tank.freeboardMm !== null || tank.deadDepthMm !== null;
  const betweenMl = byDepth
    ? roomMl(tank, floorMm(tank) + (tank.deadDepthMm ?? 0), roofMm(tank) - (tank.freeboardMm ?? 0))
    : wholeMl;
  if (betweenMl <= 0) return "the cut-outs leave nothing between dead depth and freeboard";
  const drawnMl = (betweenMl - tank.displacedMl) * (byDepth ? 1 : usableFraction);
  if (drawnMl <= 0) {
    return `pump and pipes take up ${roundedUp(tank.displacedMl, 1).toFixed(1)} ml, and there is room for ${roundedDown(betweenMl, 1).toFixed(1)} ml`;
  }
  return {
    wholeMl: (wholeMl - tank.displacedMl) * tank.count + balancePipeMl(tank),
    usableMl: drawnMl * tank.count,
  };
}

/** What is wanting or taken, upwards; what there is, downwards. */
const mmWords = (mm: number): string => `${roundedUp(mm, 1).toFixed(1)} mm`;
const roomWords = (mm: number): string => `${roundedDown(mm, 1).toFixed(1)} mm`;

/** Why the tank cannot be, in words; null where it can. */
function impossible(tank: TankShape): string | null {
  const insideMm = tank.section.narrowestMm(floorMm(tank), roofMm(tank));
  const heightMm = roofMm(tank) - floorMm(tank);
  const lengthMm = insideLengthMm(tank);
  if (heightMm <= 0) return `the plates leave no height: ${mmWords(-heightMm)} too low`;
  if (lengthMm <= 0) return `the plates leave no length: ${mmWords(-lengthMm)} too short`;
  if (insideMm <= 0) {
    return tank.kind === "side-pair"
      ? `no room between the cleading and the loading gauge: ${mmWords(-insideMm)} too little for each tank before it holds anything`
      : `the plates leave no width: ${mmWords(-insideMm)} too narrow`;
  }
  const taken = (tank.freeboardMm ?? 0) + (tank.deadDepthMm ?? 0);
  if (taken >= heightMm) {
    return `freeboard and dead depth take ${mmWords(taken)} of ${roomWords(heightMm)} inside height`;
  }
  const radius = tank.cornerRadiusMm;
  const across = tank.corners === 4 ? 2 : 1;
  if (radius * 2 > lengthMm || radius * across > insideMm) {
    return `a corner radius of ${mmWords(radius)} does not go into ${roomWords(insideMm)} by ${roomWords(lengthMm)} inside`;
  }
  const bore = tank.balancePipeMm ?? 0;
  if (bore > Math.min(heightMm, lengthMm)) {
    return `a balance pipe of ${mmWords(bore)} bore does not go into ${roomWords(heightMm)} by ${roomWords(lengthMm)} inside`;
  }
  for (const cut of tank.cutOuts) {
    const words = cutOutProblem(tank, cut);
    if (words !== null) return words;
  }
  const overlap = tank.cutOuts.some((a, i) => tank.cutOuts.slice(i + 1).some((b) => overlapping(a, b)));
  return overlap ? "two cut-outs overlap: describe them as one, or as two side by side" : null;
}

function cutOutProblem(tank: TankShape, cut: CutOut): string | null {
  const lengthMm = insideLengthMm(tank);
  const heightMm = roofMm(tank) - floorMm(tank);
  const slack = 1e-9;
  if (cut.alongMm + cut.lengthMm > lengthMm + slack || cut.upMm + cut.heightMm > heightMm + slack) {
    const inside = `the inside, which is ${roomWords(lengthMm)} long and ${roomWords(heightMm)} high`;
    const isLarger = cut.lengthMm > lengthMm + slack || cut.heightMm > heightMm + slack;
    return isLarger
      ? `a cut-out of ${mmWords(cut.lengthMm)} by ${mmWords(cut.heightMm)} is larger than ${inside}`
      : `a cut-out reaches out of ${inside}`;
  }
  const radius = tank.cornerRadiusMm;
  if (cut.alongMm < radius || cut.alongMm + cut.lengthMm > lengthMm - radius) {
    return `a cut-out reaches into a rounded corner: keep it ${mmWords(radius)} from the ends`;
  }
  const from = floorMm(tank) + cut.upMm;
  const narrowest = tank.section.narrowestMm(from, from + cut.heightMm);
  return cut.widthMm !== null && cut.widthMm > narrowest + slack
    ? `a cut-out of ${mmWords(cut.widthMm)} is wider than the ${roomWords(narrowest)} inside: leave its width out, and it goes right through`
    : null;
}

const overlapping = (a: CutOut, b: CutOut): boolean =>
  a.alongMm < b.alongMm + b.lengthMm &&
  b.alongMm < a.alongMm + a.lengthMm &&
  a.upMm < b.upMm + b.heightMm &&
  b.upMm < a.upMm + a.heightMm;
