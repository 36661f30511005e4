import type { Analysis } from "../analysis/analyse.ts";
import { reportOf } from "../analysis/report.ts";
import { ratio } from "../analysis/water.ts";
import { absent, type Figure, isMeasured, scaled } from "../quantity/measured.ts";
import type { Reported } from "../quantity/reported.ts";
import type { RunFigures } from "./run-figures.ts";

const notRun = absent("the engine did not run in this steaming");

export function runFiguresOf(analysis: Analysis): RunFigures {
  const { sources, perLap, per100m, perMinuteRunning, totals } = analysis;
  const { steaming } = sources;
  const running = analysis.phases.filter((phase) => phase.name === "running");
  const minutes = running.reduce((total, phase) => total + phase.toS - phase.fromS, 0) / 60;
  const burnt: Figure =
    minutes > 0 ? sources.fuel.burntG(running.map((phase) => [phase.fromS, phase.toS] as const)) : notRun;
  const laps = perLap === null ? null : running.reduce((total, phase) => total + phase.laps, 0);
  const metres = distanceOf(analysis);
  const over = (figure: Figure, divisor: number | null): Figure =>
    divisor === null || !(divisor > 0) ? absent("not recorded") : shared(figure, 1 / divisor);
  const report = reportOf(analysis);
  return {
    steamingId: steaming.id,
    title: steaming.title ?? steaming.purpose,
    startedAt: steaming.startedAt,
    trainMassKg: steaming.train?.massKg ?? null,
    per: {
      laps: {
        water: perLap?.water ?? absent("no laps were recorded"),
        fuel: perLap?.fuel ?? absent("no laps were recorded"),
        amount: laps,
      },
      minutes: {
        water: perMinuteRunning?.water ?? notRun,
        fuel: over(burnt, minutes),
        amount: minutes > 0 ? minutes : null,
      },
      distanceM: {
        water: per100m === null ? absent("no distance was recorded") : shared(per100m.water, 1 / 100),
        fuel: over(burnt, metres),
        amount: metres,
      },
    },
    otherFuel: totals === null ? absent("nothing tells the fuel burnt") : rest(totals.fuelBurnt, burnt),
    metresPerMinute: metres === null || !(minutes > 0) ? null : metres / minutes,
    pumpPerRevolution: report.pump?.perRevolution ?? notTold("what the axle pump delivers"),
    coolingLoss: report.cooling?.lossAtWorkingPressure ?? notTold("the heat lost through the surface"),
  };
}

const notTold = (what: string): Reported => ({ value: null, why: `this run does not tell ${what}` });

const shared = (figure: Figure, factor: number): Figure =>
  isMeasured(figure) ? scaled(figure, factor, figure.unit) : figure;

/** All less a part of it: what is doubtful of the part is doubtful of the rest, in the other direction. */
function rest(all: Figure, part: Figure): Figure {
  if (!isMeasured(all) || !isMeasured(part)) return isMeasured(all) ? part : all;
  return { value: Math.max(0, all.value - part.value), unit: all.unit, parts: part.parts };
}

function distanceOf({ per100m, perMinuteRunning, phases }: Analysis): number | null {
  const [a, b] = [per100m?.water ?? notRun, perMinuteRunning?.water ?? notRun];
  if (!isMeasured(a) || !isMeasured(b) || a.value === 0) return null;
  const minutes = phases
    .filter((phase) => phase.name === "running")
    .reduce((total, phase) => total + (phase.toS - phase.fromS) / 60, 0);
  const perMinute: Figure = ratio(b, a, "100 m/min");
  return isMeasured(perMinute) ? perMinute.value * 100 * minutes : null;
}
