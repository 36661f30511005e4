import { stretches } from "../logbook/timeline.ts";
import { saturationPressurePa } from "../steam/saturation.ts";
import { ICE_POINT_K, PA_PER_BAR } from "./circumstances.ts";
import { fireStretches, runningStretches, type Stretch } from "./phases.ts";
import type { Sources } from "./sources.ts";
import { scatterOf } from "./trace-samples.ts";

/** One reading of a boiler left to cool with all shut. */
export interface CoolingReading {
  atS: number;
  /** of the boiling water, as read */
  barG: number;
  /** standard uncertainty of this reading alone, as a pressure */
  uBar: number;
  /** signed: what a standard error of the dial moves it by; 0 for a thermometer */
  biasBar: number;
}

/** A boiler thermometer: reading and place (our choice). */
const THERMOMETER_K = 1;
/** Where nobody wrote when the regulator was shut, she may have rolled on for so long once the fire was out. */
const ROLLS_ON_S = 120;
/** Readings count down to so many times their uncertainty, where the boiling point still tells them apart. */
const ABOVE_NOTHING = 4;
/** and of the dial's bias: a logger shows that much with no steam left */
const ABOVE_BIAS = 3;
const LEAST_BAR = 0.2;
/** A longer list is put together to so many readings. */
const ENOUGH = 40;

/**
 * The longest window in which the boiler was shut in: within a phase called so, fire out, regulator shut, blower off,
 * safety valve shut, nothing fed, blown down or let out. Null where no phase is called so.
 */
export function shutInWindow(from: Sources): Stretch | null {
  const { timeline, phases } = from;
  const endS = timeline.lastS ?? 0;
  const on = (kind: "blower" | "valve", state: "on" | "lifts") =>
    stretches(
      timeline.of(kind).map((entry) => ({ atS: entry.atS, on: entry.state === state })),
      endS,
    );
  const regulator = timeline.of("regulator").length > 0 ? runningStretches(timeline) : [];
  const busy = [...fireStretches(timeline), ...regulator, ...on("blower", "on"), ...on("valve", "lifts")];
  const moments = timeline.entries
    .filter((entry) => ["feed", "blowdown", "fill", "drained"].includes(entry.kind))
    .map((entry) => entry.atS);
  const shutIn = phases
    .filter((phase) => phase.name === "shut-in")
    .map((phase) => {
      const sure = !phase.inferred || regulator.length > 0 || from.steaming.purpose !== "trial";
      return { fromS: Math.min(phase.toS, phase.fromS + (sure ? 0 : ROLLS_ON_S)), toS: phase.toS };
    });
  if (shutIn.length === 0) return null;
  let best: Stretch = [shutIn[0]?.fromS ?? 0, shutIn[0]?.fromS ?? 0];
  for (const { fromS, toS } of shutIn) {
    const bounds = [fromS, toS, ...busy.flat(), ...moments]
      .filter((atS) => atS >= fromS && atS <= toS)
      .sort((a, b) => a - b);
    bounds.slice(1).forEach((end, i) => {
      const start = bounds[i] ?? end;
      const middle = (start + end) / 2;
      if (busy.some(([a, b]) => a < middle && middle < b)) return;
      if (end - start > best[1] - best[0]) best = [start, end];
    });
  }
  return best;
}

/** Readings of dial and boiler thermometer in a window, in order, as long as they tell the boiling point. */
export function coolingReadings(from: Sources, fromS: number, toS: number): CoolingReading[] {
  const { errors, around } = from;
  const least = Math.max(
    LEAST_BAR,
    ABOVE_NOTHING * errors.pressureReadingBar,
    ABOVE_BIAS * errors.pressureBiasBar,
  );
  const all = [...pressureReadings(from), ...thermometerReadings(from)]
    .filter((reading) => reading.atS >= fromS && reading.atS <= toS)
    .sort((a, b) => a.atS - b.atS);
  const end = all.findIndex((_, i) => meanAbout(all, i) < least);
  return together(end < 0 ? all : all.slice(0, end));

  function pressureReadings({ pressures }: Sources): CoolingReading[] {
    return pressures.all.map(({ atS, barG, uBar }) => ({ atS, barG, uBar, biasBar: pressures.uBiasBar }));
  }

  function thermometerReadings({ timeline }: Sources): CoolingReading[] {
    const one = (atS: number, celsius: number): CoolingReading[] => {
      const kelvin = celsius + ICE_POINT_K;
      if (!(kelvin > around.boilingK(0) && kelvin < MOST_K)) return [];
      const bar = (at: number) => (saturationPressurePa(at) - around.atmospherePa) / PA_PER_BAR;
      const uBar = (bar(kelvin + THERMOMETER_K) - bar(kelvin - THERMOMETER_K)) / 2;
      return [{ atS, barG: bar(kelvin), uBar, biasBar: 0 }];
    };
    const traced = timeline.traces
      .filter((trace) => trace.channel === "temperatureC")
      .flatMap((trace) =>
        trace.values.flatMap((value, i) =>
          value === null ? [] : one(trace.startS + i * trace.everyS, value),
        ),
      );
    const read = timeline.of("temperature").filter((entry) => entry.of === "boiler");
    return [...read.flatMap((entry) => one(entry.atS, entry.celsius)), ...traced];
  }
}

/** Neighbours to either side that a reading is judged with: to end at the first low one would keep the high ones. */
const NEIGHBOURS = 3;

function meanAbout(all: readonly CoolingReading[], place: number): number {
  const about = all.slice(Math.max(0, place - NEIGHBOURS), place + NEIGHBOURS + 1);
  const even = Math.min(place, all.length - 1 - place, NEIGHBOURS);
  const list = even === NEIGHBOURS ? about : all.slice(place - even, place + even + 1);
  return list.reduce((sum, reading) => sum + reading.barG, 0) / list.length;
}

/** Hotter than any boiler of these tables. */
const MOST_K = 600;

/**
 * Neighbours put together, each group a weighted mean of time and pressure: over so short a time the fall is straight.
 * Samples of one instrument may err alike for longer than the next (a coarse step, a slow filter), so that their mean is
 * no better than the groups themselves stray from the straight line between their neighbours.
 */
function together(readings: readonly CoolingReading[]): CoolingReading[] {
  const size = Math.ceil(readings.length / ENOUGH);
  if (size <= 1) return [...readings];
  const groups: CoolingReading[] = [];
  for (let start = 0; start < readings.length; start += size) {
    const group = readings.slice(start, start + size);
    const total = group.reduce((sum, reading) => sum + 1 / reading.uBar ** 2, 0);
    const mean = (value: (reading: CoolingReading) => number) =>
      group.reduce((sum, reading) => sum + value(reading) / reading.uBar ** 2, 0) / total;
    groups.push({
      atS: mean((reading) => reading.atS),
      barG: mean((reading) => reading.barG),
      uBar: 1 / Math.sqrt(total),
      biasBar: mean((reading) => reading.biasBar),
    });
  }
  const strays = scatterOf(groups.map(({ barG }) => barG)) ?? 0;
  return groups.map((group) => ({ ...group, uBar: Math.max(group.uBar, strays) }));
}
