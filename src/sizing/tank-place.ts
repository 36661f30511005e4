import { type BuildUp, cleadingRadiusMm } from "./build-up.ts";
import { roundedUp } from "./rounding.ts";
import type { TankShape } from "./tank-shape.ts";

const words = (mm: number): string => `${roundedUp(mm, 1).toFixed(1)} mm`;
const HAIR_MM = 1e-9;

/** Why a box cannot stand where it is to stand, in words; null where it can, or where its place is not said. */
export function misplaced(tank: TankShape, up: BuildUp, beside: readonly TankShape[]): string | null {
  if (tank.kind === "side-pair") return null;
  if (up.gaugeMm !== null) {
    const overMm = tank.widthMm - (up.gaugeMm - 2 * (up.plateworkMm + up.rivetsMm));
    if (overMm > HAIR_MM) return `it is ${words(overMm)} too wide for the loading gauge`;
  }
  if (!tank.isPlaced) return null;
  return up.boilerRadiusMm === null
    ? null
    : (intoBoiler(tank, cleadingRadiusMm(up) + up.clearanceMm) ?? intoSideTanks(tank, beside));
}

/** The box stands across the engine's middle: what matters is its top below the boiler, or its underside above. */
function intoBoiler(tank: TankShape, radiusMm: number): string | null {
  const [low, high] = [tank.undersideMm, tank.undersideMm + tank.heightMm];
  if (high <= -radiusMm + HAIR_MM || low >= radiusMm - HAIR_MM) return null;
  return low + high <= 0
    ? `its top stands ${words(high + radiusMm)} too high under the boiler's cleading and its clearance`
    : `its underside stands ${words(radiusMm - low)} too low over the boiler's cleading and its clearance`;
}

function intoSideTanks(tank: TankShape, beside: readonly TankShape[]): string | null {
  for (const side of beside) {
    const low = Math.max(tank.undersideMm, side.undersideMm);
    const high = Math.min(tank.undersideMm + tank.heightMm, side.undersideMm + side.heightMm);
    if (!(high > low + HAIR_MM)) continue;
    const nearestMm = Math.min(side.section.innerMm(low), side.section.innerMm(high)) - side.plateMm;
    const intoMm = tank.widthMm / 2 - nearestMm;
    if (intoMm > HAIR_MM) return `it reaches ${words(intoMm)} into each of the ${side.name}`;
  }
  return null;
}
