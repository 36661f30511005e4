import type { Steaming } from "../../logbook/steaming.ts";
import type { Timeline } from "../../logbook/timeline.ts";
import { circumstancesOf } from "../state/circumstances.ts";
import { heldCold } from "../state/held-cold.ts";
import type { ReadingErrors } from "../state/instruments.ts";
import { broughtTogether, type Offset, offsetBetween } from "./offset.ts";
import { type PressurePoint, type PressureReading, pointsOfBoth } from "./pressure-points.ts";
import { thermometerPressures } from "./thermometer-pressures.ts";
import { samplesOf, scatterOf } from "./trace-samples.ts";

export interface PressureReadings {
  /** in order of time */
  all: readonly PressureReading[];
  /** the same in order of time, dial and logger weighed together */
  points: readonly PressurePoint[];
  /** how far the dial stood above the logger; null where not both were read */
  offset: Offset | null;
  /** standard uncertainty of what all of them share */
  uBiasBar: number;
}

/** Readings of the dial, as they were read. */
export function dialReadings(timeline: Timeline, errors: ReadingErrors): PressureReadings {
  const read = timeline.of("pressure");
  return {
    all: read.map(({ atS, barG }) => ({ atS, barG, uBar: errors.pressureReadingBar, by: "dial" })),
    points: read.map(({ atS, barG }) => [atS, barG]),
    offset: null,
    uBiasBar: errors.pressureBiasBar,
  };
}

/** Up to here a pointer may rest on its pin, and a logger show its own zero, bar. */
const PIN_BAR = 0.2;
/** A logger's sample is no better than this part of a reading of the dial (our choice). */
const BEST_SAMPLE = 0.05;

/**
 * Readings of dial and logger, each with its own error, on one scale; in a hot hold of which neither was read, what the
 * boiler's thermometer tells: all was shut, so that water and steam are at one temperature.
 * @param between what the thermometer tells while a dial was left unread
 */
export function pressureReadings(
  timeline: Timeline,
  errors: ReadingErrors,
  steaming: Steaming,
  between: readonly PressureReading[] = [],
): PressureReadings {
  const { pressureReadingBar, pressureBiasBar } = errors;
  const samples = samplesOf(timeline, "pressureBarG");
  const dial = heldCold(steaming, timeline)
    ? withMore(dialReadings(timeline, errors), reachedByStrokes(timeline, errors))
    : dialReadings(timeline, errors);
  if (samples.length === 0 && dial.all.length === 0 && steaming.purpose === "hot-hold") {
    const all = thermometerPressures(timeline, circumstancesOf(steaming, timeline));
    if (all.length > 0)
      return { all, points: all.map(({ atS, barG }) => [atS, barG]), offset: null, uBiasBar: 0 };
  }
  if (samples.length === 0) return withMore(dial, between);
  const scatter = scatterOf(samples.map(({ value }) => value));
  const uSample = scatter === null ? pressureReadingBar : Math.max(scatter, BEST_SAMPLE * pressureReadingBar);
  const offset = offsetBetween(
    timeline.of("pressure").map(({ id, atS, barG }) => ({ id, atS, value: barG })),
    samples.filter(({ value }) => value > PIN_BAR),
    { ofReading: pressureReadingBar, ofSample: uSample },
  );
  const { lowerReadingsBy, lowerSamplesBy, uBias } = broughtTogether(offset, pressureBiasBar);
  /** with no pressure on there is none to be brought lower; a zero that stands below it is brought up to it */
  const lowered = (barG: number, by: number) =>
    barG <= 0 ? Math.min(0, barG - Math.min(0, by)) : barG - by * Math.min(1, barG / PIN_BAR);
  const all = [
    ...dial.all.map((reading) => ({ ...reading, barG: lowered(reading.barG, lowerReadingsBy) })),
    ...samples.map(
      ({ atS, value }): PressureReading => ({
        atS,
        barG: lowered(value, lowerSamplesBy),
        uBar: uSample,
        by: "logger",
      }),
    ),
  ].sort((a, b) => a.atS - b.atS);
  return { all, points: pointsOfBoth(all), offset, uBiasBar: uBias };
}

function withMore(dial: PressureReadings, more: readonly PressureReading[]): PressureReadings {
  if (more.length === 0) return dial;
  const all = [...dial.all, ...more].sort((a, b) => a.atS - b.atS);
  return { ...dial, all, points: all.map(({ atS, barG }) => [atS, barG]) };
}

/** What pump strokes reached, read off the dial. */
export const reachedByStrokes = (
  timeline: Timeline,
  { pressureReadingBar }: ReadingErrors,
): PressureReading[] =>
  timeline
    .of("strokes")
    .map(({ id, atS, barG }) => ({ atS, barG, uBar: pressureReadingBar, by: "dial", strokesId: id }));
