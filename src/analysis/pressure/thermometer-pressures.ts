import type { Timeline } from "../../logbook/timeline.ts";
import { saturationPressurePa } from "../../steam/saturation.ts";
import { type Circumstances, ICE_POINT_K, PA_PER_BAR } from "../state/circumstances.ts";
import type { PressureReading } from "./pressure-points.ts";
import { samplesOf } from "./trace-samples.ts";

/** A boiler thermometer: reading and place (our choice). */
const THERMOMETER_K = 1;
/** Hotter than any boiler of these tables. */
const MOST_K = 600;

/** A boiler thermometer above boiling tells the pressure, free of the dial's bias; in order of time. */
export function thermometerPressures(timeline: Timeline, around: Circumstances): PressureReading[] {
  const bar = (kelvin: number) => (saturationPressurePa(kelvin) - around.atmospherePa) / PA_PER_BAR;
  const read = timeline
    .of("temperature")
    .filter(({ of }) => of === "boiler")
    .map(({ atS, celsius }) => ({ atS, value: celsius }));
  return [...read, ...samplesOf(timeline, "temperatureC")]
    .map(({ atS, value }) => ({ atS, kelvin: value + ICE_POINT_K }))
    .filter(({ kelvin }) => kelvin > around.boilingK(0) && kelvin < MOST_K)
    .map(
      ({ atS, kelvin }): PressureReading => ({
        atS,
        barG: bar(kelvin),
        uBar: (bar(kelvin + THERMOMETER_K) - bar(kelvin - THERMOMETER_K)) / 2,
        by: "thermometer",
      }),
    )
    .sort((a, b) => a.atS - b.atS);
}
