import { median } from "simple-statistics";
import { cusum, valuesToFalseAlarm } from "../statistics/cusum.ts";
import { predictionBound } from "../statistics/prediction-bound.ts";
import type { Indicator } from "./indicators.ts";
import { indicators } from "./indicators.ts";
import type { Outing } from "./outings.ts";

export interface IndicatorPoint {
  steamingId: string;
  atMs: number;
  /** hours in steam of the engine's life, at the end of the outing */
  hours: number;
  value: number;
  u: number;
  /** conditions that it is compared within */
  like: string;
  /** towards the worse against this engine's own like outings before, in standard deviations; null without such */
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
/** So many outings are the engine's own standard before a change can be told. */
const STANDARD = 4;
const LEAST_STANDARD = 2;

/** Mean number of outings to a false alarm of one indicator, where the stray is as estimated. */
export const outingsToFalseAlarm = valuesToFalseAlarm(ALLOWANCE, LIMIT);

/** Each indicator's values over all outings. `freshFrom`: for each indicator, ms of the last service that restarts it. */
export function indicatorCourses(
  outings: readonly Outing[],
  freshFrom: (indicator: Indicator) => number,
): IndicatorCourse[] {
  return indicators.flatMap((indicator) => {
    const points = pointsOf(indicator, outings);
    if (points.length === 0) return [];
    const since = pointsOf(
      indicator,
      outings.filter((outing) => outing.startMs >= freshFrom(indicator)),
    );
    const judged = since.filter((point) => point.worseBy !== null);
    const { firstAbove } = cusum(
      judged.map((point) => point.worseBy ?? 0),
      0,
      ALLOWANCE,
      LIMIT,
    );
    // an alarm that has died down since is over
    const last = judged.slice(-3).reduce((sum, point) => sum + (point.worseBy ?? 0), 0);
    const alarm = firstAbove === null || last < ALLOWANCE ? null : judged[firstAbove];
    return [{ indicator, points, alarmAt: alarm?.steamingId ?? null, sudden: isSudden(indicator, since) }];
  });
}

const SUDDEN = 0.99;

function isSudden({ worse }: Indicator, since: readonly IndicatorPoint[]): boolean {
  const last = since.at(-1);
  if (last === undefined) return false;
  const sign = worse === "up" ? 1 : -1;
  const before = since
    .slice(0, -1)
    .filter((point) => point.like === last.like)
    .map(({ value }) => sign * value);
  return before.length >= STANDARD && sign * last.value > predictionBound(before, SUDDEN);
}

function pointsOf(indicator: Indicator, outings: readonly Outing[]): IndicatorPoint[] {
  const standards = new Map<string, { value: number; u: number }[]>();
  return outings.flatMap((outing) => {
    const found = indicator.value(outing);
    if (found === null) return [];
    const group = indicator.like?.(outing) ?? "";
    const standard = standards.get(group) ?? [];
    standards.set(group, standard);
    const worseBy =
      standard.length < LEAST_STANDARD
        ? null
        : (worseThan(indicator, standard.slice(0, STANDARD), found) ?? null);
    standard.push(found);
    return [
      {
        steamingId: outing.steaming.id,
        atMs: outing.startMs,
        hours: outing.hoursBefore + outing.inSteamH,
        ...found,
        like: group,
        worseBy,
      },
    ];
  });
}

/** How far a value stands from like ones before it, for the worse, in standard deviations of what may be expected. */
export function worseThan(
  { worse, strays }: Indicator,
  standard: readonly { value: number; u: number }[],
  now: { value: number; u: number },
): number {
  const middle = median(standard.map((one) => one.value));
  const stray = Math.hypot(strays.relative * middle, strays.absolute);
  // well measured outings weigh more
  const weights = standard.map((one) => 1 / (stray ** 2 + one.u ** 2));
  const weight = weights.reduce((sum, one) => sum + one, 0);
  const usual = standard.reduce((sum, one, i) => sum + one.value * (weights[i] ?? 0), 0) / weight;
  const sd = Math.sqrt(1 / weight + stray ** 2 + now.u ** 2);
  return ((worse === "up" ? 1 : -1) * (now.value - usual)) / sd;
}
