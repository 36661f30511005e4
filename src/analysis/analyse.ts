import type { Locomotive } from "../logbook/locomotive.ts";
import type { Steaming } from "../logbook/steaming.ts";
import { eitherWay } from "../quantity/either-way.ts";
import { absent, exact, type Figure, type Measured, scaled, sum } from "../quantity/measured.ts";
import { type ColdHold, coldHoldOf } from "./cold-hold/cold-hold.ts";
import { type Cooling, coolingOf } from "./cooling/cooling.ts";
import { type Engine, engineOf } from "./engine/engine.ts";
import { fedInAll, type Pump, pumpOf } from "./engine/pump.ts";
import { type Forecast, forecastOf } from "./forecast/forecast.ts";
import { ALWAYS } from "./fuel/fuel-read.ts";
import { withPumpByHeat } from "./heat/fed-by-heat.ts";
import { type Heat, heatOf } from "./heat/heat.ts";
import { type Raising, raisingOf } from "./heat/raising.ts";
import { WHEN_SHE_RAN_UNKNOWN } from "./laps/way.ts";
import { type DripFigures, leaksOf } from "./leaks/leaks.ts";
import { inSteamS, meanOver } from "./pressure/pressure-over-time.ts";
import { sourcesWithThermometer } from "./pressure/thermometer-between.ts";
import { ratio } from "./ratio.ts";
import type { Warning } from "./report-schema.ts";
import type { SheetSources, Sources } from "./sources.ts";
import { heldCold, steamFromS } from "./state/held-cold.ts";
import { lengthS, type Phase, type Stretch } from "./state/phases.ts";
import { type SafetyValveFigures, safetyValveOf } from "./valve/safety-valve.ts";
import { warningsOf } from "./warnings.ts";
import { waterHeldCold } from "./water/held-cold-water.ts";
import { drawnInAll, drawnWithin, noRateOf, rateWithin, type Water, waterOf } from "./water/water.ts";

export interface PhaseFigures extends Phase {
  steamingRate: Figure;
  laps: number;
  meanPressureBarG: number | null;
}

export interface Totals {
  fromS: number | null;
  toS: number | null;
  waterDrawn: Figure;
  feed: Figure;
  fuelBurnt: Figure;
  laps: number;
  distanceM: number | null;
  inSteamS: number | null;
  runningS: number;
}

/** A whole steaming worked out, every figure with its parts of uncertainty still by source. */
export interface Analysis {
  sources: SheetSources;
  water: Water;
  phases: readonly PhaseFigures[];
  totals: Totals | null;
  perLap: { water: Figure; fuel: Figure } | null;
  per100m: { water: Figure } | null;
  perMinuteRunning: { water: Figure } | null;
  raising: Raising | null;
  heat: Heat | null;
  forecast: Forecast | null;
  cooling: Cooling | null;
  coldHold: ColdHold | null;
  safetyValve: SafetyValveFigures | null;
  leaks: readonly DripFigures[] | null;
  pump: Pump | null;
  engine: Engine | null;
  warnings: readonly Warning[];
}

/**
 * Works out one steaming.
 * @param options.untilS uses only what had been logged by then, s since the start
 */
export function analyse(
  locomotive: Locomotive,
  steaming: Steaming,
  options: { untilS?: number } = {},
): Analysis {
  const logged = sourcesWithThermometer(locomotive, steaming, options.untilS);
  const water = heldCold(steaming, logged.timeline)
    ? waterHeldCold(logged)
    : withPumpByHeat(logged, waterOf(logged));
  const heat = heatOf(logged, water);
  const sources = heat === null ? logged : { ...logged, fuel: heat.fuel };
  const runs = runsOf(sources);
  const phases = sources.phases.map(
    (phase): PhaseFigures => ({
      ...phase,
      steamingRate: rateWithin(water, phase.fromS, phase.toS),
      laps: phase.name === "running" ? sources.laps.wholeIn(...lapWindow(runs, phase)) : 0,
      meanPressureBarG: meanOver(sources.pressure, phase.fromS, phase.toS),
    }),
  );
  const pump = pumpOf(sources, water);
  const before = { sources, water, phases, heat, pump, raising: raisingOf(sources, water) };
  return {
    ...before,
    totals: totalsOf(sources, water),
    ...whileRunning(sources, water),
    cooling: coolingOf(sources, water),
    coldHold: coldHoldOf(sources),
    safetyValve: safetyValveOf(sources),
    leaks: leaksOf(sources),
    forecast: forecastOf(sources, water),
    engine: engineOf(sources, water, heat),
    warnings: warningsOf(before),
  };
}

function totalsOf(sources: SheetSources, water: Water): Totals | null {
  const { timeline, laps, fuel, pressure } = sources;
  const touched = ["level", "weight", "fill", "drained", "feed", "fuel", "lap", "revolutions"] as const;
  const tracesTouch = timeline.traces.some(
    (trace) => trace.channel === "levelMm" || trace.channel === "massG",
  );
  if (!tracesTouch && touched.every((kind) => timeline.of(kind).length === 0)) return null;
  const { drawn: waterDrawn, ...between } = drawnInAll(water);
  const everything = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] as const;
  return {
    ...between,
    waterDrawn,
    feed: fedInAll(sources, water),
    fuelBurnt: fuel.burntG(ALWAYS),
    laps: laps.wholeIn(...everything),
    distanceM: laps.distanceM(...everything),
    inSteamS: heldCold(sources.steaming, timeline)
      ? 0
      : pressure.points.length === 0
        ? null
        : inSteamS(pressure, steamFromS(sources, timeline.firstS ?? 0), timeline.lastS ?? 0),
    runningS: lengthS(windowsOf(runsOf(sources))),
  };
}

const runsOf = ({ phases }: Sources): Phase[] => phases.filter((phase) => phase.name === "running");
const windowsOf = (runs: readonly Phase[]): Stretch[] => runs.map(({ fromS, toS }) => [fromS, toS]);

/**
 * Laps are run while running, but may be written down once the engine has stopped: those recorded until the next
 * run begins belong to this one, and those before the first run to the first.
 */
function lapWindow(runs: readonly Phase[], run: Phase): Stretch {
  const place = runs.indexOf(run);
  return [
    place === 0 ? Number.NEGATIVE_INFINITY : run.fromS,
    runs[place + 1]?.fromS ?? Number.POSITIVE_INFINITY,
  ];
}

function whileRunning(
  sources: Sources,
  water: Water,
): Pick<Analysis, "perLap" | "per100m" | "perMinuteRunning"> {
  const runs = runsOf(sources);
  const { laps, fuel } = sources;
  if (runs.length === 0) {
    const unknown = absent(WHEN_SHE_RAN_UNKNOWN);
    return laps.countIn(Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY) > 0
      ? {
          perLap: { water: unknown, fuel: unknown },
          per100m: { water: unknown },
          perMinuteRunning: { water: unknown },
        }
      : { perLap: null, per100m: null, perMinuteRunning: null };
  }
  const lapM = sources.steaming.track?.lapM;
  const windows = windowsOf(runs);
  const drawn = drawnWithin(water, windows);
  const burnt = fuel.burntG(windows);
  const lapWindows = runs.map((run) => lapWindow(runs, run));
  const run = lapWindows.map(([fromS, toS]) => laps.runIn(fromS, toS)).reduce(sum);
  const otherwise = lapWindows.some(([fromS, toS]) => laps.otherwiseIn(fromS, toS) !== null)
    ? lapWindows.map(([fromS, toS]) => laps.otherwiseIn(fromS, toS) ?? laps.runIn(fromS, toS)).reduce(sum)
    : null;
  const metres = lapWindows.reduce((total, [fromS, toS]) => total + (laps.distanceM(fromS, toS) ?? 0), 0);
  const hundredsOf = (count: Measured) =>
    lapM !== undefined && count.value > 0
      ? scaled(count, lapM / 100, "100 m")
      : metres > 0
        ? exact(metres / 100, "100 m")
        : absent("the length of a lap was not recorded");
  const untravelled = run.value === 0 && metres === 0;
  const by = (used: Figure, divisorOf: (count: Measured) => Figure) =>
    eitherWay(
      ratio(used, divisorOf(run), "g"),
      otherwise === null ? null : ratio(used, divisorOf(otherwise), "g"),
    );
  const itself = (count: Measured) => count;
  return {
    perLap: run.value === 0 ? null : { water: by(drawn, itself), fuel: by(burnt, itself) },
    per100m: untravelled
      ? null
      : { water: hundredsOf(run).value === null ? hundredsOf(run) : by(drawn, hundredsOf) },
    perMinuteRunning: { water: noRateOf(water) ?? ratio(drawn, exact(lengthS(windows) / 60, "min"), "g") },
  };
}
