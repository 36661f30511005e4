import type { Locomotive } from "../../logbook/locomotive.ts";
import type { Steaming } from "../../logbook/steaming.ts";
import { stretchesOf, type Timeline } from "../../logbook/timeline.ts";
import { median } from "../../statistics/order.ts";
import type { PressureCourse } from "../pressure/pressure-course.ts";
import type { PhaseName } from "../report-schema.ts";

export interface Phase {
  name: PhaseName;
  fromS: number;
  toS: number;
  inferred: boolean;
}

export type Stretch = readonly [fromS: number, toS: number];

/** All stretches together, s. */
export const lengthS = (stretches: readonly Stretch[]): number =>
  stretches.reduce((sum, [fromS, toS]) => sum + toS - fromS, 0);

/** Pressure counts as raised at this part of the working pressure (common practice: the working band). */
export const WORKING_BAND = 0.95;
/** A gap between laps of so many usual laps is a stop. */
const STOP_IN_LAPS = 5;

/** An inferred phase this short before the first mark is the marking hand's delay. */
const SLIVER_S = 15;

/**
 * With the fire just put out she still stands, or rolls on, and what leaves is no leak: an inferred shut-in is longer than this
 * (our choice), but in a hold, which is nothing else. One of a second, in which the regulator was opened, had a rate 7 u off.
 */
export const SHUT_IN_S = 60;

/** Marked phases, each until the next mark; what lies before the first mark, or without any, is inferred. */
export function phasesOf(
  timeline: Timeline,
  pressure: PressureCourse,
  locomotive: Locomotive,
  purpose: Steaming["purpose"],
): Phase[] {
  const endS = timeline.lastS ?? 0;
  const marks = timeline.of("phase");
  const firstMarkS = marks[0]?.atS ?? Number.POSITIVE_INFINITY;
  const phases = inferredPhases(timeline, pressure, locomotive, purpose, endS)
    .map((phase) => ({ ...phase, toS: Math.min(phase.toS, firstMarkS) }))
    .filter(({ fromS, toS }) => toS - fromS > (toS === firstMarkS ? SLIVER_S : 0));
  marks.forEach((mark, i) => {
    const toS = marks[i + 1]?.atS ?? endS;
    if (toS > mark.atS) phases.push({ name: mark.name, fromS: mark.atS, toS, inferred: false });
  });
  return phases;
}

/** Stretches in which the engine ran, from the regulator if it was recorded, else from the laps. */
export function runningStretches(timeline: Timeline): readonly Stretch[] {
  if (timeline.of("regulator").length > 0) return stretchesOf(timeline, "regulator", "open");
  const laps = timeline.of("lap").filter((lap) => lap.count > 0);
  const first = laps[0];
  if (first === undefined) return [];
  const usualS = usualLapS(timeline);
  const found: [number, number][] = [];
  let current: [number, number] = [first.atS - first.count * usualS, first.atS];
  for (const lap of laps) {
    if (lap.atS - current[1] > STOP_IN_LAPS * usualS * lap.count) {
      found.push(current);
      current = [lap.atS - lap.count * usualS, lap.atS];
    } else current[1] = lap.atS;
  }
  found.push(current);
  return found;
}

/** When she was under way: in the running phases, and of these with the regulator open where that was recorded. */
export function underWayStretches(timeline: Timeline, phases: readonly Phase[]): readonly Stretch[] {
  const running = phases
    .filter((phase) => phase.name === "running")
    .map((phase): Stretch => [phase.fromS, phase.toS]);
  if (timeline.of("regulator").length === 0) return running;
  const open = runningStretches(timeline);
  return running.length === 0 ? open : common(running, open);
}

/** What two lists of stretches have in common. */
export const common = (a: readonly Stretch[], b: readonly Stretch[]): Stretch[] =>
  a.flatMap(([fromA, toA]) =>
    b
      .map(([fromB, toB]): Stretch => [Math.max(fromA, fromB), Math.min(toA, toB)])
      .filter(([fromS, toS]) => toS > fromS),
  );

/** What of some stretches others leave over. */
export const without = (whole: readonly Stretch[], taken: readonly Stretch[]): Stretch[] =>
  taken.reduce<Stretch[]>(
    (rest, [start, end]) =>
      rest.flatMap(([a, b]): Stretch[] =>
        [[a, Math.min(b, start)] as const, [Math.max(a, end), b] as const].filter(([x, y]) => y > x),
      ),
    [...whole],
  );

/** Median seconds a lap; 0 where there are fewer than two lap entries. */
export function usualLapS(timeline: Timeline): number {
  const laps = timeline.of("lap").filter((lap) => lap.count > 0);
  const each = laps.slice(1).map((lap, i) => (lap.atS - (laps[i]?.atS ?? 0)) / lap.count);
  return each.length === 0 ? 0 : median(each);
}

export const fireStretches = (timeline: Timeline): readonly Stretch[] => stretchesOf(timeline, "fire", "lit");

/** The same, and from the log's first moment on where it begins with a fire put out: it had been lit, though nobody wrote it down. */
export function fireBurning(timeline: Timeline): readonly Stretch[] {
  const [told] = timeline.of("fire");
  const lit = fireStretches(timeline);
  const [startS, outS] = [timeline.firstS ?? 0, told?.state === "out" ? told.atS : Number.NEGATIVE_INFINITY];
  return outS > startS ? [[startS, outS], ...lit] : lit;
}

/** In a hot hold of which the fire was not written down, all from the highest pressure on is shut in. */
function shutInFromS(
  timeline: Timeline,
  { points }: PressureCourse,
  purpose: Steaming["purpose"],
  startS: number,
): number {
  if (purpose !== "hot-hold" || timeline.of("fire").length > 0 || points.length === 0)
    return Number.POSITIVE_INFINITY;
  const [highestS] = points.reduce((a, b) => (b[1] > a[1] ? b : a));
  return highestS - startS <= SLIVER_S ? startS : highestS;
}

/**
 * An axle pump feeds under way only: where nothing else tells that she ran, its by-pass shut with the steam for it says that
 * she is raised.
 */
function pumpedFromS(
  timeline: Timeline,
  pressure: PressureCourse,
  { axlePump, workingPressureBarG }: Locomotive,
  litS: number,
): number | undefined {
  const steamS = pressure.reaches(SETS_OFF_AT * workingPressureBarG, litS);
  if (axlePump === undefined || steamS === null) return undefined;
  const first = stretchesOf(timeline, "bypass", "shut").find(([, openS]) => openS > steamS);
  return first === undefined ? undefined : Math.max(first[0], steamS);
}

/** No engine sets off after lighting up before so much of her working pressure is on (our choice). */
const SETS_OFF_AT = 0.5;

/** When she set off is counted back from her laps, which stops make uncertain: not before she had the steam for it. */
function fromSteamOn(
  running: readonly Stretch[],
  timeline: Timeline,
  pressure: PressureCourse,
  { workingPressureBarG }: Locomotive,
  litS: number,
): readonly Stretch[] {
  if (timeline.of("regulator").length > 0) return running;
  const firstLapS = timeline.of("lap").find((lap) => lap.count > 0)?.atS ?? Number.NEGATIVE_INFINITY;
  const steamS = pressure.reaches(SETS_OFF_AT * workingPressureBarG, litS) ?? Number.POSITIVE_INFINITY;
  return steamS < firstLapS
    ? running.map(([fromS, toS]): Stretch => [Math.max(fromS, steamS), toS])
    : running;
}

/** Neighbours of one name as one phase. */
function joined(phases: readonly Phase[]): Phase[] {
  const whole: Phase[] = [];
  for (const phase of phases) {
    const last = whole.at(-1);
    if (last?.name === phase.name && last.toS === phase.fromS) last.toS = phase.toS;
    else whole.push({ ...phase });
  }
  return whole;
}

function inferredPhases(
  timeline: Timeline,
  pressure: PressureCourse,
  locomotive: Locomotive,
  purpose: Steaming["purpose"],
  endS: number,
): Phase[] {
  const startS = timeline.firstS ?? 0;
  const fireEntries = timeline.of("fire");
  const fire = fireBurning(timeline);
  const litS = fireEntries.find((entry) => entry.state === "lit")?.atS ?? startS;
  const running = fromSteamOn(runningStretches(timeline), timeline, pressure, locomotive, litS);
  const bandS = pressure.reaches(WORKING_BAND * locomotive.workingPressureBarG, litS);
  const shutS = shutInFromS(timeline, pressure, purpose, startS);
  const usedS = running.find(([, toS]) => toS > litS)?.[0];
  // a hold is raised until it is shut in; she stands from the first where that is what was done, and she was in steam
  const stood = purpose === "standing" && fireEntries.length === 0 && pressure.beganInSteam;
  const pumpedS = lengthS(running) > 0 ? undefined : pumpedFromS(timeline, pressure, locomotive, litS);
  const raisedS = stood
    ? startS
    : Number.isFinite(shutS)
      ? shutS
      : Math.min(bandS ?? endS, usedS ?? endS, pumpedS ?? endS);

  // nothing that was read or done tells one part from another
  if (fireEntries.length === 0 && pressure.points.length === 0 && running.length === 0) return [];

  const moments = [startS, litS, raisedS, shutS, endS, ...running.flat(), ...fire.flat()];
  const bounds = [...new Set(moments)].filter((atS) => atS >= startS && atS <= endS).sort((a, b) => a - b);
  const named = bounds.slice(1).flatMap((toS, i): Phase[] => {
    const fromS = bounds[i] ?? startS;
    const name = nameOf((fromS + toS) / 2);
    return name === null ? [] : [{ name, fromS, toS, inferred: true }];
  });
  return joined(
    joined(named).map((phase) =>
      purpose !== "hot-hold" && phase.name === "shut-in" && phase.toS - phase.fromS < SHUT_IN_S
        ? { ...phase, name: "standing" }
        : phase,
    ),
  );

  function nameOf(atS: number): PhaseName | null {
    const within = (list: readonly Stretch[]) => list.some(([a, b]) => atS > a && atS < b);
    if (within(running)) return "running";
    if (atS < litS) return null;
    if (atS > shutS || (fireEntries.length > 0 && !within(fire))) return "shut-in";
    return atS < raisedS ? "raising" : "standing";
  }
}
