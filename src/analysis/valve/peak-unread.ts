import type { Timeline } from "../../logbook/timeline.ts";
import type { Read } from "./valve-course.ts";
import type { Moment } from "./valve-moment.ts";
import { NEAR_S } from "./valve-readings.ts";
import { plungesIn } from "./valve-usual.ts";

/** Readings nearer to each other than this tell no pace, s (our choice). */
const PACE_OVER_S = 10;

/**
 * By how much the pressure may have stood above its highest reading where nobody read, bar. On either side of it she may
 * have gone on up at the pace of the readings before: until she had to come down again, at the pace of those after, to
 * meet the next one, and no longer than until the fire was put out, or until cold feed or the regulator brought her
 * down. 0 where no pace can be had.
 * @param all in order of time, `top` one of them
 */
export function peakUnread(timeline: Timeline, all: readonly Read[], top: Read): number {
  const before = all.findLast(({ atS }) => atS < top.atS);
  const after = all.find(({ atS }) => atS > top.atS);
  const peaks = [
    ...(before === undefined ? [] : [peakBetween(timeline, all, before, top)]),
    peakBetween(timeline, all, top, after),
  ];
  return Math.max(0, ...peaks.map((barG) => barG - top.barG));
}

/**
 * The end of a rise between the highest reading and one beside it, where the fire was put out or the regulator opened before
 * anything else brought the pressure down; null where neither did, or no rise was read.
 */
export function riseEnded(timeline: Timeline, all: readonly Read[], top: Read): Moment | null {
  const place = all.indexOf(top);
  for (const from of [all[place - 1], top]) {
    if (from === undefined) continue;
    const to = all.find(({ atS }) => atS > from.atS);
    const before = all.findLast(({ atS }) => atS <= from.atS - PACE_OVER_S);
    if (to === undefined || paceTo(from, before) === 0) continue;
    const within = ({ atS }: { atS: number }) => atS >= from.atS && atS < to.atS;
    const out = timeline.of("fire").find((fire) => fire.state === "out" && within(fire));
    const open = timeline
      .of("regulator")
      .find((regulator) => regulator.state === "open" && within(regulator));
    const endS = Math.min(out?.atS ?? Number.POSITIVE_INFINITY, open?.atS ?? Number.POSITIVE_INFINITY);
    if (Number.isFinite(endS) && !plungesIn(timeline).some((atS) => atS >= from.atS && atS < endS))
      return { atS: endS, mark: "top", endedBy: out?.atS === endS ? "fire" : "regulator" };
  }
  return null;
}

function peakBetween(timeline: Timeline, all: readonly Read[], from: Read, to: Read | undefined): number {
  const upPerS = paceTo(
    from,
    all.findLast(({ atS }) => atS <= from.atS - PACE_OVER_S),
  );
  if (upPerS === 0) return from.barG;
  const endS = to?.atS ?? timeline.lastS ?? from.atS;
  const first = (momentsS: readonly number[]) => momentsS.find((atS) => atS >= from.atS && atS < endS);
  const outS = first(
    timeline
      .of("fire")
      .filter(({ state }) => state === "out")
      .map(({ atS }) => atS),
  );
  const plungeS = first(plungesIn(timeline).sort((a, b) => a - b));
  const longestS = Math.min(outS ?? endS, plungeS ?? endS) - from.atS;
  if (to === undefined || plungeS !== undefined) return from.barG + upPerS * longestS;
  const downPerS = paceTo(
    to,
    all.find(({ atS }) => atS >= to.atS + PACE_OVER_S),
  );
  const cornerS = (to.barG - from.barG + downPerS * (endS - from.atS)) / (upPerS + downPerS);
  return from.barG + upPerS * Math.max(0, Math.min(cornerS, longestS));
}

/** How fast the pressure went up to a reading from another beside it, bar a second; 0 where it did not. */
function paceTo(read: Read, beside: Read | undefined): number {
  if (beside === undefined || Math.abs(read.atS - beside.atS) > NEAR_S) return 0;
  return Math.max(0, (read.barG - beside.barG) / Math.abs(read.atS - beside.atS));
}
