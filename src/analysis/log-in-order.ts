import { type BoilerGeometry, boilerGeometry } from "../boiler/geometry.ts";
import type { Locomotive } from "../logbook/locomotive.ts";
import type { Steaming } from "../logbook/steaming.ts";
import { type Timeline, timelineOf, without } from "../logbook/timeline.ts";
import type { fuelCourse } from "./fuel/fuel-course.ts";
import type { FuelRead } from "./fuel/fuel-read.ts";
import { type Laps, lapsOf } from "./laps/laps.ts";
import { type WayCounted, wayCounted } from "./laps/way-counted.ts";
import { type CameDown, type PressureCourse, pressureCourse } from "./pressure/pressure-course.ts";
import type { PressureReadings } from "./pressure/pressure-readings.ts";
import { type BoilerState, boilerStates, type InSteam } from "./state/boiler-state.ts";
import type { cameDown } from "./state/came-down.ts";
import { type Circumstances, circumstancesOf, ICE_POINT_K } from "./state/circumstances.ts";
import { coolingAway } from "./state/cooling-away.ts";
import { heldCold } from "./state/held-cold.ts";
import { type ReadingErrors, readingErrors } from "./state/instruments.ts";
import { type Lighting, lightingOf } from "./state/lighting.ts";
import { type Phase, phasesOf } from "./state/phases.ts";
import { levelsBeyondBoiler, outlyingPressures } from "./state/slips.ts";
import type { LoggedWater } from "./water/logged-water.ts";

/** What the log says, put in order: all that the figures of water and of what is left are worked out from. */
export interface Sources {
  locomotive: Locomotive;
  steaming: Steaming;
  /** the log in order, without the readings that cannot have been */
  timeline: Timeline;
  /** the same with them */
  asWritten: Timeline;
  errors: ReadingErrors;
  around: Circumstances;
  geometry: BoilerGeometry;
  pressure: PressureCourse;
  pressures: PressureReadings;
  logged: LoggedWater;
  lighting: Lighting;
  phases: readonly Phase[];
  fuel: FuelRead;
  laps: Laps;
  counted: WayCounted;
  stateAt: (atS: number) => BoilerState;
  stateAtPressure: (barG: number) => InSteam;
}

/** What is read otherwise on a phone than for the sheet. */
interface Readers<Fuel> {
  pressures: (timeline: Timeline, errors: ReadingErrors) => PressureReadings;
  water: (timeline: Timeline, errors: ReadingErrors) => LoggedWater;
  fuel: (...logged: Parameters<typeof fuelCourse>) => Fuel;
  cameDown: (...read: Parameters<typeof cameDown>) => CameDown | null;
}

/** Puts the log in order, read so. */
export function inOrder<Fuel extends FuelRead>(
  locomotive: Locomotive,
  steaming: Steaming,
  read: Readers<Fuel>,
  untilS?: number,
): Sources & { fuel: Fuel } {
  const asWritten = timelineOf(steaming, untilS);
  const declared = readingErrors(locomotive);
  const geometry = boilerGeometry(locomotive.boiler);
  const { below, above } = levelsBeyondBoiler(asWritten, declared, geometry);
  const slipped = heldCold(steaming, asWritten) ? [] : outlyingPressures(asWritten, declared, locomotive);
  const timeline = without(asWritten, [
    ...below,
    ...above,
    ...slipped.flatMap(({ isSlip, reading }) => (isSlip ? [reading] : [])),
  ]);
  const around = circumstancesOf(steaming, timeline);
  const pressures = read.pressures(timeline, declared);
  const errors = { ...declared, pressureBiasBar: pressures.uBiasBar };
  const lighting = lightingOf(timeline, pressures.all, around, locomotive, errors);
  const cold = heldCold(steaming, timeline);
  const pressure = pressureCourse(
    timeline,
    pressures.points,
    Math.hypot(errors.pressureReadingBar, errors.pressureBiasBar),
    lighting.thought,
    cold ? [] : coolingAway(timeline, pressures.points, around),
    {
      heated: (barG) => {
        const asLitK = lighting.warm?.kelvin ?? around.feedC + ICE_POINT_K;
        return Math.max(0, around.boilingK(0) - asLitK) / (around.boilingK(barG) - asLitK);
      },
      aboveBoilingK: (barG) => around.boilingK(barG) - around.boilingK(0),
    },
    cold ? null : read.cameDown(timeline, pressures.all, around, locomotive.workingPressureBarG),
  );
  const phases = cold ? [] : phasesOf(timeline, pressure, locomotive, steaming.purpose);
  const laps = lapsOf(timeline, steaming, locomotive);
  const states = boilerStates(timeline, pressure, around, locomotive.workingPressureBarG, lighting.warm);
  return {
    locomotive,
    steaming,
    timeline,
    asWritten,
    errors,
    around,
    geometry,
    pressure,
    pressures,
    logged: read.water(timeline, errors),
    lighting,
    phases,
    fuel: read.fuel(timeline, phases, locomotive, errors, steaming.id),
    laps,
    counted: wayCounted(timeline, phases, steaming, locomotive, laps),
    stateAt: states.at,
    stateAtPressure: states.inSteam,
  };
}
