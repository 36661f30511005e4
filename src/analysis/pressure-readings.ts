import type { Timeline } from "../logbook/timeline.ts";
import type { ReadingErrors } from "./instruments.ts";
import { broughtTogether, type Offset, offsetBetween } from "./offset.ts";
import { samplesOf, scatterOf } from "./trace-samples.ts";

/** One pressure as it was read, by hand or by a logger, brought to what the two agree on. */
export interface PressureReading {
  atS: number;
  barG: number;
  /** standard uncertainty of this reading alone */
  uBar: number;
  by: "dial" | "logger";
}

export interface PressureReadings {
  /** in order of time */
  all: readonly PressureReading[];
  /** how far the dial stood above the logger; null where not both were read */
  offset: Offset | null;
  /** standard uncertainty of what all of them share */
  uBiasBar: number;
}

/** Up to here a pointer may rest on its pin, and a logger show its own zero, bar. */
const PIN_BAR = 0.2;
/** A logger's sample is no better than this part of a reading of the dial (our choice). */
const BEST_SAMPLE = 0.05;

/** Readings of dial and logger, each with its own error, on one scale. */
export function pressureReadings(timeline: Timeline, errors: ReadingErrors): PressureReadings {
  const { pressureReadingBar, pressureBiasBar } = errors;
  const samples = samplesOf(timeline, "pressureBarG");
  const scatter = scatterOf(samples.map(({ value }) => value));
  const uSample = scatter === null ? pressureReadingBar : Math.max(scatter, BEST_SAMPLE * pressureReadingBar);
  const read = timeline.of("pressure");
  const offset = offsetBetween(
    read.map(({ id, atS, barG }) => ({ id, atS, value: barG })),
    samples.filter(({ value }) => value > PIN_BAR),
    { ofReading: pressureReadingBar, ofSample: uSample },
  );
  const { lowerReadingsBy, lowerSamplesBy, uBias } = broughtTogether(offset, pressureBiasBar);
  /** with no pressure on there is none to be brought lower; a zero that stands below it is brought up to it */
  const lowered = (barG: number, by: number) =>
    barG <= 0 ? Math.min(0, barG - Math.min(0, by)) : barG - by * Math.min(1, barG / PIN_BAR);
  const all = [
    ...read.map(
      ({ atS, barG }): PressureReading => ({
        atS,
        barG: lowered(barG, lowerReadingsBy),
        uBar: pressureReadingBar,
        by: "dial",
      }),
    ),
    ...samples.map(
      ({ atS, value }): PressureReading => ({
        atS,
        barG: lowered(value, lowerSamplesBy),
        uBar: uSample,
        by: "logger",
      }),
    ),
  ];
  return {
    all: samples.length === 0 ? all : all.sort((a, b) => a.atS - b.atS),
    offset,
    uBiasBar: uBias,
  };
}
