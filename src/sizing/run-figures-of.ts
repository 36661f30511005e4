import type { Analysis } from "../analysis/analyse.ts";
import { burningPart } from "../analysis/fuel/fuel-read.ts";
import { ratio } from "../analysis/ratio.ts";
import { reportOf } from "../analysis/report.ts";
import { absent, difference, type Figure, isMeasured, type Part, scaled } from "../quantity/measured.ts";
import type { Reported } from "../quantity/reported.ts";
import { feeders, type RunFigures } from "./run-figures.ts";

const notRun = absent("the engine did not run in this steaming");

/**
 * The figures of one run for sizing. Every part of their errors bears a source here: most are this run's own, and so meet
 * with their signs where its figures are put together (a lap not counted makes water and fuel a lap larger alike).
 */
export function runFiguresOf(analysis: Analysis): RunFigures {
  const { sources, perLap, per100m, perMinuteRunning, totals } = analysis;
  const { steaming } = sources;
  const running = analysis.phases.filter((phase) => phase.name === "running");
  const minutes = running.reduce((total, phase) => total + phase.toS - phase.fromS, 0) / 60;
  const sourced = (figure: Figure): Figure => withSources(figure, analysis);
  const burnt = sourced(
    minutes > 0 ? sources.fuel.burntG(running.map((phase) => [phase.fromS, phase.toS] as const)) : notRun,
  );
  const laps =
    perLap === null || !(minutes > 0) ? null : running.reduce((total, phase) => total + phase.laps, 0);
  const metres = distanceOf(analysis);
  const over = (figure: Figure, divisor: number | null): Figure =>
    divisor === null || !(divisor > 0) ? absent("not recorded") : shared(figure, 1 / divisor);
  const report = reportOf(analysis);
  return {
    steamingId: steaming.id,
    title: steaming.title ?? steaming.purpose,
    startedAt: steaming.startedAt,
    trainMassKg: steaming.train?.massKg ?? null,
    lapM: steaming.track?.lapM,
    per: {
      laps: {
        water: sourced(perLap?.water ?? absent("no laps were recorded")),
        fuel: sourced(perLap?.fuel ?? absent("no laps were recorded")),
        amount: laps,
      },
      minutes: {
        water: sourced(perMinuteRunning?.water ?? notRun),
        fuel: over(burnt, minutes),
        amount: minutes > 0 ? minutes : null,
      },
      distanceM: {
        water:
          per100m === null ? absent("no distance was recorded") : sourced(shared(per100m.water, 1 / 100)),
        fuel: over(burnt, metres),
        amount: metres,
      },
    },
    otherFuel:
      totals === null ? absent("nothing tells the fuel burnt") : rest(sourced(totals.fuelBurnt), burnt),
    metresPerMinute: metres === null || !(minutes > 0) ? null : metres / minutes,
    pumpPerRevolution: report.pump?.perRevolution ?? notTold("what the axle pump delivers"),
    coolingLoss: report.cooling?.lossAtWorkingPressure ?? notTold("the heat lost through the surface"),
    fedInSteam: fedInSteam(analysis),
  };
}

/** An injector works on steam alone; a pump or a bottle is known to feed against pressure if it did while she ran. */
function fedInSteam({ sources, phases }: Analysis): RunFigures["fedInSteam"] {
  const running = phases.filter(({ name }) => name === "running");
  const fed = sources.steaming.entries.flatMap((entry) => {
    if (entry.kind !== "feed") return [];
    const isRunning = running.some(({ fromS, toS }) => entry.atS > fromS && entry.atS <= toS);
    return isRunning || entry.by === "injector" ? [entry.by] : [];
  });
  return feeders.find((by) => fed.includes(by));
}

const notTold = (what: string): Reported => ({ value: null, why: `this run does not tell ${what}` });

const shared = (figure: Figure, factor: number): Figure =>
  isMeasured(figure) ? scaled(figure, factor, figure.unit) : figure;

/** All less a part of it: what is doubtful of the part is doubtful of the rest, in the other direction. */
function rest(all: Figure, part: Figure): Figure {
  if (!isMeasured(all) || !isMeasured(part)) return isMeasured(all) ? part : all;
  const left = difference(all, part);
  return { ...left, value: Math.max(0, left.value) };
}

/**
 * How a fire departs from burning evenly, and that nobody looks at what fuel is left, are ways of the engine and its owner
 * that one run has from the next; other random parts are of this run alone.
 */
function withSources(figure: Figure, { sources }: Analysis): Figure {
  if (!isMeasured(figure)) return figure;
  const { steaming, locomotive } = sources;
  const of = ({ name }: Part): string =>
    name === burningPart.uneven || name === burningPart.unread
      ? `${name} of ${locomotive.id}`
      : `${name} of steaming ${steaming.id}`;
  return { ...figure, parts: figure.parts.map((part) => ({ ...part, source: part.source ?? of(part) })) };
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
