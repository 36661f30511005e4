import { pressureAt } from "../pressure/pressure-points.ts";
import type { Sources } from "../sources.ts";
import { uClockS } from "../state/clock-grain.ts";
import { BENT, type Reached } from "./rise-to-mark.ts";

/** So many standard uncertainties below a mark is below it. */
const BEYOND_DOUBT = 2;
/** A moment that is in doubt by more than this part of the time since lighting tells no mean power (our choice). */
export const TOLD = 0.2;

/**
 * When a pressure was met that she was below beyond doubt when steam was first used, by the readings since: between the
 * last below it and the first that is not.
 * @returns null where she may have met it before, was not read to meet it, or rose to it too slowly to tell when
 */
export function metUnderWay(from: Sources, barG: number, litS: number, usedS: number): Reached | null {
  const { errors, pressure, timeline } = from;
  if (!Number.isFinite(usedS) || !belowUntil(from, barG, usedS)) return null;
  const place = pressure.points.findIndex(([atS, read]) => atS > usedS && read >= barG);
  const [before, point] = [pressure.points[place - 1], pressure.points[place]];
  if (before === undefined || point === undefined) return null;
  if (timeline.of("valve").some(({ atS, state }) => state === "lifts" && atS >= litS && atS < before[0]))
    return null;
  const gapS = point[0] - before[0];
  const barPerS = (point[1] - before[1]) / gapS;
  const uS = Math.hypot(errors.pressureReadingBar / barPerS, BENT * gapS);
  const dialS = -errors.pressureBiasBar / barPerS;
  const atS = before[0] + (barG - before[1]) / barPerS;
  return Math.hypot(uS, dialS) > TOLD * (atS - litS) ? null : { atS, uS, dialS };
}

/** Whether she was below it until then, even if she warmed on as she did between the last two readings. */
function belowUntil({ errors, pressure, timeline, around }: Sources, barG: number, usedS: number): boolean {
  const [before, last] = pressure.points.filter(([atS]) => atS <= usedS).slice(-2);
  if (before === undefined || last === undefined) return false;
  // she came off none at the first steam
  const [fromS, fromBarG] =
    before[1] > 0 ? before : [Math.max(before[0], pressure.firstSteamS ?? before[0]), 0];
  const risenK = around.boilingK(Math.max(last[1], 0)) - around.boilingK(fromBarG);
  const pace = last[0] > fromS ? Math.max(0, risenK) / (last[0] - fromS) : 0;
  const laterS = usedS - last[0] + BEYOND_DOUBT * Math.SQRT2 * uClockS(timeline.entries);
  const mostK = Math.max(
    around.boilingK(Math.max(last[1], 0)) + pace * laterS,
    around.boilingK(Math.max(pressureAt(pressure.points, usedS) ?? 0, 0)),
  );
  const below = barG - BEYOND_DOUBT * Math.hypot(errors.pressureReadingBar, errors.pressureBiasBar);
  return mostK < around.boilingK(Math.max(below, 0));
}
