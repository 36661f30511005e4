import { feedWaterOf } from "../../sample-data/simulator/feed.ts";
import type { Simulation } from "../../sample-data/simulator/simulate.ts";
import { saturationAt } from "../../sample-data/simulator/steam-table.ts";
import { between, drawnBetweenG } from "../../sample-data/simulator/truth-windows.ts";
import type { Analysis } from "../../src/analysis/analyse.ts";
import type { Figure } from "../../src/quantity/measured.ts";
import { judgedFigures } from "../calibration/judged-figures.ts";

/** A figure at a place of the report contract, and what it was in truth; null where that cannot be known. */
export interface JudgedKey {
  key: string;
  figure: Figure;
  truth: number | null;
}

const keyOfName: Record<string, string> = {
  "water drawn": "totals.waterDrawn",
  "water a lap": "perLap.water",
  efficiency: "heat.efficiency",
  "evaporation ratio": "heat.evaporationRatio",
  "fuel burnt": "totals.fuelBurnt",
  "fuel a lap": "perLap.fuel",
  "raising power": "raising.power",
  "loss in still air": "cooling.lossAtWorkingPressure",
  "leak, shut in": "cooling.leak",
  drip: "leaks[].rate",
  "valve lifts": "safetyValve.lift",
  "valve reseats": "safetyValve.reseat",
  "highest pressure": "safetyValve.highest",
  "dry demand": "engine.dryDemand",
  "missing quantity": "engine.missingQuantity",
  "pump, ml a turn": "pump.perRevolution",
  "volumetric efficiency": "pump.volumetricEfficiency",
};
const keyOf = (name: string) =>
  name.startsWith("steaming rate") ? "phases[].steamingRate" : (keyOfName[name] ?? null);

/**
 * Heat of evaporation at 100 °C, J/kg, by IAPWS-IF97 as the factor of evaporation is defined: 2256.47 kJ/kg. (Spirax Sarco, TI-GCM-01,
 * prints 2256.66 at 0 bar g, which is 0.01 % more: a tenth of what the factor is in doubt by.)
 */
const FROM_AND_AT_J_PER_KG = (() => {
  const { waterJPerKg, steamJPerKg, pressurePa, waterM3PerKg, steamM3PerKg } = saturationAt(373.15);
  return steamJPerKg - waterJPerKg + pressurePa * (steamM3PerKg - waterM3PerKg);
})();

/** Every figure of one simulated steaming by its place in the report, beside the simulator's own truth. */
export const judgedKeys = (simulation: Simulation, analysis: Analysis): JudgedKey[] => [
  ...judgedFigures(simulation, analysis).flatMap(({ name, figure, truth }): JudgedKey[] => {
    const key = keyOf(name);
    return key === null ? [] : [{ key, figure, truth }];
  }),
  ...furtherKeys(simulation, analysis),
];

/** Those that follow from the others, or are judged nowhere else. */
export function furtherKeys(simulation: Simulation, analysis: Analysis): JudgedKey[] {
  const { truth, steaming, locomotive } = simulation;
  const { curves } = truth;
  const { totals, heat, forecast, engine } = analysis;
  const judged: JudgedKey[] = [];
  const add = (key: string, figure: Figure | undefined, true_: number | null) => {
    if (figure !== undefined) judged.push({ key, figure, truth: true_ });
  };
  if (totals?.fromS != null && totals.toS != null)
    add("totals.feed", totals.feed, between(truth, "fedG", totals.fromS, totals.toS));

  const running = analysis.phases.filter(({ name }) => name === "running");
  const over = (of: (fromS: number, toS: number) => number) =>
    running.reduce((sum, { fromS, toS }) => sum + of(fromS, toS), 0);
  const drawn = over((fromS, toS) => drawnBetweenG(truth, fromS, toS));
  // whole laps, as a lap's water is: what was begun and not finished counts for neither
  const aLap = judgedFigures(simulation, analysis).find(({ name }) => name === "water a lap")?.truth ?? null;
  const { lapM } = steaming.track ?? {};
  add(
    "per100m.water",
    analysis.per100m?.water,
    aLap === null || lapM === undefined ? null : (100 * aLap) / lapM,
  );
  add(
    "perMinuteRunning.water",
    analysis.perMinuteRunning?.water,
    (60 * drawn) / over((fromS, toS) => toS - fromS),
  );
  if (heat !== null && heat.toS > heat.fromS) {
    const factor = trueFactor(simulation, heat.fromS, heat.toS);
    const ratio = drawnBetweenG(truth, heat.fromS, heat.toS) / between(truth, "burntG", heat.fromS, heat.toS);
    add("heat.factorOfEvaporation", heat.factorOfEvaporation, factor);
    add("heat.equivalentEvaporation", heat.equivalentEvaporation, ratio * factor);
  }
  add(
    "engine.overallEfficiency",
    engine?.overallEfficiency,
    (truth.engine?.workJ ?? 0) / truth.heat.fuelHeatJ,
  );
  add("safetyValve.rise", analysis.safetyValve?.rise, truth.safetyValve.rise);
  for (const { fitting, atS, equivalentHole } of analysis.leaks ?? []) {
    const drip = truth.drips.find((one) => one.fitting === fitting && one.atS === atS);
    const water = truth.leaks.find((one) => one.fitting === fitting)?.side === "water";
    const atmosphereBar = (steaming.conditions?.atmosphereHPa ?? 1013.25) / 1000;
    const rate = drip?.gPerMinAtWorkingPressure ?? Number.NaN;
    add(
      "leaks[].equivalentHole",
      equivalentHole,
      holeMm(rate, water, locomotive.workingPressureBarG, atmosphereBar),
    );
  }
  if (forecast !== null) {
    add("forecast.waterAboveLowest", forecast.waterAboveLowest, truth.aboveLowestG);
    // how it would have gone on is only known where she ran on unfed until the water was at its lowest
    const unfed = between(truth, "fedG", forecast.atS, truth.endS) === 0;
    const lowestS = unfed && forecast.atS < truth.endS ? truth.lowestLevelAtS : null;
    const lapM = steaming.track?.lapM ?? Number.NaN;
    add("forecast.minutesToLowest", forecast.minutesToLowest, lowestS && (lowestS - forecast.atS) / 60);
    add(
      "forecast.lapsToLowest",
      forecast.lapsToLowest,
      lowestS && between(truth, "distanceM", forecast.atS, lowestS) / lapM,
    );
  }
  return judged;

  /** Of steam of the day's dryness at the pressure at which it left, over the fire's time. */
  function trueFactor({ steaming: { conditions } }: Simulation, fromS: number, toS: number): number {
    const { feedC = 15, dryness = 1, atmosphereHPa = 1013.25 } = conditions ?? {};
    let [heatJ, allG] = [0, 0];
    for (let s = Math.ceil(fromS); s < Math.floor(toS); s++) {
      const g = (curves.drawnG[s + 1] ?? 0) - (curves.drawnG[s] ?? 0);
      const at = saturationAt((curves.temperatureC[s] ?? 0) + 273.15);
      const water = at.waterJPerKg + at.pressurePa * at.waterM3PerKg;
      const steam = at.steamJPerKg + at.pressurePa * at.steamM3PerKg;
      heatJ += g * (water + dryness * (steam - water));
      allG += g;
    }
    const feedJPerKg = feedWaterOf(feedC, atmosphereHPa * 100).joulesPerKg(2e5);
    return (heatJ / allG - feedJPerKg) / FROM_AND_AT_J_PER_KG;
  }
}

/** Round hole: steam by Napier, 0.5245 kg/h for a mm2 and a bar (Babcock & Wilcox, Steam, eq. 49); water by Torricelli. */
function holeMm(gPerMin: number, water: boolean, workingBarG: number, atmosphereBar: number): number {
  const kgPerH = 0.06 * gPerMin;
  const { waterM3PerKg } = saturationAt(273.15 + 143.6);
  const perMm2 = water
    ? (3600 * 1e-6 * Math.sqrt(2 * workingBarG * 1e5 * waterM3PerKg)) / waterM3PerKg
    : 0.5245 * (workingBarG + atmosphereBar);
  return Math.sqrt(((kgPerH / perMm2) * 4) / Math.PI);
}
