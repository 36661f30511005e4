import { absent, type Figure } from "../quantity/measured.ts";
import { rankSum } from "../statistics/rank-sum.ts";
import { welch } from "../statistics/welch.ts";
import type { IndicatorCourse } from "./indicator-course.ts";
import type { Indicator } from "./indicators.ts";

/** What a service did to a figure of the whole engine. */
export interface EngineEffect {
  name: string;
  unit: string;
  before: number;
  after: number;
  /** mean since less mean before (Welch) */
  difference: Figure;
  /** the same by Hodges and Lehmann, which one odd outing does not move; null where there is nothing to compare */
  shift: number | null;
  toldApart: boolean | null;
}

/** So many outings to either side are compared, of like conditions: older ones are another engine. */
const OUTINGS = 6;
const LEAST = 2;
/** Several figures are asked for each service: each more strictly than the one in twenty meant for all. */
const TOLD_APART_AT = 0.99;

/**
 * Each figure that speaks of this kind of fitting, before against after a mending, outings of like conditions only.
 * @param span the mending begun at `atMs` and done at `doneMs`; outings from `fromMs` on and up to `toMs` count
 */
export function engineEffects(
  courses: readonly IndicatorCourse[],
  speaksOf: (indicator: Indicator) => boolean,
  span: { fromMs: number; atMs: number; doneMs: number; toMs: number },
): EngineEffect[] {
  return courses
    .filter(({ indicator }) => speaksOf(indicator))
    .flatMap(({ indicator, points }) => {
      const before = points.filter(({ atMs }) => atMs >= span.fromMs && atMs < span.atMs).slice(-OUTINGS);
      const after = points.filter(({ atMs }) => atMs >= span.doneMs && atMs < span.toMs).slice(0, OUTINGS);
      const both = [...new Set(before.map(({ like }) => like))]
        .map((like) => ({
          before: before.filter((point) => point.like === like).map(({ value }) => value),
          after: after.filter((point) => point.like === like).map(({ value }) => value),
        }))
        .sort(
          (a, b) => Math.min(b.before.length, b.after.length) - Math.min(a.before.length, a.after.length),
        )[0];
      return both === undefined ? [] : [effectOf(indicator, both.before, both.after)];
    });
}

function effectOf(
  { name, unit }: Indicator,
  before: readonly number[],
  after: readonly number[],
): EngineEffect {
  const head = { name, unit, before: before.length, after: after.length };
  const spread = new Set(before).size > 1 || new Set(after).size > 1;
  if (before.length < LEAST || after.length < LEAST || !spread) {
    const why = `two like outings are wanted on either side; there are ${before.length} and ${after.length}`;
    return { ...head, difference: absent(why), shift: null, toldApart: null };
  }
  const { difference, u, df, interval } = welch(after, before, TOLD_APART_AT);
  return {
    ...head,
    difference: { value: difference, unit, parts: [{ name: "spread of the outings", u, df }] },
    shift: rankSum(after, before).shift,
    toldApart: interval[0] > 0 || interval[1] < 0,
  };
}
