import { stretchesOf } from "../../logbook/timeline.ts";
import type { PressureReading } from "../pressure/pressure-points.ts";
import { thermometerPressures } from "../pressure/thermometer-pressures.ts";
import { scatterOf } from "../pressure/trace-samples.ts";
import type { Sources } from "../sources.ts";
import { fireBurning, runningStretches, SHUT_IN_S, type Stretch, without } from "../state/phases.ts";
import { believedThermometer, isWarmthRead } from "./believed-thermometer.ts";

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

/** Where nobody wrote when the regulator was shut, she may have rolled on for so long once the fire was out. */
const ROLLS_ON_S = 120;
/** Readings count down to so many times their uncertainty, where the boiling point still tells them apart. */
const ABOVE_NOTHING = 4;
/** and of the dial's bias: a logger shows that much with no steam left */
const ABOVE_BIAS = 3;
export const LEAST_BAR = 0.2;
/** A longer list is put together to so many readings. */
const ENOUGH = 40;

/** What ends a hold, each as it was written. */
export type Disturbed = "fire" | "regulator" | "blower" | "valve" | "feed" | "blowdown" | "fill" | "drained";

/**
 * The longest window in which the boiler was shut in: fire out, regulator shut, blower off, safety valve shut, nothing fed,
 * blown down or let out. Within a phase called so; where none is, within all after a fire that was written as put out, but for
 * what was marked as running: a mark from before speaks of no more than that time. Null where there is neither.
 * @param but what is not asked, as if it had not been done
 */
export function shutInWindow(from: Sources, but: readonly Disturbed[] = []): Stretch | null {
  const { timeline } = from;
  const asked = (kind: Disturbed): boolean => !but.includes(kind);
  const busy = [
    ...(asked("fire") ? fireBurning(timeline) : []),
    ...(asked("regulator") ? runningStretches(timeline) : []),
    ...(asked("blower") ? stretchesOf(timeline, "blower", "on") : []),
    ...(asked("valve") ? stretchesOf(timeline, "valve", "lifts") : []),
  ];
  const moments = timeline.entries
    .filter(({ kind }) => MOMENTARY.some((one) => one === kind && asked(one)))
    .map(({ atS }) => atS);
  const stretches = shutInStretches(from);
  const [first] = stretches;
  if (first === undefined) return null;
  // what is inferred leaves out when she ran and when a fire burnt
  const inferred = from.phases.every((phase) => phase.name !== "shut-in" || phase.inferred);
  const whole = inferred && !(asked("regulator") && asked("fire"));
  const shutIn: readonly Stretch[] = whole ? [[first[0], timeline.lastS ?? first[1]]] : stretches;
  const quiet = moments.reduce(
    (parts, atS) =>
      parts.flatMap(([a, b]): Stretch[] =>
        a < atS && atS < b
          ? [
              [a, atS],
              [atS, b],
            ]
          : [[a, b]],
      ),
    without(shutIn, busy),
  );
  return quiet.reduce<Stretch>((a, b) => (b[1] - b[0] > a[1] - a[0] ? b : a), [first[0], first[0]]);
}
const MOMENTARY = ["feed", "blowdown", "fill", "drained"] as const;

/** When she is taken to have been shut in, whatever was done meanwhile. */
export function shutInStretches({ timeline, phases, steaming }: Sources): Stretch[] {
  const written = timeline.of("regulator").length > 0;
  const called = phases
    .filter(({ name }) => name === "shut-in")
    .map(({ inferred, fromS, toS }): Stretch => {
      const sure = !inferred || written || steaming.purpose !== "trial";
      return [Math.min(toS, fromS + (sure ? 0 : ROLLS_ON_S)), toS];
    });
  const [endS, last] = [timeline.lastS ?? 0, timeline.of("fire").at(-1)];
  if (called.length > 0 || last?.state !== "out" || last.atS >= endS) return called;
  if (steaming.purpose === "hot-hold") return without([[last.atS, endS]], written ? [] : marked(phases));
  const running = [...marked(phases), ...runningStretches(timeline)];
  return timeline.of("phase").length === 0
    ? []
    : without([[last.atS, endS]], running).filter(([fromS, toS]) => toS - fromS > SHUT_IN_S);
}

const marked = (phases: Sources["phases"]): Stretch[] =>
  phases
    .filter(({ name, inferred }) => name === "running" && !inferred)
    .map(({ fromS, toS }): Stretch => [fromS, toS]);

/** Readings of the dial, and of a boiler thermometer that goes with it, in a window, in order, as long as they tell the boiling point. */
export function coolingReadings(from: Sources, fromS: number, toS: number): CoolingReading[] {
  const { errors } = from;
  const least = Math.max(
    LEAST_BAR,
    ABOVE_NOTHING * errors.pressureReadingBar,
    ABOVE_BIAS * errors.pressureBiasBar,
  );
  const { pressures, around } = from;
  const inside = ({ atS }: PressureReading): boolean => atS >= fromS && atS <= toS;
  const reading = ({ atS, barG, uBar }: PressureReading, biasBar: number): CoolingReading => ({
    atS,
    barG,
    uBar,
    biasBar,
  });
  const warmth = isWarmthRead(from)
    ? thermometerPressures(believedThermometer(from, fromS, toS), around).filter(inside)
    : [];
  const all = [
    ...pressures.all
      .filter((one) => one.by !== "thermometer" && inside(one))
      .map((one) => reading(one, pressures.uBiasBar)),
    ...warmth.map((one) => reading(one, 0)),
  ].sort((a, b) => a.atS - b.atS);
  const end = all.findIndex((_, place) => meanAbout(all, place) < least);
  return together(end < 0 ? all : all.slice(0, end));
}

/** A rise or fall of so many standard uncertainties is no chance among so many readings (our choice). */
const PLAINLY = 5;

/**
 * When the safety valve was shut for good. All shut, the pressure rises but once, over coals that still glow, and then falls:
 * where another rise follows a fall, a valve of which nobody wrote has blown before. Null where none has.
 */
export function blownUntilS(readings: readonly CoolingReading[]): number | null {
  const plainly = (high: CoolingReading, low: CoolingReading) =>
    high.barG - low.barG > PLAINLY * Math.hypot(high.uBar, low.uBar);
  let [high, low] = [readings[0] as CoolingReading, readings[0] as CoolingReading];
  let untilS: number | null = null;
  for (const reading of readings) {
    if (reading.barG < low.barG) low = reading;
    const again = plainly(high, low) && plainly(reading, low);
    if (again) untilS = low.atS;
    if (again || reading.barG > high.barG) [high, low] = [reading, reading];
  }
  return untilS;
}

/** Neighbours to either side that a reading is judged with: to end at the first low one would keep the high ones. */
const NEIGHBOURS = 3;

function meanAbout(all: readonly CoolingReading[], place: number): number {
  const even = Math.min(place, all.length - 1 - place, NEIGHBOURS);
  const about = all.slice(place - even, place + even + 1);
  return about.reduce((sum, { barG }) => sum + barG, 0) / about.length;
}

/**
 * Neighbours put together, each group a weighted mean of time and pressure: over so short a time the fall is straight.
 * Samples of one instrument may err alike for longer than the next (a coarse step, a slow filter), so that their mean is
 * no better than the groups themselves stray from the straight line between their neighbours.
 */
export function together(readings: readonly CoolingReading[]): CoolingReading[] {
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
