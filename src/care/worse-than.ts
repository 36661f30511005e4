import { median } from "simple-statistics";
import { lowestOfNormals } from "../statistics/lowest-of-normals.ts";
import type { Value } from "./indicator-values.ts";
import type { Indicator } from "./indicators.ts";
import { type Conditioned, type Conditions, conditionsOf, expectedLike } from "./like-conditions.ts";
import type { Outing } from "./outings.ts";

interface Compared extends Value {
  conditions: Conditions;
}

/** One outing's value of an indicator with all that is asked to compare it. */
export interface Comparable extends Compared {
  like: string;
}

export function comparableOf(indicator: Indicator, outing: Outing): Comparable | null {
  const value = indicator.value(outing);
  return value === null
    ? null
    : { ...value, like: indicator.like?.(outing) ?? "", conditions: conditionsOf(outing) };
}

/** How many standard deviations for the worse some outings stand from like ones before them; each list one or more. */
export function worseThan(
  { worse, strays, sways = [], ownBest }: Indicator,
  before: readonly Compared[],
  now: readonly Compared[],
): number {
  const middle = Math.abs(median([...before, ...now].map(({ value }) => value)));
  const stray = Math.hypot(strays.relative * middle, strays.absolute);
  const conditioned = ({ value, u, conditions }: Compared): Conditioned => ({
    value,
    sd: Math.hypot(stray, u),
    conditions,
  });
  const [earlier, late] = [before.map(conditioned), together(now.map(conditioned))];
  const sign = worse === "up" ? 1 : -1;
  if (ownBest === true) return aboveBest(earlier, late, sign);
  const size = strays.relative > 0 ? middle : 1;
  const expected = expectedLike(earlier, late.conditions, sways, size);
  return (sign * (late.value - expected.value)) / Math.hypot(expected.sd, late.sd);
}

/** Outings taken together: their mean, the well measured ones weighing more. */
function together(outings: readonly Conditioned[]): Conditioned {
  const weights = outings.map(({ sd }) => 1 / sd ** 2);
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = (of: (one: Conditioned) => number) =>
    outings.reduce((sum, one, i) => sum + of(one) * ((weights[i] ?? 0) / total), 0);
  const conditions: Conditions = {};
  for (const by of ["pressure", "speed"] as const) {
    if (outings.every((one) => one.conditions[by] !== undefined))
      conditions[by] = mean((one) => one.conditions[by] ?? 0);
  }
  return { value: mean(({ value }) => value), sd: 1 / Math.sqrt(total), conditions };
}

/**
 * Against the best of the outings before, allowing for its luck: of several alike the best stands so far from what is
 * usual by chance alone.
 */
function aboveBest(before: readonly Conditioned[], now: Conditioned, sign: number): number {
  const best = Math.min(...before.map(({ value }) => sign * value));
  const sd = Math.sqrt(before.reduce((sum, one) => sum + one.sd ** 2, 0) / before.length);
  const luck = lowestOfNormals(before.length);
  return (sign * now.value - best + luck.mean * sd) / Math.hypot(now.sd, luck.sd * sd);
}
