import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { saturationTemperatureK } from "../../src/steam/saturation.ts";
import type { MotionNature } from "./nature.ts";
import type { SteamingPlan } from "./plan.ts";
import { type Random, wanderingFactor } from "./random.ts";
import { saturationAt } from "./steam-table.ts";

/**
 * The engine behind the regulator: how fast she goes and what steam she takes.
 *
 * The chest pressure is what load, gradient and the engine's own friction ask for, as far as the boiler can
 * give it; each revolution takes swept volume x (cut-off + clearance) of steam at chest pressure, and more for
 * condensation and leakage, which weigh more the slower she turns. Cylinders gone cold are warmed by steam.
 * Left out: compression, wire-drawing in the ports, superheat by throttling (under 10 K, 3 % of volume).
 */
export interface EngineStep {
  steamKg: number;
  /** what the swept volumes alone would have taken, dry, at chest pressure */
  dryKg: number;
  distanceM: number;
  revolutions: number;
  chestPa: number;
  /** pull on the train x distance, gradients aside */
  workJ: number;
}

export interface Engine {
  readonly speedMPerS: number;
  step(dtS: number, regulatorOpen: boolean, boilerPa: number): EngineStep;
}

export interface EngineDay {
  lapM: number | null;
  trainMassKg: number;
  trainResistance: number;
  atmospherePa: number;
  airK: number;
}

const GRAVITY = 9.806_65;
/** Pull on the train at a place of the line, N: its rolling resistance, and its weight on the gradient there. */
export function pullN({ engine, train, track }: SteamingPlan, distanceM: number): number {
  const { gradient, resistanceRatio } = engine.nature.motion;
  const grade = track === null ? 0 : gradient * Math.sin((4 * Math.PI * distanceM) / track.lapM);
  return GRAVITY * (train?.massKg ?? 0) * ((train?.resistanceRatio ?? resistanceRatio) + grade);
}

/** Share of chest pressure that becomes mean effective pressure at a long cut-off. */
const DIAGRAM = 0.8;
/** Share of boiler pressure that a full-open regulator passes. */
const FULL_OPEN = 0.9;
const GATHERS_SPEED_S = 3;
const CYLINDERS_WARM_S = 25;
const CYLINDERS_COOL_S = 500;

export function engineOf(
  locomotive: Locomotive,
  nature: MotionNature,
  day: EngineDay,
  random: Random,
): Engine {
  const perRev = volumesPerRevolution(locomotive);
  const workingPa = locomotive.workingPressureBarG * 1e5;
  const wander = wanderingFactor(nature.wander, random);
  const lapM = day.lapM ?? Number.POSITIVE_INFINITY;
  const massKg = nature.engineMassKg + day.trainMassKg;
  const rollingN =
    GRAVITY * (nature.engineMassKg * nature.resistanceRatio + day.trainMassKg * day.trainResistance);
  let [speed, distance, hand, lapFactor, lap] = [0, 0, 1, 1, 0];
  let cylindersK = day.airK;

  const gradient = () =>
    Number.isFinite(lapM) ? nature.gradient * Math.sin((4 * Math.PI * distance) / lapM) : 0;

  const atRest = (dtS: number): EngineStep => {
    speed = 0;
    cylindersK += (day.airK - cylindersK) * (1 - Math.exp(-dtS / CYLINDERS_COOL_S));
    return { steamKg: 0, dryKg: 0, distanceM: 0, revolutions: 0, chestPa: day.atmospherePa, workJ: 0 };
  };

  return {
    get speedMPerS() {
      return speed;
    },
    step: (dtS, regulatorOpen, boilerPa) => {
      const wandered = wander(dtS);
      const boilerGaugePa = boilerPa - day.atmospherePa;
      if (!regulatorOpen || boilerGaugePa < 0.02 * workingPa) return atRest(dtS);
      if (random.chance(dtS / nature.handEveryS)) hand = Math.exp(nature.handSd * random.normal());
      const grade = gradient();
      const neededPa =
        (nature.frictionBar * 1e5 +
          ((rollingN + massKg * GRAVITY * grade) * perRev.wheelM) / perRev.sweptM3) /
        DIAGRAM;
      const availablePa = FULL_OPEN * boilerGaugePa;
      const reach = Math.min(1, availablePa / Math.max(neededPa, 1));
      const target =
        nature.speedMPerS *
        hand *
        (1 - 8 * grade) *
        reach ** 2 *
        Math.min(boilerGaugePa / workingPa, 1.2) ** 0.3;
      speed += (target - speed) * (1 - Math.exp(-dtS / GATHERS_SPEED_S));
      const chestPa = day.atmospherePa + Math.min(availablePa, Math.max(neededPa, 0.05 * availablePa));
      const chestK = saturationTemperatureK(chestPa);

      const distanceM = speed * dtS;
      distance += distanceM;
      if (Math.floor(distance / lapM) > lap) {
        lap = Math.floor(distance / lapM);
        lapFactor = Math.exp(nature.lapSd * random.normal());
      }
      const revolutions = distanceM / perRev.wheelM;
      const dryKg = (revolutions * perRev.steamM3) / saturationAt(chestK).steamM3PerKg;
      const slow = Math.sqrt(nature.speedMPerS / Math.max(speed, 0.3 * nature.speedMPerS));
      const warmedK = (chestK - cylindersK) * (1 - Math.exp(-dtS / CYLINDERS_WARM_S));
      cylindersK += warmedK;
      const warmingKg = (Math.max(0, warmedK) * nature.cylindersJPerK) / 2.2e6;
      const steamKg = dryKg * (1 + nature.excess * lapFactor * slow) * wandered + warmingKg;
      const workJ = day.trainMassKg * GRAVITY * day.trainResistance * distanceM;
      return { steamKg, dryKg, distanceM, revolutions, chestPa, workJ };
    },
  };
}

/** Swept volume, volume of steam taken (m3) and way (m) of one revolution of the driving wheel. */
function volumesPerRevolution(locomotive: Locomotive) {
  const { cylinders, drivingWheelMm } = locomotive;
  if (cylinders === undefined || drivingWheelMm === undefined) {
    throw new RangeError(`engineOf: ${locomotive.id} has no cylinders or no driving wheel to run with`);
  }
  const { count, boreMm, strokeMm, rodMm = 0, cutoff, clearance = 0, doubleActing = true } = cylinders;
  const boreM2 = (Math.PI / 4) * (boreMm / 1000) ** 2;
  const rodM2 = (Math.PI / 4) * (rodMm / 1000) ** 2;
  const facesM2 = doubleActing ? 2 * boreM2 - rodM2 : boreM2;
  const sweptM3 = count * facesM2 * (strokeMm / 1000);
  return { sweptM3, steamM3: sweptM3 * (cutoff + clearance), wheelM: (Math.PI * drivingWheelMm) / 1000 };
}
