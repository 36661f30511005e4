import type { Simulation } from "../../sample-data/simulator/simulate.ts";
import { drawnBetweenG, heatBetween, risePowerW } from "../../sample-data/simulator/truth-windows.ts";
import type { Analysis } from "../../src/analysis/analyse.ts";
import { fuelProperties } from "../../src/analysis/fuel/fuel-table.ts";
import type { Phase } from "../../src/analysis/state/phases.ts";
import { absent } from "../../src/quantity/measured.ts";
import type { Judged } from "./judged.ts";
import { judgedEngineAndPump } from "./judged-engine.ts";
import { judgedHolds } from "./judged-holds.ts";

/** A lap at the very end of a run is written within so many seconds of it, before or after. */
const STAMP_S = 6;

const notThere = absent("section is null");

/**
 * Figures of one simulated steaming beside their truth. Phases are judged over exactly the times the report gives them; laps
 * are the laps the engine really completed in the running phases.
 */
export function judgedFigures(simulation: Simulation, analysis: Analysis): Judged[] {
  const { truth, locomotive } = simulation;
  const { endS } = truth;
  const within = (fromS: number, toS: number) => fromS >= 0 && toS <= endS;
  const drawn = (fromS: number, toS: number) =>
    within(fromS, toS) ? drawnBetweenG(truth, fromS, toS) : null;
  const running = analysis.phases.filter((phase) => phase.name === "running");
  const runningDrawn = addedUp(running, (phase) => drawn(phase.fromS, phase.toS));
  const runningLaps = running.reduce(
    (total, phase) =>
      total +
      truth.lapTimesS.filter((atS) => atS > phase.fromS - STAMP_S && atS <= phase.toS + STAMP_S).length,
    0,
  );
  const judged: Judged[] = analysis.phases.map((phase) => {
    const grams = drawn(phase.fromS, phase.toS);
    return {
      name: `steaming rate, ${phase.name}`,
      figure: phase.steamingRate,
      truth: grams === null ? null : (grams * 60) / (phase.toS - phase.fromS),
    };
  });
  const { totals, perLap, heat } = analysis;
  if (totals !== null && totals.fromS !== null && totals.toS !== null) {
    judged.push({ name: "water drawn", figure: totals.waterDrawn, truth: drawn(totals.fromS, totals.toS) });
  }
  judged.push({
    name: "water a lap",
    figure: perLap?.water ?? notThere,
    truth: runningDrawn === null || runningLaps === 0 ? null : runningDrawn / runningLaps,
  });
  const properties = fuelProperties(locomotive.fuel);
  // all that was put in is the most it can be: such figures promise their range only
  const left = analysis.sources.fuel.leftUnread ? ", left unread" : "";
  if (heat !== null && heat.toS > heat.fromS && within(heat.fromS, heat.toS) && properties !== null) {
    const trueHeat = heatBetween(truth, properties.lowerHeatingValueMJPerKg * 1e6, heat.fromS, heat.toS);
    judged.push({ name: `efficiency${left}`, figure: heat.efficiency, truth: trueHeat.efficiency });
    judged.push({
      name: `evaporation ratio${left}`,
      figure: heat.evaporationRatio,
      truth: (drawn(heat.fromS, heat.toS) ?? Number.NaN) / trueHeat.fuelBurntG,
    });
    judged.push({
      name: `fuel burnt${left}`,
      figure: totals?.fuelBurnt ?? notThere,
      truth: truth.curves.burntG.at(-1) ?? null,
    });
    const burnt = addedUp(running, (phase) =>
      within(phase.fromS, phase.toS) ? heatBetween(truth, 1, phase.fromS, phase.toS).fuelBurntG : null,
    );
    judged.push({
      name: `fuel a lap${left}`,
      figure: perLap?.fuel ?? notThere,
      truth: burnt === null || runningLaps === 0 ? null : burnt / runningLaps,
    });
  }
  judged.push(...raisedInTruth(simulation, analysis));
  judged.push(...judgedHolds(simulation, analysis));
  return [...judged, ...judgedEngineAndPump(simulation, analysis)];
}

/**
 * Raising power to the true moment of working pressure, where it was met before steam was used to run, and those apart; else,
 * over the report's own window, to the highest that was raised.
 */
function raisedInTruth({ truth }: Simulation, { raising }: Analysis): Judged[] {
  if (raising === null) return [];
  const { workingPressureAtS, powerW } = truth.raising;
  const usedS = truth.curves.regulatorOpenS.findIndex((seconds) => seconds > 0);
  const met = workingPressureAtS !== null && (usedS < 0 || workingPressureAtS < usedS);
  const { power: figure, window } = raising;
  if (met)
    return [
      { name: "raising power", figure, truth: powerW },
      { name: "raising power, true moment", figure, truth: powerW },
    ];
  return window !== null && window[0] >= 0 && window[1] <= truth.endS
    ? [{ name: "raising power", figure, truth: risePowerW(truth, ...window) }]
    : [];
}

function addedUp(phases: readonly Phase[], value: (phase: Phase) => number | null): number | null {
  let total = 0;
  for (const phase of phases) {
    const one = value(phase);
    if (one === null) return null;
    total += one;
  }
  return total;
}
