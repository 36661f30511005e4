import { waterState } from "../../src/steam/region1.ts";
import type { FeedHabits } from "./plan.ts";
import type { Random } from "./random.ts";

/**
 * Water put in under pressure. The person measures by marks on a bottle or by counting strokes; what goes in
 * differs from what is written by the scale of the measure (one error for the whole steaming, every means of
 * feeding alike), by the reading of one bottle, and by the unevenness of single strokes.
 */
export interface MeasureFaults {
  /** what goes in = written x (1 + this) */
  feedScale: number;
  /** standard deviation of one reading of a measure, ml */
  readingMl: number;
}

/** Relative standard deviation of one stroke of a hand pump about their mean. */
const STROKE_SPREAD = 0.05;

export interface Feeding {
  writtenMl: number;
  trueMl: number;
  strokes: number | null;
}

/** One bottle or one spell at the hand pump. */
export function oneFeeding(
  habits: FeedHabits,
  mlPerStroke: number,
  faults: MeasureFaults,
  random: Random,
): Feeding {
  if (habits.by === "bottle") {
    const trueMl = habits.each * (1 + faults.feedScale) + faults.readingMl * random.normal();
    return { writtenMl: habits.each, trueMl: Math.max(0, trueMl), strokes: null };
  }
  const spread = STROKE_SPREAD * mlPerStroke * Math.sqrt(habits.each);
  const writtenMl = habits.each * mlPerStroke;
  const trueMl = writtenMl * (1 + faults.feedScale) + spread * random.normal();
  return { writtenMl, trueMl: Math.max(0, trueMl), strokes: habits.each };
}

/** Feed water: density (kg/m3) at the atmosphere, and enthalpy (J/kg) at boiler pressure, to first order in it. */
export interface FeedWater {
  kgPerM3: number;
  joulesPerKg(boilerPa: number): number;
}

export function feedWaterOf(feedC: number, atmospherePa: number): FeedWater {
  const water = waterState(feedC + 273.15, atmospherePa);
  const slope = water.volumeM3PerKg * (1 - water.expansionPerK * water.temperatureK);
  return {
    kgPerM3: 1 / water.volumeM3PerKg,
    joulesPerKg: (boilerPa) => water.enthalpyJPerKg + slope * (boilerPa - atmospherePa),
  };
}

/** What an axle pump moves in one revolution of the driving wheel, m3. */
export function pumpM3PerRevolution(
  pump: { ramMm: number; strokeMm: number; strokesPerRev: number },
  efficiency: number,
): number {
  return (Math.PI / 4) * pump.ramMm ** 2 * pump.strokeMm * 1e-9 * pump.strokesPerRev * efficiency;
}
