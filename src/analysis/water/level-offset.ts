import { glassReading } from "../../logbook/glass-reading.ts";
import type { Timeline } from "../../logbook/timeline.ts";
import { broughtTogether, type Offset, offsetBetween } from "../pressure/offset.ts";
import { samplesOf, scatterOf } from "../pressure/trace-samples.ts";
import type { ReadingErrors } from "../state/instruments.ts";

/** How far the glass stood above a level logger, and what brings the two together, mm; of neither a bias is declared. */
export function levelOffset(
  timeline: Timeline,
  { levelReadingMm }: ReadingErrors,
): ReturnType<typeof broughtTogether> & { offset: Offset | null } {
  const samples = samplesOf(timeline, "levelMm");
  const offset = offsetBetween(
    timeline
      .of("level")
      .filter((entry) => glassReading(entry) === "exact")
      .map(({ id, atS, mm }) => ({ id, atS, value: mm })),
    samples,
    {
      ofReading: levelReadingMm,
      ofSample: scatterOf(samples.map(({ value }) => value)) ?? levelReadingMm,
    },
  );
  return { offset, ...broughtTogether(offset, 0) };
}
