import type { Locomotive } from "../../logbook/locomotive.ts";
import type { Steaming } from "../../logbook/steaming.ts";
import { overlapS, type Timeline } from "../../logbook/timeline.ts";
import { type Measured, type Part, scaled, sum } from "../../quantity/measured.ts";
import { type Phase, type Stretch, underWayStretches } from "../state/phases.ts";
import type { Laps } from "./laps.ts";

/** So small a part of the turns that the laps take were counted that a count was left out or lost a digit (our choice). */
const TOO_FEW = 0.5;

/** Turns counted, where they are too few for the laps run until the last of them; null where they are not. */
export function turnsTooFew(
  timeline: Timeline,
  steaming: Steaming,
  locomotive: Locomotive,
): { counted: number; taken: number } | null {
  const turns = timeline.of("revolutions");
  const lastS = turns.at(-1)?.atS ?? Number.NEGATIVE_INFINITY;
  const lapM = steaming.track?.lapM;
  if (lapM === undefined || locomotive.drivingWheelMm === undefined) return null;
  const counted = turns.reduce((sum, { count }) => sum + count, 0);
  const run = timeline.of("lap").reduce((sum, { atS, count }) => sum + (atS <= lastS ? count : 0), 0);
  const taken = (1000 * run * lapM) / (Math.PI * locomotive.drivingWheelMm);
  return counted < TOO_FEW * taken ? { counted, taken } : null;
}

/** How far she went and how often the driving wheel turned in windows of time, as it was counted. */
export interface WayCounted {
  /** null where no laps were counted, or how long one is is not known */
  metresByLaps: ((windows: readonly Stretch[]) => Measured) | null;
  /** as counted; null where none were */
  turns: ((windows: readonly Stretch[]) => Measured) | null;
  /** as counted, else by the laps; null where neither tells them */
  turnsIn(windows: readonly Stretch[]): Measured | null;
  /** way of one turn; null where the wheel is not known */
  roundM: number | null;
  /** too few turns were counted for the laps */
  few: boolean;
  /** nothing says when she ran */
  unknown: boolean;
  asMeasured(figure: Measured, factor: number, unit: string): Measured;
}

/** Of lap and wheel as measured, and slip: relative standard uncertainty (our estimate). */
const MEASURED_RELATIVE = 0.005;
/**
 * Between two counts the pace is taken as even; half way between them, u in laps, and of the count. Laps counted several at a
 * time, or as she stands, are whole laps, and of the one begun nothing is known: u of each such count (our estimates).
 */
const EDGE = { laps: 0.05, ofCount: 0.1, counted: 0.3 };
/** Of the lap begun after the last count: where the pace tells, its u; where nothing does, its mean and u (our estimate). */
const UNFINISHED = { told: 0.2, usual: 0.4, u: 0.35 };

export function wayCounted(
  timeline: Timeline,
  phases: readonly Phase[],
  steaming: Steaming,
  locomotive: Locomotive,
  laps: Laps,
): WayCounted {
  const lapM = steaming.track?.lapM;
  const wheelMm = locomotive.drivingWheelMm;
  const roundM = wheelMm === undefined ? null : (Math.PI * wheelMm) / 1000;
  const stopsKnown = timeline.of("regulator").length > 0;
  const running = underWayStretches(timeline, phases);
  const counted = timeline.of("revolutions");
  const turns =
    counted.length === 0 ? null : course(running, { entries: counted, inLaps: false, stopsKnown });
  const few = turnsTooFew(timeline, steaming, locomotive) !== null;
  const lapEntries = timeline.of("lap").map((lap) => ({
    atS: lap.atS,
    count:
      lap.count +
      laps.missed.filter((one) => one.entryId === lap.id).reduce((sum, one) => sum + one.count, 0),
  }));
  const byLaps =
    lapEntries.length === 0 || lapM === undefined
      ? null
      : { lapM, lapsIn: course(running, { entries: lapEntries, inLaps: true, stopsKnown }) };
  const inAll = lapEntries.reduce((total, lap) => total + lap.count, 0);
  const withForgotten = (own: Measured): Measured =>
    // where none were counted none were forgotten
    inAll === 0
      ? own
      : [laps.missedDoubt, laps.unseen].reduce(
          (total, one) => sum(total, scaled(one, own.value / inAll, "1")),
          own,
        );
  const asMeasured = (figure: Measured, factor: number, unit: string): Measured => {
    const bare = scaled(figure, factor, unit);
    const source = `lap and wheel of ${locomotive.id}`;
    const parts = [...bare.parts, { name: source, source, u: MEASURED_RELATIVE * bare.value }];
    return { ...bare, parts };
  };
  const unknown = running.length === 0;
  const turnsByLaps =
    byLaps === null || roundM === null
      ? null
      : (windows: readonly Stretch[]) =>
          asMeasured(withForgotten(byLaps.lapsIn(windows)), byLaps.lapM / roundM, "rev");
  const told = unknown ? null : turns === null ? turnsByLaps : few ? null : turns;
  return {
    metresByLaps:
      byLaps === null
        ? null
        : (windows) => asMeasured(withForgotten(byLaps.lapsIn(windows)), byLaps.lapM, "m"),
    turns,
    turnsIn: (windows) => told?.(windows) ?? null,
    roundM,
    few,
    unknown,
    asMeasured,
  };
}

interface Counts {
  entries: readonly { atS: number; count: number }[];
  /** counted in laps and not in turns of the wheel */
  inLaps: boolean;
  /** stops are known, so that the pace tells what was run after the last count */
  stopsKnown: boolean;
}

/** Counts against time under way, straight between entries. */
function course(running: readonly Stretch[], { entries, inLaps, stopsKnown }: Counts) {
  const underWay = (atS: number) => overlapS(running, Number.NEGATIVE_INFINITY, atS);
  const allS = underWay(Number.POSITIVE_INFINITY);
  const knots: [underWayS: number, count: number][] = [[0, 0]];
  let total = 0;
  for (const { atS, count } of entries) {
    total += count;
    knots.push([underWay(atS), total]);
  }
  const atStops =
    stopsKnown && entries.every(({ atS }) => !running.some(([fromS, toS]) => atS > fromS && atS <= toS));
  const several = inLaps && (atStops || entries.some((entry) => entry.count > 2));
  const lastS = Math.max(...knots.map(([underWayS]) => underWayS));
  const since = lastS > 0 ? (total / lastS) * (allS - lastS) : 0;
  const told = !several && stopsKnown;
  const after = !inLaps ? since : told ? Math.min(1, since) : UNFINISHED.usual;
  const uAfter = !inLaps ? 0.1 * since : told ? UNFINISHED.told : UNFINISHED.u;
  knots.push([allS, total + after]);

  const last = knots.length - 1;
  /** the count at a moment, its own doubt, and how far it hangs on each of the two counts about it */
  const reached = (s: number): { count: number; u: number; on: [knot: number, share: number][] } => {
    const place = knots.findIndex(([at]) => at > s);
    const [a, b] = [knots[place - 1], knots[place]];
    if (a === undefined || b === undefined) return { count: total + after, u: 0, on: [[last, 1]] };
    const step = b[1] - a[1];
    const share = (s - a[0]) / (b[0] - a[0]);
    const u = 4 * share * (1 - share) * (EDGE.ofCount * step + (inLaps ? EDGE.laps : 0));
    return {
      count: a[1] + share * step,
      u,
      on: [
        [place - 1, 1 - share],
        [place, share],
      ],
    };
  };
  const uOf = (knot: number) => (knot === last ? uAfter : knot > 0 && several ? EDGE.counted : 0);
  return (windows: readonly Stretch[]) => {
    let count = 0;
    const us: number[] = [];
    const hangs = new Map<number, number>();
    for (const [fromS, toS] of windows) {
      for (const [atS, sign] of [
        [fromS, -1],
        [toS, 1],
      ] as const) {
        const there = reached(underWay(atS));
        count += sign * there.count;
        us.push(there.u);
        for (const [knot, share] of there.on) hangs.set(knot, (hangs.get(knot) ?? 0) + sign * share);
      }
    }
    for (const [knot, share] of hangs) us.push(share * uOf(knot));
    const parts: Part[] = [{ name: "laps begun and not counted", u: Math.hypot(...us) }];
    return { value: count, unit: inLaps ? "1" : "rev", parts: parts.filter((part) => part.u > 0) };
  };
}
