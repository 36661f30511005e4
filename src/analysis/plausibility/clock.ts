import { glassReading } from "../../logbook/glass-reading.ts";
import type { NamedEntry } from "../../logbook/timeline.ts";
import { clock } from "../../quantity/clock.ts";
import type { Warning } from "../report-schema.ts";
import type { Sources } from "../sources.ts";
import { ranThroughGap } from "./run-through-gap.ts";

/**
 * A step back is at least so long, and so many entries follow it in order; some time goes by before they have caught up
 * with what was written before it, or it is what belongs to one moment written late.
 */
const BACK_S = 60;
const FOLLOW = 3;
const GOES_ON_S = 10;
/** Where more than this part of the entries stand after a later one, the file was not kept in the order of writing. */
const IN_ORDER = 0.25;
/** A gap is so many usual ones and so long before it can be a step forward. */
const GAPS = 12;
const FORWARD_S = 900;

/**
 * A clock that was set while the log ran. Back: the order of writing falls in time once and then goes on. Forward: a
 * long gap, fire lit, over which neither pressure nor water changed, or through which she ran on.
 */
export function clockWarnings(from: Sources): Warning[] {
  return [...steppedBack(from), ...steppedForward(from)];
}

function steppedBack({ steaming, timeline }: Sources): Warning[] {
  const lastS = timeline.lastS ?? 0;
  const written = steaming.entries
    .map((entry, i) => ({ kind: entry.kind, atS: entry.atS, id: entry.id ?? `entry ${i + 1}` }))
    .filter((entry) => entry.atS <= lastS);
  const backwards = written.filter((entry, i) => entry.atS < (written[i - 1]?.atS ?? entry.atS)).length;
  if (backwards > IN_ORDER * written.length) return [];
  return written.flatMap((entry, i): Warning[] => {
    const before = written[i - 1];
    if (before === undefined || before.atS - entry.atS < BACK_S) return [];
    const after = written.slice(i, i + FOLLOW + 1);
    // a file that lists kind after kind begins anew with each of them
    const kinds = new Set(written.slice(Math.max(0, i - 2 * FOLLOW), i).map((one) => one.kind));
    if (!after.some((one) => kinds.has(one.kind))) return [];
    const goesOn =
      after.length > FOLLOW && after.slice(1).every((one, k) => one.atS >= (after[k] as typeof one).atS);
    const again = after.findLast((one) => one.atS < before.atS);
    if (!goesOn || again === undefined || again.atS - entry.atS < GOES_ON_S) return [];
    return [
      {
        code: "clock-stepped",
        text: `The clock seems to have been put back by about ${Math.round(before.atS - entry.atS)} s after ${clock(before.atS)}: the entries that follow are dated before those written earlier.`,
        entries: [before.id, entry.id],
      },
    ];
  });
}

function steppedForward(from: Sources): Warning[] {
  const { entries, traces } = from.timeline;
  if (traces.length > 0) return [];
  const gaps = entries.slice(1).map((entry, i) => entry.atS - (entries[i] as typeof entry).atS);
  if (!gaps.some((gapS) => gapS >= FORWARD_S)) return [];
  const usual = [...gaps].sort((a, b) => a - b)[gaps.length >> 1] as number;
  return gaps.flatMap((gapS, i): Warning[] => {
    if (gapS < Math.max(FORWARD_S, GAPS * usual)) return [];
    const [before, entry] = entries.slice(i, i + 2) as [NamedEntry, NamedEntry];
    const as = stoodStill(from, before, entry)
      ? "with the fire lit, and pressure and water stood as before"
      : ranThroughGap(from, before, entry)
        ? "with the regulator open, and she ran on as before"
        : null;
    if (as === null) return [];
    return [
      {
        code: "clock-stepped",
        text: `Nothing was written for ${Math.round(gapS / 60)} minutes from ${clock(before.atS)} ${as}: was the clock put forward?`,
        entries: [before.id, entry.id],
      },
    ];
  });
}

function stoodStill(
  { timeline, fuel, pressure, errors }: Sources,
  before: NamedEntry,
  entry: NamedEntry,
): boolean {
  if (timeline.of("fire").length === 0) return false;
  const lit = fuel.fire.some(([fromS, toS]) => fromS <= before.atS && toS >= entry.atS);
  const [p, q] = [pressure.atS(before.atS), pressure.points.find(([atS]) => atS >= entry.atS)?.[1]];
  const level = timeline.of("level").findLast(({ atS }) => atS <= before.atS);
  const next = timeline.of("level").find(({ atS }) => atS >= entry.atS);
  return (
    lit &&
    p !== null &&
    q !== undefined &&
    Math.abs(p - q) < 2 * errors.pressureReadingBar &&
    level !== undefined &&
    next !== undefined &&
    glassReading(level) === "exact" &&
    Math.abs(level.mm - next.mm) < 2 * errors.levelReadingMm
  );
}
