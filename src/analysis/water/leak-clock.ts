import { NONE_BAR, type PressureCourse } from "../pressure/pressure-course.ts";
import { lastAtOrBefore, type PressurePoint } from "../pressure/pressure-points.ts";

/** From here on steam chokes in a leak and flows as its absolute pressure; below, evenly to nothing at no pressure, bar. */
const CHOKES_BAR = 0.75;

/**
 * Seconds on a clock that runs as a leak of steam flows: with time at working pressure, slower below it, and not where there
 * is no pressure. By time alone what leaks of a boiler that cools would be as much at the end as at the beginning, and the
 * water at the end come out too low. Where no pressure was read it is time.
 * @param share of the flow at working pressure where it chokes
 */
export function leakClock(
  { points, away }: Pick<PressureCourse, "points" | "away">,
  share: (barG: number) => number,
): (atS: number) => number {
  const course = [...points, ...away];
  const flow = (barG: number) =>
    barG >= CHOKES_BAR
      ? share(barG)
      : (share(CHOKES_BAR) * Math.max(0, barG - NONE_BAR)) / (CHOKES_BAR - NONE_BAR);
  /** straight between two readings; by Simpson's rule */
  const between = ([a, p]: PressurePoint, [b, q]: PressurePoint) =>
    ((b - a) * (flow(p) + 4 * flow((p + q) / 2) + flow(q))) / 6;
  const passed: number[] = [];
  course.forEach((point, i) => {
    passed.push((passed[i - 1] ?? 0) + between(course[i - 1] ?? point, point));
  });
  return (atS) => {
    const place = lastAtOrBefore(course, atS);
    const [before, after] = [course[place], course[place + 1]];
    const nearest = before ?? after;
    if (nearest === undefined) return atS;
    const [s, barG] = nearest;
    if (before === undefined || after === undefined) return (passed[place] ?? 0) + (atS - s) * flow(barG);
    const now = barG + ((after[1] - barG) * (atS - s)) / (after[0] - s);
    return (passed[place] as number) + between(before, [atS, now]);
  };
}
