import { boilerGeometry } from "../../src/boiler/geometry.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { engines } from "./engines.ts";
import type { EnginePlan } from "./nature.ts";
import type { FeedHabits, SteamingPlan } from "./plan.ts";
import { type Random, randomOf } from "./random.ts";
import { randomInstruments, randomObserver } from "./random-observer.ts";
import { randomStages } from "./random-stages.ts";
import { rounded } from "./readings.ts";

/**
 * A steaming drawn by chance: engine (each time another one of its kind), day, what the driver does and what
 * the observer is like. Every plan can be had again by its seed.
 */
export function randomPlan(seed: number): SteamingPlan {
  const random = randomOf(seed, "plan");
  const base = random.pick(engines);
  const standing = random.chance(0.15);
  const weighs = base.locomotive.fuel.kind !== "coal" && random.chance(0.12);
  const withoutGlass = base.nature.glass === null || random.chance(0.08);
  const engine = another(base, withoutGlass, random);
  const fillMl = fillOf(engine.locomotive, random);
  const instruments = randomInstruments(engine, weighs, random);
  const lapM = rounded(random.between(12, 90) * Math.max(1, engine.nature.motion.speedMPerS), 0.5);
  const withTrain = !standing && random.chance(0.6);
  return {
    id: `chance-${seed}`,
    purpose: standing ? "standing" : "trial",
    startedAt: "2026-05-02T10:00:00+01:00",
    engine,
    instruments,
    ambientC: rounded(random.between(4, 28), 0.5),
    feedC: rounded(random.between(8, 25), 0.5),
    atmosphereHPa: random.whole(985, 1032),
    dryness: random.chance(0.85) ? 1 : random.pick([0.97, 0.98, 0.99]),
    track: standing ? null : { lapM },
    train: withTrain ? trainOf(engine, random, randomOf(seed, "train taken for")) : null,
    fillMl,
    fuel: fuelOf(engine.locomotive, random),
    stages: randomStages(engine, standing, random),
    driver: {
      lightsAtS: random.whole(30, 150),
      feed: feedOf(engine.locomotive, weighs, random),
      stopBelow: random.between(0.3, 0.5),
      goAbove: random.between(0.7, 0.95),
      turnDownAbove: random.between(0.88, 1),
      turnUpBelow: random.between(0.65, 0.8),
      marginMm: 0.5,
    },
    observer: randomObserver(engine, { weighs, withoutGlass }, random),
  };
}

/** The owner's ratio of resistance is a tenth off, more or less. */
const TAKEN_FOR_U = 0.1;

function trainOf(engine: EnginePlan, random: Random, owner: Random): NonNullable<SteamingPlan["train"]> {
  const { engineMassKg, resistanceRatio } = engine.nature.motion;
  const carriesPeople = engine.locomotive.fuel.kind === "coal";
  const ratio = carriesPeople ? random.between(2, 6) : random.between(0.4, 1.6);
  const massKg = rounded(engineMassKg * ratio, 0.1);
  if (random.chance(0.5)) return { massKg };
  const trueRatio = rounded(resistanceRatio * random.between(0.8, 1.2), 0.001);
  const takenForRatio = rounded(trueRatio * (1 + TAKEN_FOR_U * owner.normal()), 0.0001);
  return { massKg, resistanceRatio: trueRatio, takenForRatio };
}

/** The same drawing, another builder and another year: loss, fire, cylinders, wander and leaks differ. */
function another(base: EnginePlan, withoutGlass: boolean, random: Random): EnginePlan {
  const { nature } = base;
  const about = (value: number, spread: number) => value * Math.exp(spread * random.normal());
  return {
    locomotive: base.locomotive,
    nature: {
      ...nature,
      lossW: about(nature.lossW, 0.15),
      fire: {
        ...nature.fire,
        burnGPerMin: about(nature.fire.burnGPerMin, 0.08),
        transfer: about(nature.fire.transfer, 0.05),
        wander: { relativeSd: random.between(0.04, 0.14), correlationS: random.between(40, 200) },
      },
      motion: {
        ...nature.motion,
        excess: about(nature.motion.excess, 0.2),
        wander: { relativeSd: random.between(0.08, 0.2), correlationS: random.between(30, 300) },
      },
      leaks: nature.leaks.map((leak) => ({
        ...leak,
        gPerMinAtWorkingPressure: about(leak.gPerMinAtWorkingPressure, 0.8),
      })),
      pumpEfficiency: nature.pumpEfficiency * random.between(0.85, 1.1),
      glass: withoutGlass ? null : nature.glass,
    },
  };
}

/** Cold water that comes to between half and nearly the whole of the glass when hot (8 % swollen). */
function fillOf(locomotive: Locomotive, random: Random): number {
  const { boiler } = locomotive;
  const share = random.between(0.6, 0.95);
  const levelMm = boiler.lowestLevelMm + share * (boiler.highestLevelMm - boiler.lowestLevelMm);
  const hotMl = boilerGeometry(boiler).waterM3AtLevelMm(levelMm) * 1e6;
  return rounded(hotMl / 1.09, hotMl > 500 ? 10 : 5);
}

function fuelOf(locomotive: Locomotive, random: Random): SteamingPlan["fuel"] {
  const { fuel } = locomotive;
  const tankMl = fuel.tankMl ?? 0;
  if (fuel.kind === "coal") {
    const first = rounded(locomotive.boiler.metalMassG * random.between(0.03, 0.045), 10);
    return { by: "g", first, portions: { each: rounded(first * 0.3, 5), below: first * 0.75, most: 60 } };
  }
  if (fuel.kind === "spirit") {
    const first = rounded(tankMl * random.between(0.55, 0.95), 5);
    return random.chance(0.7)
      ? { by: "ml", first, portions: null }
      : { by: "g", first: rounded(first * (fuel.densityGPerMl ?? 0.8), 1), portions: null };
  }
  // liquid gas, never more than four fifths of the tank
  return { by: "g", first: rounded(tankMl * 0.56 * random.between(0.5, 0.8), 0.5), portions: null };
}

function feedOf(locomotive: Locomotive, weighs: boolean, random: Random): FeedHabits | null {
  const { boiler, axlePump, handPump } = locomotive;
  const span = boiler.highestLevelMm - boiler.lowestLevelMm;
  const belowMm = boiler.lowestLevelMm + span * random.between(0.25, 0.5);
  const aboveMm = boiler.lowestLevelMm + span * random.between(0.7, 0.9);
  const geometry = boilerGeometry(boiler);
  const wantedMl = (geometry.waterM3AtLevelMm(aboveMm) - geometry.waterM3AtLevelMm(belowMm)) * 1e6 * 0.8;
  const common = { belowMm, aboveMm, mostMl: geometry.totalM3 * 1e6 * random.between(0.5, 6) };
  if (random.chance(0.2) && locomotive.fuel.kind !== "coal") return null;
  const onlyStanding = random.chance(0.4);
  if (axlePump !== undefined && !weighs && random.chance(0.6)) {
    return { ...common, by: "axle-pump", each: 0, mlPerS: 0, onlyStanding: false };
  }
  if (handPump !== undefined && random.chance(0.6)) {
    const strokes = Math.max(5, Math.round(wantedMl / handPump.mlPerStroke));
    return { ...common, by: "hand-pump", each: strokes, mlPerS: 0.9 * handPump.mlPerStroke, onlyStanding };
  }
  const each = Math.max(5, rounded(wantedMl, 5));
  return { ...common, by: "bottle", each, mlPerS: each / random.between(12, 40), onlyStanding };
}
