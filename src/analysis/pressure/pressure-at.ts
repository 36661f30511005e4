import { absent, type Figure, type Part } from "../../quantity/measured.ts";
import type { Sources } from "../sources.ts";
import { sharedSource } from "../state/instruments.ts";
import { NONE_BAR } from "./pressure-course.ts";
import { meanOver } from "./pressure-over-time.ts";
import type { PressurePoint } from "./pressure-points.ts";

/** Between two readings the pressure may have strayed from the straight line by about this part of their difference. */
const STRAYED = 0.2;

/** Mean gauge pressure over a window as it was read, bar, with the doubt of reading, dial and of the gap between readings. */
export function meanPressureBar(from: Sources, fromS: number, toS: number): Figure {
  const { pressure } = from;
  const mean = meanOver(pressure, fromS, toS);
  if (mean === null) return absent("no pressure was read");
  if (!(mean > NONE_BAR)) return absent("no pressure was on");
  return { value: mean, unit: "bar", parts: pressureDoubt(from, pressure.points, fromS, toS) };
}

/** What a mean over a window of these points is in doubt by. */
export function pressureDoubt(
  { errors, locomotive }: Sources,
  points: readonly PressurePoint[],
  fromS: number,
  toS: number,
): Part[] {
  const within = points.filter(([atS]) => atS >= fromS && atS <= toS);
  const before = points.findLast(([atS]) => atS < fromS);
  const after = points.find(([atS]) => atS > toS);
  const about = [before, ...within, after].filter((point) => point !== undefined).map(([, barG]) => barG);
  const gap = Math.max(...about) - (about.length > 1 ? Math.min(...about) : 0);
  const read = errors.pressureReadingBar / Math.sqrt(Math.max(1, within.length));
  const parts: Part[] = [
    { name: "pressure readings", u: Math.hypot(read, (STRAYED * gap) / Math.max(1, within.length)) },
    { name: "bias of the pressure dial", source: sharedSource.dial(locomotive), u: errors.pressureBiasBar },
  ];
  return parts.filter(({ u }) => u > 0);
}
