import type { Timeline } from "../../logbook/timeline.ts";
import { clockGrainS } from "../state/clock-grain.ts";
import type { Phase, Stretch } from "../state/phases.ts";
import type { Clock } from "./fuel-burning.ts";
import type { FuelStock } from "./fuel-stock.ts";
import type { Ending } from "./left-unread.ts";

/** Chance that a fire burnt dry (our estimates): gas has a tap, spirit none and is mostly let burn out (common practice). */
const DRY = { spirit: 0.7, gas: 0.4 };
/** A hand that puts out a fire shuts the regulator before or after, and writes down both within so long, s (our choice). */
const AT_ONCE_S = 10;
/**
 * How often so of fires that burnt dry, and of those put out (our estimates): nobody puts a fire out under an engine that
 * is under way, so one that ran on had none left; she who puts it out stops with it, or had stopped before; one that burnt dry is as like to be
 * noticed while she stands as by her stopping.
 */
const SEEN = {
  ranOn: { dry: 0.35, putOut: 0.01 },
  stoppedWithIt: { dry: 0.25, putOut: 0.7 },
  neither: { dry: 0.4, putOut: 0.29 },
};

/** What is put on within so many seconds of the match is what the fire was laid with (our choice). */
const LAYING_S = 300;
/** A grate is fired again to what it was laid with, as the state of a fire is matched in trials: give or take (our estimate). */
const KEPT_TO = 0.15;
/** And how it burnt since, against how it burnt before. */
const SINCE = 0.2;

/** Steam from this part of working pressure on, when a grate is said to be lit, came of a fire that burnt before (our choice). */
const IN_STEAM = 0.5;
/** Fires made alike at both ends of a trial differ by so much of all that was fired between (our estimate). */
export const ALIKE_WITHIN = 0.1;

/**
 * Whether the log begins with a grate in steam, as trials do: unless she is running still it is left as it was found, and all that was
 * fired is burnt.
 */
export function leftAsFound(
  timeline: Timeline,
  phases: readonly Phase[],
  litS: number,
  workingBarG: number,
): boolean {
  if (phases.at(-1)?.name === "running") return false;
  const found = timeline.of("pressure").findLast(({ atS }) => atS <= litS);
  return found !== undefined && found.barG >= IN_STEAM * workingBarG;
}

/** How a fire of liquid or gas ended: by what she did when it was out. */
export function endingOfBurner(
  timeline: Timeline,
  phases: readonly Phase[],
  fire: readonly Stretch[],
  kind: "spirit" | "gas",
): Ending {
  const { dry, putOut } = SEEN[whenItWasOut(timeline, phases, fire.at(-1)?.[1] ?? Number.NaN)];
  const likeDry = DRY[kind] * dry;
  return { dryChance: likeDry / (likeDry + (1 - DRY[kind]) * putOut) };
}

function whenItWasOut(timeline: Timeline, phases: readonly Phase[], outS: number): keyof typeof SEEN {
  const atOnceS = Math.max(AT_ONCE_S, clockGrainS(timeline.entries));
  const ran = phases.filter(({ name, fromS }) => name === "running" && fromS < outS);
  if (ran.some(({ toS }) => toS > outS + atOnceS)) return "ranOn";
  // a run that ends with the log tells of no stop
  const stops = [
    ...timeline.of("regulator").flatMap(({ state, atS }) => (state === "shut" ? [atS] : [])),
    ...ran.flatMap(({ toS }) => (toS === timeline.lastS ? [] : [toS])),
    ...timeline.of("phase").flatMap(({ name, atS }) => (name === "shut-in" ? [atS] : [])),
  ];
  return stops.some((atS) => Math.abs(atS - outS) <= atOnceS) ? "stoppedWithIt" : "neither";
}

/** What lies on a grate at the end: what it was kept to when it was last fired, less what burnt since at the pace till then. */
export function endingOfGrate(timeline: Timeline, stock: FuelStock, burning: Clock, litS: number): Ending {
  const { putInG } = stock;
  const fired = timeline
    .of("fuel")
    .filter(({ action, atS, g }) => action === "added" && atS > litS + LAYING_S && (g ?? 0) > 0);
  const firedG = fired.reduce((sum, { g }) => sum + (g ?? 0), 0);
  const laidG = putInG - firedG;
  const last = fired.at(-1);
  if (last === undefined || !(laidG > 0)) return { laidPart: 1 };
  const told = burning(litS, last.atS);
  const sinceG = told > 0 ? (firedG / told) * burning(last.atS, Number.POSITIVE_INFINITY) : 0;
  return {
    bedPart: Math.max(0, laidG - sinceG) / putInG,
    uBedPart: Math.hypot(KEPT_TO * laidG, SINCE * sinceG) / putInG,
  };
}
