import type { Entry, EntryKind, EntryOf } from "./entry.ts";
import type { Steaming, Trace } from "./steaming.ts";

/** The entries of a steaming in order of time, cut off at the moment asked for. */
export interface Timeline {
  entries: readonly NamedEntry[];
  traces: readonly Trace[];
  /** moments of the first and the last entry or trace sample; null where there is none */
  firstS: number | null;
  lastS: number | null;
  /** entries that stood after a later one in the log */
  outOfOrder: readonly string[];
  /** kinds whose counts were written as a running count and are turned into counts since the entry before */
  runningCounts: readonly ("lap" | "revolutions")[];
  /** of a running count of laps that may as well be of the laps between: what each entry would then count more, and u of it */
  perhapsMore: readonly { atS: number; eitherWay: { fewer: 0; more: number; strays: 0 }; u: number }[];
  of<Kind extends EntryKind>(kind: Kind): readonly (EntryOf<Kind> & { id: string })[];
}

/** An entry that can be referred to: one without an id is called by its place in the log. */
export type NamedEntry = Entry & { id: string };

const isNamed = (entry: Entry): entry is NamedEntry => entry.id !== undefined;

export function timelineOf(steaming: Steaming, untilS = Number.POSITIVE_INFINITY): Timeline {
  const kept: NamedEntry[] = [];
  const outOfOrder: string[] = [];
  let latestS = Number.NEGATIVE_INFINITY;
  steaming.entries.forEach((entry, index) => {
    if (entry.atS > untilS) return;
    const named = isNamed(entry) ? entry : { ...entry, id: `entry ${index + 1}` };
    if (entry.atS < latestS) outOfOrder.push(named.id);
    latestS = Math.max(latestS, entry.atS);
    kept.push(named);
  });
  if (outOfOrder.length > 0) kept.sort((a, b) => a.atS - b.atS);

  const laps = readAsSteps(kept, "lap");
  const turns = readAsSteps(kept, "revolutions");

  const traces = (steaming.traces ?? [])
    .map((trace) => cutTrace(trace, untilS))
    .filter((trace) => trace.values.length > 0);
  const lastTraceS = traces.map((trace) => trace.startS + (trace.values.length - 1) * trace.everyS);
  const lastEntryS = kept.at(-1)?.atS;
  const ends = lastEntryS === undefined ? lastTraceS : [lastEntryS, ...lastTraceS];
  const starts = [...kept.slice(0, 1).map((entry) => entry.atS), ...traces.map((trace) => trace.startS)];

  return {
    ...listed(kept),
    traces,
    firstS: starts.length === 0 ? null : Math.min(...starts),
    lastS: ends.length === 0 ? null : Math.max(...ends),
    outOfOrder,
    runningCounts: [...(laps ? (["lap"] as const) : []), ...(turns ? (["revolutions"] as const) : [])],
    perhapsMore: laps || [],
  };
}

/** The same without some of its entries; it begins and ends where it did. */
export const without = (timeline: Timeline, left: readonly NamedEntry[]): Timeline =>
  left.length === 0
    ? timeline
    : { ...timeline, ...listed(timeline.entries.filter((entry) => !left.includes(entry))) };

/** Entries in order of time, and each kind of them. */
export function listed(entries: readonly NamedEntry[]): Pick<Timeline, "entries" | "of"> {
  const byKind = new Map<EntryKind, NamedEntry[]>();
  for (const entry of entries) {
    const list = byKind.get(entry.kind);
    if (list === undefined) byKind.set(entry.kind, [entry]);
    else list.push(entry);
  }
  return {
    entries,
    of: <Kind extends EntryKind>(kind: Kind) =>
      (byKind.get(kind) ?? []) as readonly NamedEntry[] as readonly (EntryOf<Kind> & { id: string })[],
  };
}

/** So many counts, each larger than the one before, are no chance. */
const ALWAYS_RISING = 4;
/** Variance of the logarithm of the pace, up to which it is even: counts that make it so are of the laps between. */
const EVEN_PACE = 0.02;

/**
 * A count is of what was run since the entry before. Some write a running count instead (1, 2, 3 ...): that is told by
 * the pace, which is even under the right reading and not under the wrong one, and where stops upset the pace by
 * counts that go up one by one, or rise ever so often. Turns such counts into steps. Of a few that go up one by one, with
 * no stop written and an uneven pace, nothing tells which they are.
 * @returns false where they were no running count; else what each would count more if it was none, where that is not told
 */
function readAsSteps(entries: NamedEntry[], kind: "lap" | "revolutions"): false | Timeline["perhapsMore"] {
  const places = entries.flatMap((entry, place) => (entry.kind === kind ? [place] : []));
  const counted = places.map((place) => entries[place]).filter((entry) => entry?.kind === kind) as {
    atS: number;
    count: number;
  }[];
  const steps = counted.map((entry, i) => entry.count - (counted[i - 1]?.count ?? 0));
  if (counted.length < 2 || steps.some((step) => !(step > 0))) return false;
  const openS = entries.find((entry) => entry.kind === "regulator" && entry.state === "open")?.atS;
  const [firstS, lastS] = [counted[0]?.atS ?? 0, counted.at(-1)?.atS ?? 0];
  const regulator = entries.flatMap((entry) =>
    entry.kind === "regulator" ? [{ atS: entry.atS, on: entry.state === "open" }] : [],
  );
  // where stops are in the log they are no part of the pace
  const underWay = regulator.length > 0 ? stretches(regulator, lastS) : null;
  const gaps = counted.map((entry, i) => {
    const sinceS = counted[i - 1]?.atS ?? (openS === undefined || openS > firstS ? Number.NaN : openS);
    return underWay === null ? entry.atS - sinceS : overlapS(underWay, sinceS, entry.atS);
  });
  /** variance of the logarithm of the pace; null where there are not two gaps to tell */
  const unevenness = (counts: readonly number[]): number | null => {
    const paces = gaps.flatMap((gapS, i) => (gapS > 0 ? [Math.log(gapS / (counts[i] ?? 1))] : []));
    const mean = paces.reduce((a, b) => a + b, 0) / paces.length;
    return paces.length < 2 ? null : paces.reduce((sum, pace) => sum + (pace - mean) ** 2, 0) / paces.length;
  };
  const asWritten = unevenness(counted.map((entry) => entry.count));
  const asSteps = unevenness(steps);
  if (asWritten === null || asSteps === null || asWritten < EVEN_PACE) return false;
  const atStops = underWay?.every(([fromS, toS]) => counted.every(({ atS }) => atS <= fromS || atS >= toS));
  const stopsTell =
    underWay !== null && (asSteps >= asWritten || (atStops === true && evenInWholeLaps(counted, gaps)));
  const oneByOne = counted.length > 2 && counted.every((entry, i) => entry.count === i + 1) && !stopsTell;
  if (!oneByOne && counted.length < ALWAYS_RISING && (asSteps >= asWritten || evenInWholeLaps(counted, gaps)))
    return false;
  const untold = underWay === null && counted.length <= ALWAYS_RISING && asSteps >= EVEN_PACE;
  return counted.flatMap(({ atS, count }, i) => {
    const [place = 0, step = 0] = [places[i], steps[i]];
    entries[place] = { ...entries[place], count: step } as NamedEntry;
    const more = count - step;
    return untold && more > 0 ? [{ atS, eitherWay: { fewer: 0, more, strays: 0 }, u: more / 2 }] : [];
  });
}

/** Counts are whole ones: with up to one more or one less run between two entries, is there a pace that fits them all? */
function evenInWholeLaps(counted: readonly { count: number }[], gaps: readonly number[]): boolean {
  const paces = counted.flatMap(({ count }, i) => {
    const gapS = gaps[i] ?? Number.NaN;
    return gapS > 0 ? [{ least: gapS / (count + 1), most: gapS / (count - 1) }] : [];
  });
  return Math.max(...paces.map(({ least }) => least)) < Math.min(...paces.map(({ most }) => most));
}

function cutTrace(trace: Trace, untilS: number): Trace {
  const count = Math.floor((untilS - trace.startS) / trace.everyS) + 1;
  return count >= trace.values.length
    ? trace
    : { ...trace, values: trace.values.slice(0, Math.max(0, count)) };
}

/** Stretches of time in which a state held. Open at the end: lasts until `endS`. */
export function stretches(
  changes: readonly { atS: number; on: boolean }[],
  endS: number,
): readonly (readonly [number, number])[] {
  const found: [number, number][] = [];
  let since: number | null = null;
  for (const change of changes) {
    if (change.on && since === null) since = change.atS;
    if (!change.on && since !== null) {
      if (change.atS > since) found.push([since, change.atS]);
      since = null;
    }
  }
  if (since !== null && endS > since) found.push([since, endS]);
  return found;
}

type Switched = "fire" | "regulator" | "bypass" | "blower" | "valve";

/** Stretches in which what is opened and shut, lit and put out stood so; where it still did at the end, until `endS`. */
export const stretchesOf = <Kind extends Switched>(
  timeline: Pick<Timeline, "lastS" | "of">,
  kind: Kind,
  state: EntryOf<Kind>["state"],
  endS = timeline.lastS ?? 0,
): readonly (readonly [number, number])[] =>
  stretches(
    timeline.of<Switched>(kind).map((entry) => ({ atS: entry.atS, on: entry.state === state })),
    endS,
  );

/** Seconds of [fromS, toS] that lie within the stretches. */
export function overlapS(within: readonly (readonly [number, number])[], fromS: number, toS: number): number {
  let total = 0;
  for (const stretch of within) total += Math.max(0, Math.min(stretch[1], toS) - Math.max(stretch[0], fromS));
  return total;
}
