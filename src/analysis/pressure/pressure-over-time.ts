import { NONE_BAR, type PressureCourse } from "./pressure-course.ts";
import { type PressurePoint, pressureAt } from "./pressure-points.ts";

type Course = Pick<PressureCourse, "points" | "away" | "firstSteamS">;

/** Mean gauge pressure over time, bar; null where nothing was read. */
export function meanOver({ points, away }: Course, fromS: number, toS: number): number | null {
  if (points.length === 0) return null;
  const course = [...points, ...away];
  if (!(toS > fromS)) return pressureAt(course, fromS);
  const barSeconds = pieces(course, fromS, toS).reduce(
    (sum, [a, b]) => sum + ((a[1] + b[1]) / 2) * (b[0] - a[0]),
    0,
  );
  return barSeconds / (toS - fromS);
}

/** Seconds of the window with pressure on. */
export function inSteamS({ points, away, firstSteamS }: Course, fromS: number, toS: number): number {
  return pieces([...points, ...away], Math.max(fromS, firstSteamS ?? fromS), toS).reduce((total, [a, b]) => {
    const [low, high] = [Math.min(a[1], b[1]), Math.max(a[1], b[1])];
    const share = low > NONE_BAR ? 1 : high > NONE_BAR ? (high - NONE_BAR) / (high - low) : 0;
    return total + share * (b[0] - a[0]);
  }, 0);
}

/** The straight pieces of a course within a window. */
function pieces(
  course: readonly PressurePoint[],
  fromS: number,
  toS: number,
): [PressurePoint, PressurePoint][] {
  const marks: PressurePoint[] = [
    [fromS, pressureAt(course, fromS) ?? 0],
    ...course.filter(([atS]) => atS > fromS && atS < toS),
    [toS, pressureAt(course, toS) ?? 0],
  ];
  return marks.slice(1).map((mark, i) => [marks[i] as PressurePoint, mark]);
}
