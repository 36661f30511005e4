import { absent, type Figure, measured, measuredWithShared, sum } from "../../quantity/measured.ts";
import type { Sources } from "../sources.ts";
import { sharedSource } from "../state/instruments.ts";
import { NONE_BAR } from "./pressure-course.ts";

/** Between two readings the pressure may have strayed from the straight line by about this part of their difference. */
const STRAYED = 0.2;

/** Mean gauge pressure over a window as it was read, bar, with the doubt of reading, dial and of the gap between readings. */
export function meanPressureBar(from: Sources, fromS: number, toS: number): Figure {
  const { pressure, errors, locomotive } = from;
  const mean = pressure.meanOver(fromS, toS);
  if (mean === null) return absent("no pressure was read");
  if (!(mean > NONE_BAR)) return absent("no pressure was on");
  const within = pressure.points.filter(([atS]) => atS >= fromS && atS <= toS);
  const before = pressure.points.findLast(([atS]) => atS < fromS);
  const after = pressure.points.find(([atS]) => atS > toS);
  const about = [before, ...within, after].filter((point) => point !== undefined).map(([, barG]) => barG);
  const gap = about.length > 1 ? Math.max(...about) - Math.min(...about) : mean;
  const read = errors.pressureReadingBar / Math.sqrt(Math.max(1, within.length));
  return sum(
    measured(
      mean,
      Math.hypot(read, (STRAYED * gap) / Math.max(1, within.length)),
      "bar",
      "pressure readings",
    ),
    measuredWithShared(
      0,
      errors.pressureBiasBar,
      "bar",
      "bias of the pressure dial",
      sharedSource.dial(locomotive),
    ),
  );
}
