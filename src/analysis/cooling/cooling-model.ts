import { metalHeatCapacityJPerK } from "../../boiler/metal.ts";
import { lossMeasure, STILL_AIR_POWER } from "../../boiler/surface-loss.ts";
import { fittedLine, heightAt } from "../../statistics/line-fit.ts";
import { vectorOf } from "../../statistics/vector.ts";
import { saturationPressurePa } from "../../steam/saturation.ts";
import { storedEnergyIn } from "../heat/stored-energy.ts";
import { leakShare } from "../leaks/leak-course.ts";
import type { Sources } from "../sources.ts";
import type { InSteam } from "../state/boiler-state.ts";
import { ICE_POINT_K, PA_PER_BAR } from "../state/circumstances.ts";
import type { CoolingReading } from "./shut-in-course.ts";

/**
 * Heat stored in a boiler shut in, reading by reading, and what each thing does to it:
 *
 *   stored(t) = stored at first - K x integral of (T - T_air)^1.25 - leak x heat of what leaked + heat of the dying fire
 *
 * All linear in what is sought. Heat is reckoned with the water that stood in the boiler at first, so that the leak
 * counts with the heat it carries off less the heat that its own water held.
 */
export interface CoolingModel {
  storedJ: Float64Array;
  /** standard uncertainty of each reading's stored heat, from the reading alone */
  uJ: Float64Array;
  /** integral of (T - T_air)^1.25 since the first reading, K^1.25 s */
  lossMeasures: Float64Array;
  /** heat lost by a leak of 1 g/min of boiling water at working pressure, J, and by how much more were it steam */
  perLeakJ: Float64Array;
  perLeakSteamJ: Float64Array;
  /** by a standard error of the dial and of the air's temperature, with a given K */
  dialJ(K: number): Float64Array;
  airJ(K: number): Float64Array;
  /** the metal's part of the heat capacity */
  metalShare: number;
  /** heat that the dying fire has given by each reading, as a share of all that it still gives */
  dyingShare(diesS: number): Float64Array;
  /** (T - T_air)^1.25 at working pressure, and mean excess of the window, K */
  workingMeasure: number;
  workingExcessK: number;
  meanExcessK: number;
  seconds: Float64Array;
  latentJPerG: number;
}

/** Recorded air temperature (our choice), K. */
const U_AIR_K = 0.5;
const STEP_BAR = 0.02;

export function coolingModel(
  from: Sources,
  readings: readonly CoolingReading[],
  grams: number,
  fireOutS: number,
): CoolingModel {
  const { around, locomotive } = from;
  const airK = around.ambientC + ICE_POINT_K;
  const stored = (barG: number) => storedEnergyIn(from, from.stateAtPressure(barG));
  const heat = (barG: number) => {
    const { fixedJ, jPerG } = stored(barG);
    return fixedJ + jPerG * grams;
  };
  const uAirK = Math.hypot(U_AIR_K, around.uAmbientK);
  const column = (value: (reading: CoolingReading, i: number) => number) => vectorOf(readings, value);
  const stateColumn = (value: (state: InSteam) => number) =>
    vectorOf(readings, ({ barG }) => value(from.stateAtPressure(barG)));
  const startS = readings[0]?.atS ?? 0;
  const seconds = column(({ atS }) => atS - startS);
  const course = cooledAlong(from, readings, airK);
  const slope = (of: (barG: number) => number) =>
    column((_, i) => {
      const barG = course[i] as number;
      return (of(barG + STEP_BAR) - of(barG - STEP_BAR)) / (2 * STEP_BAR);
    });
  const perBar = slope(heat);
  const kelvinPerBar = slope(around.boilingK);
  /** trapezoids from the first reading on */
  const summed = (ofReadings: Float64Array) => {
    let total = 0;
    return ofReadings.map((value, i) => {
      if (i > 0)
        total +=
          (((ofReadings[i - 1] as number) + value) / 2) *
          ((seconds[i] as number) - (seconds[i - 1] as number));
      return total;
    });
  };
  const times = (a: Float64Array, b: Float64Array) => a.map((value, i) => value * (b[i] as number));
  const share = leakShare(from);
  const working = from.stateAtPressure(locomotive.workingPressureBarG);
  const gPerS = column(({ barG }) => share(barG) / 60);
  const perGramJ = column(({ barG }) => stored(barG).jPerG);
  const leakedG = summed(gPerS);
  const bySteam = summed(
    times(
      gPerS,
      stateColumn(({ steam }) => steam.enthalpyJPerKg / 1000),
    ),
  );
  const byWater = summed(
    times(
      gPerS,
      stateColumn(({ water }) => water.enthalpyJPerKg / 1000),
    ),
  );
  const excessK = stateColumn(({ temperatureK }) => temperatureK - airK);
  const lossSlope = stateColumn(
    ({ temperatureK }) => STILL_AIR_POWER * lossMeasure(temperatureK, airK, STILL_AIR_POWER - 1),
  );
  const bias = column(({ biasBar }) => biasBar);
  const byDial = summed(times(times(lossSlope, kelvinPerBar), bias));
  const byAir = summed(lossSlope);
  const metalJPerK = metalHeatCapacityJPerK(locomotive.boiler.metalMassG, locomotive.boiler.metal);
  const lastS = seconds.at(-1) as number;

  return {
    seconds,
    storedJ: column(({ barG }) => heat(barG)),
    uJ: column(({ uBar }, i) => (perBar[i] as number) * uBar),
    lossMeasures: summed(stateColumn(({ temperatureK }) => lossMeasure(temperatureK, airK))),
    perLeakJ: column((_, i) => (byWater[i] as number) - (leakedG[i] as number) * (perGramJ[i] as number)),
    perLeakSteamJ: column((_, i) => (bySteam[i] as number) - (byWater[i] as number)),
    dialJ: (K) => column(({ biasBar }, i) => (perBar[i] as number) * biasBar + K * (byDial[i] as number)),
    airJ: (K) => column((_, i) => K * uAirK * (byAir[i] as number)),
    metalShare: (metalJPerK * (kelvinPerBar[0] as number)) / (perBar[0] as number),
    dyingShare: (diesS) => column(({ atS }) => 1 - Math.exp(-Math.max(0, atS - fireOutS) / diesS)),
    workingMeasure: lossMeasure(working.temperatureK, airK),
    workingExcessK: working.temperatureK - airK,
    meanExcessK: (summed(excessK).at(-1) as number) / lastS,
    latentJPerG: (working.steam.enthalpyJPerKg - working.water.enthalpyJPerKg) / 1000,
  };
}

/**
 * Pressure by the time of each reading, bar g, where she cools by the law of still air: (T - T_air)^-0.25 is a straight
 * line in time. What a reading's error does is taken there and not at the reading: read too low, heat would seem to go
 * steeper with pressure just where it was read too low, and the dial's bias would be told from chance (by a logger of 0.02
 * bar beside a dial of 0.07 bar bias the loss came out 2 % too low).
 */
function cooledAlong({ around }: Sources, readings: readonly CoolingReading[], airK: number): Float64Array {
  const power = 1 - STILL_AIR_POWER;
  const height = (barG: number) => (around.boilingK(barG) - airK) ** power;
  const line = fittedLine(readings.map(({ atS, barG, uBar }) => ({ x: atS, y: height(barG), uY: uBar })));
  return vectorOf(readings, ({ atS }) => {
    const kelvin = airK + heightAt(line, atS).value ** (1 / power);
    return (saturationPressurePa(kelvin) - around.atmospherePa) / PA_PER_BAR;
  });
}
