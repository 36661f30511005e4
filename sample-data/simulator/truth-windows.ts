import type { PhaseName } from "./ledger.ts";
import { type CounterName, curveAt } from "./ledger.ts";
import type { TrueHeat, TruePhase, Truth } from "./truth-types.ts";

/** Growth of a counter between two times, in its own unit. */
export const between = (
  truth: Pick<Truth, "curves">,
  name: CounterName,
  fromS: number,
  toS: number,
): number => curveAt(truth.curves[name], toS) - curveAt(truth.curves[name], fromS);

/** All that left the boiler between two times, g (blow-down and draining apart). */
export const drawnBetweenG = (truth: Pick<Truth, "curves">, fromS: number, toS: number): number =>
  between(truth, "drawnG", fromS, toS);

/** Water and steam in the boiler, g. */
export const massAtG = (truth: Pick<Truth, "curves">, atS: number): number =>
  curveAt(truth.curves.massG, atS);

/** Useful heat, heat of the fuel burnt, and their ratio. */
export function heatBetween(
  truth: Pick<Truth, "curves">,
  lowerHeatingJPerKg: number,
  fromS: number,
  toS: number,
): TrueHeat {
  const stored = truth.curves.storedJ;
  const usefulJ =
    curveAt(stored, toS) -
    curveAt(stored, fromS) +
    between(truth, "carriedOffJ", fromS, toS) -
    between(truth, "broughtJ", fromS, toS);
  const fuelBurntG = between(truth, "burntG", fromS, toS);
  const fuelHeatJ = (fuelBurntG / 1000) * lowerHeatingJPerKg;
  return { fromS, toS, fuelBurntG, fuelHeatJ, usefulJ, efficiency: usefulJ / fuelHeatJ };
}

/** Mean rise of stored energy between two times, W. */
export const risePowerW = (truth: Pick<Truth, "curves">, fromS: number, toS: number): number =>
  (curveAt(truth.curves.storedJ, toS) - curveAt(truth.curves.storedJ, fromS)) / (toS - fromS);

export function phaseBetween(
  truth: Pick<Truth, "curves" | "lapTimesS">,
  name: PhaseName,
  fromS: number,
  toS: number,
): TruePhase {
  const waterDrawnG = drawnBetweenG(truth, fromS, toS);
  const pressures = truth.curves.pressureBarG.slice(Math.ceil(fromS), Math.floor(toS) + 1);
  return {
    name,
    fromS,
    toS,
    waterDrawnG,
    meanRateGPerMin: toS > fromS ? (waterDrawnG * 60) / (toS - fromS) : 0,
    laps: truth.lapTimesS.filter((atS) => atS > fromS && atS <= toS).length,
    meanPressureBarG: pressures.reduce((sum, barG) => sum + barG, 0) / Math.max(pressures.length, 1),
  };
}
