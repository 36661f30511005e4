import { absent, type Figure, measured } from "../quantity/measured.ts";
import { meanOf } from "../statistics/mean-of.ts";
import { rankSum } from "../statistics/rank-sum.ts";
import { coverageFactor } from "../statistics/student-t.ts";
import { type DripReading, grades, type LookReading } from "./evidence.ts";
import { scatterOf } from "./leak-course.ts";
import { type Life, without } from "./without-service.ts";
import { counted, shown } from "./words.ts";

export interface ServiceEffect {
  /** readings that were compared */
  before: number;
  after: number;
  /** what it passes since, less what it would by now if it had gone on as before, g/min */
  difference: Figure;
  /** null where there is nothing to compare */
  toldApart: boolean | null;
  /** further steamings with a catch that would settle it; null where it is settled, or none would */
  moreSteamings: number | null;
  words: string;
}

/**
 * Two-sided chance at which told apart is said. It is asked again at each steaming, so each time must be stricter than
 * the one in twenty that is meant for all.
 */
const EACH_TIME = 0.992;
const LOOKS_P = 0.02;
/** Effects are judged on the first readings after a service: later ones show wear anew. */
const READINGS_AFTER = 6;
const MOST_MORE = 20;

/** Whether a service helped: the readings since against the course that went before, carried on as if nothing was done. */
export function serviceEffect(
  before: Life,
  after: Pick<Life, "drips" | "looks">,
  limit: number | null,
): ServiceEffect {
  const drips = after.drips.slice(0, READINGS_AFTER);
  if (limit !== null && before.drips.length > 0) {
    if (drips.length > 0) return byDrips(before, drips, limit);
    if (after.looks.length === 0 || before.looks.length === 0) return notYet(before, limit);
  }
  return byLooks(before.looks, after.looks, before.drips.length, drips.length);
}

function byDrips(before: Life, after: readonly DripReading[], limit: number): ServiceEffect {
  const fit = without(before, limit);
  const gone = after.map((drip) => {
    const x = drip.hours - before.startH;
    const expected = fit.at(x);
    return { x, expected, off: drip.gPerMin - expected, sd: scatterOf(expected, drip.u, limit) };
  });
  const off = meanOf(gone, (one) => one.off);
  const x = meanOf(gone, (one) => one.x);
  const oneSd = meanOf(gone, (one) => one.sd);
  const u = (count: number) => fit.spreadAt(x, oneSd / Math.sqrt(count));
  const { df } = fit;
  const factor = coverageFactor(EACH_TIME, df);
  const toldApart = Math.abs(off) > factor * u(after.length);
  const counts = { before: before.drips.length, after: after.length };
  const [since, otherwise] = [
    meanOf(gone, ({ expected, off: one }) => expected + one),
    meanOf(gone, ({ expected }) => expected),
  ];
  const course = `${after.length > 1 ? "mean " : ""}${shown(since)} g/min since, ${fit.words(shown(Math.max(0, otherwise)), String(counts.after))}`;
  const figure = measured(off, u(after.length), "g/min", "scatter of the readings before and after");
  const difference: Figure = { ...figure, parts: figure.parts.map((part) => ({ ...part, df })) };
  if (toldApart) {
    return {
      ...counts,
      difference,
      toldApart,
      moreSteamings: null,
      words: `${off < 0 ? "It helped" : "It got worse"}: ${course}.`,
    };
  }
  const more = firstCount((count) => Math.abs(off) > factor * u(after.length + count));
  return {
    ...counts,
    difference,
    toldApart,
    moreSteamings: more,
    words:
      more === null
        ? `Not told apart: ${course}; ${MOST_MORE} more steamings would not settle it: what would have passed without it is not known well enough.`
        : `Not told apart: ${course}; ${counted(more, "more steaming")} with a catch would settle it if the difference stays.`,
  };
}

/** Nothing was read since: how many catches would tell if half as much passes as would without the service. */
function notYet(before: Life, limit: number): ServiceEffect {
  const fit = without(before, limit);
  const x = (before.drips.at(-1)?.hours ?? 0) - before.startH;
  const expected = fit.at(x);
  const factor = coverageFactor(EACH_TIME, fit.df);
  const sd = scatterOf(expected, before.drips.at(-1)?.u ?? 0, limit);
  const more = firstCount((count) => expected / 2 > factor * fit.spreadAt(x, sd / Math.sqrt(count)));
  return {
    before: before.drips.length,
    after: 0,
    difference: absent("nothing was caught since"),
    toldApart: null,
    moreSteamings: more,
    words:
      more === null
        ? "Cannot be judged yet: nothing was caught since."
        : `Cannot be judged yet: nothing was caught since; a catch at ${counted(more, "more steaming")} would tell if it passes half as much.`,
  };
}

const firstCount = (settles: (count: number) => boolean): number | null =>
  Array.from({ length: MOST_MORE }, (_, i) => i + 1).find(settles) ?? null;

function byLooks(
  before: readonly LookReading[],
  after: readonly LookReading[],
  dripsBefore: number,
  dripsAfter: number,
): ServiceEffect {
  const ranks = (looks: readonly LookReading[]) => looks.map((look) => grades.indexOf(look.grade));
  const [earlier, later] = [ranks(before.slice(-READINGS_AFTER)), ranks(after.slice(0, READINGS_AFTER))];
  const difference = absent("looks have an order and no size");
  const counts = { before: earlier.length + dripsBefore, after: later.length + dripsAfter };
  if (earlier.length === 0 || later.length === 0) {
    const missing = counts.before === 0 ? "before it" : "since";
    return {
      ...counts,
      difference: absent(`nothing was caught or looked at ${missing}`),
      toldApart: null,
      moreSteamings: null,
      words: `Cannot be judged: nothing like was caught or looked at ${missing}.`,
    };
  }
  const { pTwoSided, w } = rankSum(earlier, later);
  const toldApart = pTwoSided < LOOKS_P;
  const better = w > (earlier.length * later.length) / 2;
  const more = toldApart || !better ? null : moreLooks(earlier, later);
  return {
    ...counts,
    difference,
    toldApart,
    moreSteamings: more,
    words: toldApart
      ? `${better ? "It helped: drier" : "It got worse: wetter"} by looks than before (rank sum, by chance less than ${Math.round(100 * LOOKS_P)} in 100).`
      : more === null
        ? "Not told apart: looks are too few or too alike; catching drips would tell more."
        : `Not told apart: by looks, ${counted(more, "more steaming")} with a look would settle it if they stay as they are.`,
  };
}

function moreLooks(earlier: readonly number[], later: readonly number[]): number | null {
  for (let more = 1; more <= MOST_MORE; more++) {
    const repeated = Array.from({ length: later.length + more }, (_, i) => later[i % later.length] ?? 0);
    if (rankSum(earlier, repeated).pTwoSided < LOOKS_P) return more;
  }
  return null;
}
