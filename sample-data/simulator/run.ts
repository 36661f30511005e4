import { boilerState } from "./boiler-state.ts";
import { booksOf } from "./books.ts";
import { type Day, dayOf } from "./day.ts";
import { driverOf } from "./driver.ts";
import { type Engine, engineOf } from "./engine.ts";
import { feederOf } from "./feeder.ts";
import { fireOf } from "./fire.ts";
import { glassMm } from "./glass.ts";
import type { Happening, Ledger } from "./ledger.ts";
import type { SteamingPlan } from "./plan.ts";
import { type Random, randomOf, wanderingFactor } from "./random.ts";
import { streamsOf } from "./streams.ts";

/** One step; half of it while the safety valve blows. */
const STEP_S = 0.5;
const LONGEST_S = 6 * 3600;
const GUSTS = { relativeSd: 0.05, correlationS: 60 };

/**
 * One steaming from the first fill to the end: each step moves mass and heat between streams and the boiler,
 * and whatever goes is written to a counter, so that the books can be closed.
 */
export function run(plan: SteamingPlan, seed: number): { day: Day; ledger: Ledger } {
  const day = dayOf(plan, seed);
  const { locomotive, vessel, geometry, atmospherePa } = day;
  const measures = randomOf(seed, "measures");
  const happenings: Happening[] = [];
  const say = (happening: Happening) => happenings.push(happening);
  const trueFuelKg = fuelMeasure(plan, day, measures);
  const bedFullKg = plan.fuel.portions === null ? null : plan.fuel.first * day.fuelKgPerUnit;
  const fire = fireOf(plan.engine.nature.fire, day.lowerHeatingJPerKg, bedFullKg, randomOf(seed, "fire"));
  const feeder = feederOf(plan, day, say, measures);
  const gust = wanderingFactor(GUSTS, randomOf(seed, "gusts"));
  const streams = streamsOf({ plan, day, fire, engine: engineFor(plan, day, seed), feeder, gust, say });
  const driver = driverOf(plan, locomotive, say, randomOf(seed, "driver"));
  const books = booksOf(plan.engine.nature.leaks);

  let { massKg, energyJ } = filled(plan, day, measures);
  let state = boilerState(vessel, massKg, energyJ, day.feedK);
  say({ kind: "fill", atS: 0, ml: plan.fillMl });
  const addFuel = (atS: number, amount: number) => {
    say({ kind: "fuel", atS, amount, by: plan.fuel.by });
    fire.add(trueFuelKg(amount));
  };
  addFuel(0, plan.fuel.first);

  for (let atS = 0; atS <= LONGEST_S; atS += STEP_S) {
    if (Number.isInteger(atS)) books.sample(massKg, energyJ, fire.fuelKg, state, atmospherePa);
    const controls = driver({
      atS,
      barG: (state.pressurePa - atmospherePa) / 1e5,
      levelMm: () => glassMm(locomotive.boiler, geometry, state.waterM3, state.temperatureK),
      fireBurning: fire.burning,
      bedKg: fire.fuelKg,
      feeding: feeder.busy,
      fedMl: feeder.fedMl,
    });
    if (controls.finished && Number.isInteger(atS)) {
      feeder.end(atS);
      break;
    }
    const { wants } = controls;
    if (wants.light) fire.light();
    if (wants.putOut) fire.putOut();
    if (wants.fire) addFuel(atS, plan.fuel.portions?.each ?? 0);
    if (wants.feed) feeder.begin(atS);

    const parts = streams.valveOpen ? 2 : 1;
    for (let part = 0; part < parts; part += 1) {
      const moved = streams.step(STEP_S / parts, atS + (part * STEP_S) / parts, state, controls);
      massKg += moved.massKg;
      energyJ += moved.energyJ;
      state = boilerState(vessel, massKg, energyJ, state.temperatureK);
      books.add(moved.counted, moved.leakedG);
    }
  }
  const { curves, leakedG } = books;
  return { day, ledger: { curves, leakedG, happenings, endS: curves.massG.length - 1 } };
}

/** What a person measures out is that much but for the error of one reading. */
function fuelMeasure(plan: SteamingPlan, day: Day, random: Random): (written: number) => number {
  const { massReadingG, volumeReadingMl } = plan.instruments;
  const error = plan.fuel.by === "g" ? massReadingG : volumeReadingMl;
  return (written) => Math.max(0, (written + error * random.normal()) * day.fuelKgPerUnit);
}

/** Filled by a measuring cylinder of one reading's error; the scale of the feed measure is another matter. */
function filled(plan: SteamingPlan, day: Day, random: Random): { massKg: number; energyJ: number } {
  const { kgPerM3, joulesPerKg } = day.feedWater;
  const trueMl = plan.fillMl + plan.instruments.volumeReadingMl * random.normal();
  const massKg = trueMl * 1e-6 * kgPerM3;
  const internalJPerKg = joulesPerKg(day.atmospherePa) - day.atmospherePa / kgPerM3;
  return { massKg, energyJ: massKg * internalJPerKg + day.vessel.metalJPerK * plan.feedC };
}

function engineFor(plan: SteamingPlan, day: Day, seed: number): Engine | null {
  if (day.locomotive.cylinders === undefined) return null;
  const { motion } = plan.engine.nature;
  const today = {
    lapM: plan.track?.lapM ?? null,
    trainMassKg: plan.train?.massKg ?? 0,
    trainResistance: plan.train?.resistanceRatio ?? motion.resistanceRatio,
    atmospherePa: day.atmospherePa,
    airK: day.airK,
  };
  return engineOf(day.locomotive, motion, today, randomOf(seed, "engine"));
}
