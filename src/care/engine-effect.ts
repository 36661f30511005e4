import { absent, type Figure } from "../quantity/measured.ts";
import { meanOf } from "../statistics/mean-of.ts";
import { rankSum } from "../statistics/rank-sum.ts";
import { coverageFactor } from "../statistics/student-t.ts";
import { welch } from "../statistics/welch.ts";
import type { IndicatorCourse, IndicatorPoint } from "./indicator-course.ts";
import type { Indicator } from "./indicators.ts";
import type { Condition } from "./like-conditions.ts";

/** What a service did to a figure of the whole engine. */
export interface EngineEffect {
  name: string;
  unit: string;
  before: number;
  after: number;
  /** mean since less mean before (Welch), set right for pressure and speed where these move it */
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
          before: before.filter((point) => point.like === like),
          after: after.filter((point) => point.like === like),
        }))
        .sort(
          (a, b) => Math.min(b.before.length, b.after.length) - Math.min(a.before.length, a.after.length),
        )[0];
      return both === undefined ? [] : [effectOf(indicator, both.before, both.after)];
    });
}

function effectOf(
  indicator: Indicator,
  before: readonly IndicatorPoint[],
  after: readonly IndicatorPoint[],
): EngineEffect {
  const { name, unit } = indicator;
  const head = { name, unit, before: before.length, after: after.length };
  const right = rightFor(indicator, before, after);
  const spread = new Set(right.before).size > 1 || new Set(right.after).size > 1;
  if (before.length < LEAST || after.length < LEAST || !spread) {
    const why = `two like outings are wanted on either side; there are ${before.length} and ${after.length}`;
    return { ...head, difference: absent(why), shift: null, toldApart: null };
  }
  const { difference, u, df } = welch(right.after, right.before);
  const half = coverageFactor(TOLD_APART_AT, df) * Math.hypot(u, right.u);
  return {
    ...head,
    difference: {
      value: difference,
      unit,
      parts: [
        { name: "spread of the outings", u, df },
        ...(right.u > 0 ? [{ name: "unlike pressure and speed", u: right.u }] : []),
      ],
    },
    shift: rankSum(right.after, right.before).shift,
    toldApart: Math.abs(difference) > half,
  };
}

/** Values set right for pressure and speed: as they would be at the mean of all; `u` is the doubt of it that is left. */
function rightFor(
  { sways = [], strays }: Indicator,
  before: readonly IndicatorPoint[],
  after: readonly IndicatorPoint[],
): { before: number[]; after: number[]; u: number } {
  const all = [...before, ...after];
  if (before.length === 0 || after.length === 0) return { before: [], after: [], u: 0 };
  const known = sways.filter(({ by }) => all.every(({ conditions }) => conditions[by] !== undefined));
  const size = strays.relative > 0 ? Math.abs(meanOf(all, ({ value }) => value)) : 1;
  const at = ({ conditions }: IndicatorPoint, by: Condition) => conditions[by] ?? 0;
  const set = (points: readonly IndicatorPoint[]) =>
    points.map((point) =>
      known.reduce(
        (value, sway) =>
          value - sway.mean * size * (at(point, sway.by) - meanOf(all, (one) => at(one, sway.by))),
        point.value,
      ),
    );
  const doubts = known.map(
    ({ by, sd }) => sd * size * (meanOf(after, (one) => at(one, by)) - meanOf(before, (one) => at(one, by))),
  );
  return { before: set(before), after: set(after), u: Math.hypot(0, ...doubts) };
}
