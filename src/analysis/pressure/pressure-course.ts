import type { Timeline } from "../../logbook/timeline.ts";
import { type PressurePoint, pressureByWarmth } from "./pressure-points.ts";

/** Gauge pressure against time as it was read, dial and logger weighed together; her warmth goes straight between readings. */
export interface PressureCourse {
  /** as read; before them, where she was lit before any reading, what is thought of the lighting */
  points: readonly PressurePoint[];
  /** after the last reading, what is thought of her cooling with nobody's fire in her; empty where nothing is */
  away: readonly PressurePoint[];
  /** what she is thought to have come up to where nobody read it until she cooled; null where that was not so */
  cameDown: CameDown | null;
  /** null where nothing was read; before the first and after the last of those, that one */
  atS(atS: number): number | null;
  /** first moment after `fromS` at which the pressure stands at or above `barG`; null if never */
  reaches(barG: number, fromS: number): number | null;
  highest: { atS: number; barG: number } | null;
  /** when pressure first left zero; null if it never was read above `threshold`, or it began in steam */
  firstSteamS: number | null;
  /** true where the first reading already showed steam */
  beganInSteam: boolean;
  /** the first of the points is only thought */
  beginsThought: boolean;
}

/** What she had come up to when the fire went out, where it was read only as she cooled. */
export interface CameDown {
  atS: number;
  barG: number;
  /** standard uncertainty of its boiling temperature, K */
  uK: number;
}

/** How water warms on its way to a gauge pressure. */
export interface Warming {
  /** part of the heating from cold to that pressure that is done when it boils */
  heated(barG: number): number;
  /** by so much its boiling point lies above that at no pressure, K */
  aboveBoilingK(barG: number): number;
}

/** Of the dial's standard uncertainty: a reading above so many is steam, not the pointer's rest. */
export const BEYOND_DOUBT = 3;
/** Gauge pressures up to this count as none, bar. */
export const NONE_BAR = 0.05;

/**
 * @param read in order of time
 * @param uDialBar standard uncertainty of a reading, bias and all
 * @param thought when she was lit before any pressure was read, and what stood then; null where that was not so
 * @param away what is thought of after the last reading
 * @param cameDown what she is thought to have come up to, where that was not read
 */
export function pressureCourse(
  timeline: Timeline,
  read: Points,
  uDialBar: number,
  thought: PressurePoint | null,
  away: Points,
  warming: Warming,
  cameDown: CameDown | null = null,
): PressureCourse {
  const points: Points = thought === null ? read : [thought, ...read];
  const peak: Points = cameDown === null ? [] : [[cameDown.atS, cameDown.barG]];
  const known = peak.length === 0 ? points : [...points, ...peak].sort((a, b) => a[0] - b[0]);
  const course: PressurePoint[] = [...known, ...away];
  const threshold = Math.max(NONE_BAR, BEYOND_DOUBT * uDialBar);
  const steamAt = steamFrom(known, threshold, readNoneUntilS(timeline, threshold));
  const beganInSteam = steamAt === 0;
  let highest: PressureCourse["highest"] = null;
  for (const [atS, barG] of points) if (highest === null || barG > highest.barG) highest = { atS, barG };

  const litS = timeline.of("fire").find((entry) => entry.state === "lit")?.atS;
  const firstSteamS = beganInSteam ? null : firstSteam(known, steamAt, litS, warming);
  const place = known.findIndex(([atS]) => atS > (firstSteamS ?? Number.POSITIVE_INFINITY));
  const none = known[place - 1];
  // from none to the first steam she has no pressure, and it rises from there
  if (firstSteamS !== null && none !== undefined && none[1] <= NONE_BAR)
    course.splice(place, 0, [firstSteamS, 0]);

  return {
    points,
    away,
    cameDown,
    atS: (atS) => pressureByWarmth(course, atS),
    reaches: (barG, fromS) => firstReach(points, barG, fromS),
    highest,
    firstSteamS,
    beganInSteam,
    beginsThought: thought !== null,
  };
}

type Points = PressureCourse["points"];

function firstReach(points: Points, barG: number, fromS: number): number | null {
  const place = points.findIndex((point) => point[0] >= fromS && point[1] >= barG);
  const [before, point] = [points[place - 1], points[place]];
  if (point === undefined) return null;
  if (before === undefined) return point[0];
  if (before[1] >= barG) return fromS;
  return Math.max(fromS, before[0] + ((barG - before[1]) * (point[0] - before[0])) / (point[1] - before[1]));
}

/** A logger's sample is steam where those of so many seconds after it are (our choice): one in forty errs by as much as a dial twice. */
const STAYS_S = 30;

/** A hand read none until then, before it first read steam: what a logger shows till then is its zero. */
function readNoneUntilS(timeline: Timeline, threshold: number): number {
  const read = timeline.of("pressure");
  const up = read.findIndex(({ barG }) => barG > threshold);
  return (
    read.slice(0, Math.max(0, up)).findLast(({ barG }) => barG <= NONE_BAR)?.atS ?? Number.NEGATIVE_INFINITY
  );
}

/** Place of the first that is steam beyond doubt; -1 where none is. */
const steamFrom = (points: Points, threshold: number, afterS: number): number =>
  points.findIndex(([atS], i) => {
    if (atS <= afterS) return false;
    for (let j = i; j < points.length && (points[j] as PressurePoint)[0] <= atS + STAYS_S; j++)
      if ((points[j] as PressurePoint)[1] <= threshold) return false;
    return true;
  });

/**
 * Under a steady fire a closed boiler warms along a nearly straight line, and its pressure follows ever faster: the line of
 * boiling points through the first reading that is steam beyond doubt, carried back to no pressure, but never before the
 * last reading of none. Where the readings are
 * too far apart for that, the share of the heating from cold, under a steady fire, that brings water to the boil.
 */
function firstSteam(
  points: Points,
  index: number,
  litS: number | undefined,
  { heated, aboveBoilingK }: Warming,
): number | null {
  const up = points[index];
  if (up === undefined) return null;
  const before = points[index - 1] as PressurePoint;
  const none = points.slice(0, index).findLast(([, barG]) => barG <= NONE_BAR);
  const other = before[1] > NONE_BAR ? before : points[index + 1];
  const earliestS = Math.min(up[0], Math.max(none?.[0] ?? before[0], litS ?? Number.NEGATIVE_INFINITY));
  const upK = aboveBoilingK(up[1]);
  const pace = other === undefined ? 0 : (aboveBoilingK(other[1]) - upK) / (other[0] - up[0]);
  const backS = pace > 0 ? up[0] - upK / pace : Number.NEGATIVE_INFINITY;
  if (backS > earliestS) return backS;
  const fromS = litS ?? earliestS;
  return Math.min(up[0], Math.max(earliestS, fromS + heated(up[1]) * (up[0] - fromS)));
}
