import type { Timeline } from "../../logbook/timeline.ts";
import type { Phase, Stretch } from "../state/phases.ts";
import type { Clock } from "./fuel-burning.ts";
import type { FuelStock } from "./fuel-stock.ts";
import type { Ending } from "./left-unread.ts";

/** Running on so long with the fire out, nobody put it out: the regulator shut at one go with it is written so near, s (our choice). */
const RAN_ON_S = 30;
/** Chances that a fire burnt dry (our estimates): gas has a tap, spirit none and is mostly let burn out (common practice). */
const DRY = { ranOn: 0.97, spirit: 0.7, gas: 0.4 };
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

/** How a fire of liquid or gas ended: she runs on a while where it went out by itself. */
export function endingOfBurner(
  phases: readonly Phase[],
  fire: readonly Stretch[],
  kind: "spirit" | "gas",
): Ending {
  const outS = fire.at(-1)?.[1] ?? Number.NaN;
  const ranOn = phases.some(
    ({ name, fromS, toS }) => name === "running" && fromS < outS && toS > outS + RAN_ON_S,
  );
  return { dryChance: ranOn ? DRY.ranOn : DRY[kind] };
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
