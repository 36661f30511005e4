import { abscissaOf, fittedLine, heightAt, type Line } from "../../statistics/line-fit.ts";
import { pressureAt } from "../pressure/pressure-points.ts";
import type { Sources } from "../sources.ts";
import { uClockS } from "../state/clock-grain.ts";
import { BENT, FIRE_STRAYS, NARROW_S, PACE_TOLD, type Reached } from "./rise-to-mark.ts";

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

/** Whether she was below it until then, even if she warmed on as she did. */
function belowUntil(from: Sources, barG: number, usedS: number): boolean {
  const { around, errors, pressure, timeline } = from;
  const mostK = cameAtMostK(from, usedS, BEYOND_DOUBT * Math.SQRT2 * uClockS(timeline.entries));
  if (mostK === null) return false;
  const below = barG - BEYOND_DOUBT * Math.hypot(errors.pressureReadingBar, errors.pressureBiasBar);
  const readK = around.boilingK(Math.max(pressureAt(pressure.points, usedS) ?? 0, 0));
  return Math.max(mostK, readK) < around.boilingK(Math.max(below, 0));
}

/**
 * The most that her boiling temperature can have come to when steam was first used, or so much later, K, by the line through the last
 * two minutes of the rise, for two readings close together may show a like number while she rises.
 * @returns null where fewer than two pressures were read, or the blower hurried her since
 */
function cameAtMostK(from: Sources, usedS: number, laterS: number): number | null {
  const until = from.pressure.points.filter(([atS]) => atS <= usedS);
  const [before, last] = until.slice(-2);
  if (before === undefined || last === undefined) return null;
  // with the blower on since, she came faster than was read
  const blown = from.timeline
    .of("blower")
    .some(({ atS, state }) => state === "on" && atS > before[0] && atS < usedS);
  if (blown) return null;
  const line = paceUntil(from, usedS);
  const came = line === null || line.slope <= 0 ? null : heightAt(line, usedS + laterS);
  return Math.max(
    from.around.boilingK(Math.max(0, last[1])),
    came === null ? 0 : came.value + BEYOND_DOUBT * came.u,
  );
}

/** The pace until steam is used is that of the readings of so many last seconds, and of the last two. */
const RECENT_S = 120;

function paceUntil({ around, errors, pressure }: Sources, usedS: number): Line | null {
  const until = pressure.points.filter(([atS]) => atS <= usedS);
  const [before, last] = until.slice(-2);
  if (before === undefined || last === undefined) return null;
  const fromS = Math.min(before[0], last[0] - RECENT_S);
  const risen = until.filter(([atS, barG]) => atS >= fromS && barG > 0);
  // she came off none at the first steam
  if (risen.length === 1) risen.unshift([Math.max(before[0], pressure.firstSteamS ?? before[0]), 0]);
  if ((risen[0]?.[0] ?? last[0]) >= last[0]) return null;
  return fittedLine(
    risen.map(([x, barG]) => {
      const y = around.boilingK(barG);
      return { x, y, uY: around.boilingK(barG + errors.pressureReadingBar) - y };
    }),
  );
}

/**
 * When a pressure would have been met by the pace of the last two minutes before steam was first used, if not later than that nor
 * more than half a minute after the last reading.
 * @returns null where it would not, or the pace is lost in the errors of the readings
 */
export function metByPace(from: Sources, barG: number, usedS: number): Reached | null {
  const { around, errors, pressure } = from;
  const lastS = pressure.points.findLast(([atS]) => atS <= usedS)?.[0] ?? usedS;
  const line = Number.isFinite(usedS) ? paceUntil(from, usedS) : null;
  if (line === null || line.uSlope > PACE_TOLD * line.slope) return null;
  const kelvin = around.boilingK(barG);
  const { value: atS, u } = abscissaOf(line, kelvin, 0);
  if (atS > Math.min(usedS, lastS + NARROW_S)) return null;
  const uS = Math.hypot(u, FIRE_STRAYS * Math.max(0, atS - lastS));
  const dialK = around.boilingK(barG + errors.pressureBiasBar) - kelvin;
  return { atS, uS, dialS: -dialK / line.slope };
}
