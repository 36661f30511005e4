import type { Steaming } from "../../src/logbook/steaming.ts";
import type { EnginePlan } from "./nature.ts";

/** One steaming as it is to go: engine, day, what the driver does and what the observer writes. */
export interface SteamingPlan {
  id: string;
  title?: string;
  notes?: string;
  purpose: Steaming["purpose"];
  /** ISO 8601 with offset */
  startedAt: string;
  engine: EnginePlan;
  instruments: InstrumentSet;
  /** seed of the faults of the measures, where several steamings are read with the same ones; the steaming's own if absent */
  measuresSeed?: number;
  ambientC: number;
  feedC: number;
  atmosphereHPa: number;
  /** of all steam that leaves the boiler; recorded with the conditions unless 1 */
  dryness: number;
  track: { lapM: number; place?: string } | null;
  /** written down with the ratio of resistance that the owner takes it for, where that is not the true one */
  train: { massKg: number; resistanceRatio?: number; takenForRatio?: number } | null;
  /** poured in cold before the fire is lit, as the person measures it */
  fillMl: number;
  fuel: FuelPlan;
  stages: readonly Stage[];
  driver: DriverHabits;
  observer: ObserverHabits;
}

/** Fuel as the person measures it: by mass or by volume, whole at the start or fired by portions. */
export interface FuelPlan {
  by: "g" | "ml";
  first: number;
  /** laid on when the fire has burnt down to `below` g; null for a tank */
  portions: { each: number; below: number; most: number } | null;
}

export type Stage =
  /** fire lit, until the pressure is reached */
  | { kind: "raise"; untilBarG: number; atMostS: number }
  | { kind: "stand"; forS: number }
  /** stops: stations, regulator shut */
  | { kind: "run"; forS: number; stops: { everyS: number; forS: number } | null }
  /** fire put out if it still burns, all shut */
  | { kind: "shut-in"; forS: number };

export interface DriverHabits {
  /** seconds before lighting up */
  lightsAtS: number;
  feed: FeedHabits | null;
  /** shares of working pressure (gauge): stop for steam below the first, go on above the second */
  stopBelow: number;
  goAbove: number;
  /** with a fire that can be turned down: down above, up below these shares of working pressure */
  turnDownAbove: number;
  turnUpBelow: number;
  /** ends a run when the level is this far above the lowest and nothing can be fed, mm */
  marginMm: number;
}

export interface FeedHabits {
  by: "bottle" | "hand-pump" | "axle-pump";
  /** feeds when the glass shows less; by-pass opened above the second */
  belowMm: number;
  aboveMm: number;
  /** bottle: millilitres each time; hand pump: strokes each time */
  each: number;
  mlPerS: number;
  /** altogether, millilitres; a water tank or a can ends */
  mostMl: number;
  onlyStanding: boolean;
}

/** Sizes of error as they are: of one reading with its rounding, and of what a steaming's readings share. */
export interface InstrumentSet {
  pressureReadingBar: number;
  pressureDivisionBar: number;
  pressureBiasBar: number;
  levelReadingMm: number;
  levelDivisionMm: number;
  feedRelative: number;
  massReadingG: number;
  massDivisionG: number;
  volumeReadingMl: number;
  volumeDivisionMl: number;
}

export interface ObserverHabits {
  /** mean time between readings; the times between are uneven by +/- `unevenness` of it */
  levelEveryS: number | null;
  pressureEveryS: number | null;
  /** dial during a shut-in */
  holdEveryS: number | null;
  unevenness: number;
  /** chance that a reading due is not taken */
  missed: number;
  /** standard deviation of written against true time */
  stampSdS: number;
  /** level and pressure read at the start, at each change of stage and at the end */
  readsAtChanges: boolean;
  marksPhases: boolean;
  writesRegulator: boolean;
  writesFill: boolean;
  /** boiler emptied and measured when all is over */
  drains: boolean;
  writesFuelRemaining: boolean;
  laps: "each" | "at-stops" | "none";
  /** chance that a lap is not written */
  forgottenLaps: number;
  writesValve: boolean;
  /** what the water tank lost to the axle pump is measured and written */
  writesPumpFeed: boolean;
  /** of an axle pump, that its by-pass stood open when she was lit; absent: not written */
  writesBypassOpen?: boolean;
  /** whole engine on the scale, water, fuel and all: at the start, each stop of a run, and the end */
  weighs: boolean;
  drips: readonly { fitting: string; overS: number }[];
  looksAt: readonly string[];
  traces: readonly TraceHabit[];
  /** what only some have with them; none if absent */
  extras?: ExtraHabits;
  /** the log breaks off then, s; to the end if absent */
  writesUntilS?: number;
}

/** Instruments beyond dial, glass and watch, each read about every so often with such an error. */
export interface ExtraHabits {
  /** dynamometer between engine and train, read while running */
  pull?: { everyS: number; readingN: number };
  /** counter on the driving wheel, read while running and at the end of each run */
  revolutions?: { everyS: number };
  thermometers?: readonly { of: "feed" | "ambient" | "boiler"; everyS: number; readingC: number }[];
}

export interface TraceHabit {
  channel: "pressureBarG" | "levelMm" | "massG";
  everyS: number;
  division: number;
  /** standard uncertainty of one sample where the logger is better than the instrument declared */
  readingU?: number;
  /** a sender of its own, whose bias has this standard uncertainty; without it the logger errs as the dial does */
  biasU?: number;
  /** such a sender that is to be off by so much and no other */
  bias?: number;
}
