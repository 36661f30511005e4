import { overlapS, type Timeline } from "../../logbook/timeline.ts";
import { fittedLine, heightAt } from "../../statistics/line-fit.ts";
import { saturationPressurePa } from "../../steam/saturation.ts";
import type { CameDown } from "../pressure/pressure-course.ts";
import type { PressureReading } from "../pressure/pressure-points.ts";
import { asWater, type Circumstances, ICE_POINT_K, PA_PER_BAR } from "./circumstances.ts";
import { COOLED_DOUBT, COOLING_S } from "./cooling-away.ts";
import { fireStretches, runningStretches } from "./phases.ts";

/** A reading so long before the fire went out shows what stood then, s (our choice). */
const READ_NEAR_S = 60;
/** The way back is that of so many first seconds of cooling (our choice): what she stands above the air falls by like parts. */
const AS_COOLED_S = 900;
/** No valve lets it come above this part of working pressure (common practice of model codes). */
const MOST = 1.1;

/**
 * A fire that burns brings the pressure up to the moment it is put out, and not to the first reading after it. Null where it
 * was read near that moment, or where something but cooling may have moved it until the first reading after.
 * @param readings in order of time
 */
export function cameDown(
  timeline: Timeline,
  readings: readonly PressureReading[],
  around: Circumstances,
  workingBarG: number,
): CameDown | null {
  const [fire, relit] = fireStretches(timeline);
  if (fire === undefined || !timeline.of("fire").some(({ atS, state }) => state === "out" && atS === fire[1]))
    return null;
  const [litS, outS] = fire;
  const beforeUse = Math.min(relit?.[0] ?? Infinity, firstMoved(timeline, outS));
  const after = readings.filter(({ atS }) => atS >= outS && atS < beforeUse);
  const [first] = after;
  const before = readings.findLast(({ atS }) => atS <= outS);
  if (before === undefined || first === undefined || outS - before.atS <= READ_NEAR_S) return null;
  // read as high before, she was not on her way up
  if (first.barG <= before.barG) return null;
  if (overlapS(runningStretches(timeline), litS, first.atS) > 0) return null;
  const airK = asWater(around.ambientC) + ICE_POINT_K;
  const above = (barG: number) => around.boilingK(Math.max(barG, 0)) - airK;
  const cooling = after
    .filter(({ atS, barG }) => barG > 0 && atS - first.atS <= AS_COOLED_S)
    .map(({ atS, barG, uBar }) => ({
      x: atS,
      y: Math.log(above(barG)),
      uY: above(barG + uBar) / above(barG) - 1,
    }));
  const usual = usualWayBack(above(first.barG), first.atS - outS);
  const told = cooling.length < 2 ? null : heightAt(fittedLine(cooling), outS);
  // by her own pace, or by the usual one, whichever is surer
  const [aboveK, uK] =
    told !== null && told.u * Math.exp(told.value) < usual.uK
      ? [Math.exp(told.value), told.u * Math.exp(told.value)]
      : [usual.aboveK, usual.uK];
  const most = above(MOST * workingBarG);
  const barG = (saturationPressurePa(airK + Math.min(aboveK, most)) - around.atmospherePa) / PA_PER_BAR;
  return barG > first.barG ? { atS: outS, barG, uK } : null;
}

function usualWayBack(readAboveK: number, forS: number): { aboveK: number; uK: number } {
  const aboveK = readAboveK * Math.exp(forS / COOLING_S);
  return { aboveK, uK: COOLED_DOUBT * (aboveK - readAboveK) };
}

/** When something was first done or seen after a moment that moves pressure without a fire. */
const firstMoved = ({ entries }: Timeline, afterS: number): number =>
  entries.find(
    (entry) =>
      entry.atS >= afterS &&
      (entry.kind === "feed" ||
        entry.kind === "blowdown" ||
        entry.kind === "valve" ||
        entry.kind === "lap" ||
        entry.kind === "drained" ||
        (entry.kind === "regulator" && entry.state === "open")),
  )?.atS ?? Number.POSITIVE_INFINITY;
