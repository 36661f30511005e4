import { chanceOfFalseAlarm, cusum, valuesToFalseAlarm } from "../statistics/cusum.ts";
import { predictionBound } from "../statistics/prediction-bound.ts";
import type { Indicator } from "./indicators.ts";
import { indicators } from "./indicators.ts";
import type { Conditions } from "./like-conditions.ts";
import type { Outing } from "./outings.ts";
import { comparableOf, worseThan } from "./worse-than.ts";

export interface IndicatorPoint {
  steamingId: string;
  atMs: number;
  /** hours in steam of the engine's life, at the end of the outing */
  hours: number;
  value: number;
  u: number;
  /** conditions that it is compared within */
  like: string;
  /** and that it is set right for */
  conditions: Conditions;
  /** towards the worse against all this engine's own like outings before, in standard deviations; null without such */
  worseBy: number | null;
}

export interface IndicatorCourse {
  indicator: Indicator;
  points: readonly IndicatorPoint[];
  /** steaming at which the running sum of changes for the worse gave alarm, since the last service; null without one */
  alarmAt: string | null;
  /** the last one stands beyond what one more like those before would keep within 99 times in 100 */
  sudden: boolean;
}

/** Allowance and limit of the running sum, in standard deviations: the usual choice for changes of one (NIST 6.3.2.3). */
const ALLOWANCE = 0.5;
const LIMIT = 4.5;
/**
 * Against the engine's own best the outings share their standard, and a sum would run away: the last three together must
 * stand so far above it, in standard deviations, for false alarms to come about as seldom (our simulation).
 */
const ABOVE_BEST = 3.2;
/** Like outings that must lie before one that is compared. */
const LEAST_STANDARD = 2;
/** An alarm is over when the last three outings, against those before the change began, stand less than this off. */
const OVER_BELOW = 1;
const LAST = 3;

/** Mean number of outings to a false alarm of one indicator, where the stray is as estimated. */
export const outingsToFalseAlarm = valuesToFalseAlarm(ALLOWANCE, LIMIT);

/**
 * Chance that one indicator of an engine with nothing the matter has given alarm by so many outings, where the stray is
 * as estimated. Each outing is compared with all before it, so the doubt of the standard is in its score, and the scores
 * are independent: the rate is that of a known standard, less the first outings that have none.
 */
export const falseAlarmBy = (outings: number): number =>
  chanceOfFalseAlarm(Math.max(0, outings - LEAST_STANDARD), ALLOWANCE, LIMIT);

/** Each indicator's values over all outings. `freshFrom`: for each indicator, ms of the last service that restarts it. */
export function indicatorCourses(
  outings: readonly Outing[],
  freshFrom: (indicator: Indicator) => number,
): IndicatorCourse[] {
  return indicators.flatMap((indicator) => {
    const found = pointsOf(indicator, outings);
    if (found.length === 0) return [];
    const fromMs = freshFrom(indicator);
    const isSince = ({ atMs }: { atMs: number }) => atMs >= fromMs;
    // the engine's own best stays its best whatever was done since
    const points =
      indicator.ownBest === true
        ? scored(indicator, found)
        : [
            ...scored(
              indicator,
              found.filter((point) => !isSince(point)),
            ),
            ...scored(indicator, found.filter(isSince)),
          ];
    const since = points.filter(isSince);
    return [
      {
        indicator,
        points,
        alarmAt: alarmIn(indicator, since, points)?.steamingId ?? null,
        sudden: isSudden(indicator, since),
      },
    ];
  });
}

/** What is asked of an outing to judge it. */
export type Judged = Omit<IndicatorPoint, "steamingId" | "atMs" | "hours">;

interface FirstAlarm<Point> {
  alarm: Point;
  /** the first outing of the rise that led to it */
  began: Point;
}

/**
 * Where alarm was first given.
 * @param since the outings that count
 * @param all those and the ones before, among which an engine's own best may be
 */
export function firstAlarm<Point extends Judged>(
  indicator: Indicator,
  since: readonly Point[],
  all: readonly Point[] = since,
): FirstAlarm<Point> | null {
  const judged = since.filter(({ worseBy }) => worseBy !== null);
  if (indicator.ownBest === true) return aboveItsBest(indicator, judged, all);
  const scores = judged.map(({ worseBy }) => worseBy ?? 0);
  const { firstAbove, steps } = cusum(scores, 0, ALLOWANCE, LIMIT);
  const alarm = firstAbove === null ? undefined : judged[firstAbove];
  if (firstAbove === null || alarm === undefined) return null;
  const zeroAt = steps.slice(0, firstAbove).findLastIndex(({ upper }) => upper === 0);
  return { alarm, began: judged[zeroAt + 1] ?? alarm };
}

function aboveItsBest<Point extends Judged>(
  indicator: Indicator,
  judged: readonly Point[],
  all: readonly Point[],
): FirstAlarm<Point> | null {
  for (const [place, alarm] of judged.entries()) {
    const like = ({ like: one }: Point) => one === alarm.like;
    const late = judged
      .slice(0, place + 1)
      .filter(like)
      .slice(-LAST);
    const before = all.slice(0, all.indexOf(late[0] ?? alarm)).filter(like);
    if (before.length >= LEAST_STANDARD && worseThan(indicator, before, late) > ABOVE_BEST)
      return { alarm, began: late[0] ?? alarm };
  }
  return null;
}

/** The outing that gave alarm, where what was then amiss is so still. */
function alarmIn<Point extends Judged>(
  indicator: Indicator,
  since: readonly Point[],
  all: readonly Point[],
): Point | null {
  const first = firstAlarm(indicator, since, all);
  if (first === null) return null;
  const { alarm, began } = first;
  const like = (one: Point) => one.like === alarm.like;
  const earlier = indicator.ownBest === true ? all : since;
  const standard = earlier.slice(0, earlier.indexOf(began)).filter(like);
  if (standard.length === 0) return alarm;
  const last = since.slice(since.indexOf(began)).filter(like).slice(-LAST);
  return worseThan(indicator, standard, last) < OVER_BELOW ? null : alarm;
}

/** Each against the like ones before it. */
export function scored<Point extends Omit<Judged, "worseBy">>(
  indicator: Indicator,
  points: readonly Point[],
): (Point & { worseBy: number | null })[] {
  return points.map((point, place) => {
    const standard = points.slice(0, place).filter(({ like }) => like === point.like);
    return {
      ...point,
      worseBy: standard.length < LEAST_STANDARD ? null : worseThan(indicator, standard, [point]),
    };
  });
}

const SUDDEN = 0.99;
const SUDDEN_STANDARD = 4;

function isSudden({ worse }: Indicator, since: readonly IndicatorPoint[]): boolean {
  const last = since.at(-1);
  if (last === undefined) return false;
  const sign = worse === "up" ? 1 : -1;
  const before = since
    .slice(0, -1)
    .filter((point) => point.like === last.like)
    .map(({ value }) => sign * value);
  return before.length >= SUDDEN_STANDARD && sign * last.value > predictionBound(before, SUDDEN);
}

function pointsOf(indicator: Indicator, outings: readonly Outing[]): Omit<IndicatorPoint, "worseBy">[] {
  return outings.flatMap((outing) => {
    const found = comparableOf(indicator, outing);
    return found === null
      ? []
      : [
          {
            steamingId: outing.steaming.id,
            atMs: outing.startMs,
            hours: outing.hoursBefore + outing.inSteamH,
            ...found,
          },
        ];
  });
}
