import { boilerState } from "./boiler-state.ts";
import { type Day, dayOf } from "./day.ts";
import { type Controls, driverOf, type View } from "./driver.ts";
import { engineOf } from "./engine.ts";
import { oneFeeding, pumpM3PerRevolution } from "./feed.ts";
import { fireOf } from "./fire.ts";
import { glassMm } from "./glass.ts";
import { leakKgPerS } from "./leaks.ts";
import { counterNames, type Happening, type Ledger, noCounters, noCurves } from "./ledger.ts";
import { surfaceLossW, windFactor } from "./loss.ts";
import type { SteamingPlan } from "./plan.ts";
import { randomOf, wanderingFactor } from "./random.ts";
import { safetyValveStep } from "./safety-valve.ts";
import { saturationAt } from "./steam-table.ts";

/** Steps a second: twice that while the safety valve blows. */
const STEP_S = 0.5;
const LONGEST_S = 6 * 3600;
const GUSTS = { relativeSd: 0.05, correlationS: 60 };

/**
 * One steaming from the first fill to the end: each step moves mass and heat between streams and the boiler,
 * and whatever goes is written to a counter, so that the books can be closed.
 */
export function run(plan: SteamingPlan, seed: number): { day: Day; ledger: Ledger } {
  const day = dayOf(plan, seed);
  const { locomotive, vessel, atmospherePa, workingPa } = day;
  const { nature } = plan.engine;
  const measures = randomOf(seed, "measures");
  const gust = wanderingFactor(GUSTS, randomOf(seed, "gusts"));
  const happenings: Happening[] = [];
  const say = (happening: Happening) => happenings.push(happening);
  const driver = driverOf(plan, locomotive, say, randomOf(seed, "driver"));
  const firing = plan.fuel.portions;
  const fuelErrorPerReading =
    plan.fuel.by === "g" ? plan.instruments.massReadingG : plan.instruments.volumeReadingMl;
  const trueFuelKg = (written: number) =>
    Math.max(0, (written + fuelErrorPerReading * measures.normal()) * day.fuelKgPerUnit);
  const fire = fireOf(
    nature.fire,
    day.lowerHeatingJPerKg,
    firing === null ? null : plan.fuel.first * day.fuelKgPerUnit,
    randomOf(seed, "fire"),
  );
  const engine =
    locomotive.cylinders === undefined
      ? null
      : engineOf(
          locomotive,
          nature.motion,
          {
            lapM: plan.track?.lapM ?? null,
            trainMassKg: plan.train?.massKg ?? 0,
            trainResistance: plan.train?.resistanceRatio ?? nature.motion.resistanceRatio,
            atmospherePa,
            airK: day.airK,
          },
          randomOf(seed, "engine"),
        );
  const { feedWater } = day;
  const pumpM3PerRev =
    locomotive.axlePump === undefined ? 0 : pumpM3PerRevolution(locomotive.axlePump, nature.pumpEfficiency);

  // cold and filled
  const fillMl = plan.fillMl + plan.instruments.volumeReadingMl * measures.normal();
  let massKg = fillMl * 1e-6 * feedWater.kgPerM3;
  let energyJ =
    massKg * (feedWater.joulesPerKg(atmospherePa) - atmospherePa / feedWater.kgPerM3) +
    vessel.metalJPerK * (day.feedK - 273.15);
  let state = boilerState(vessel, massKg, energyJ, day.feedK);
  say({ kind: "fill", atS: 0, ml: plan.fillMl });
  say({ kind: "fuel", atS: 0, amount: plan.fuel.first, by: plan.fuel.by });
  fire.add(trueFuelKg(plan.fuel.first));

  const counters = noCounters();
  const leakedG = nature.leaks.map(() => 0);
  const leakCurves = Object.fromEntries(nature.leaks.map((leak) => [leak.fitting, [] as number[]]));
  const curves = noCurves();
  const sample = () => {
    for (const name of counterNames) curves[name].push(counters[name]);
    for (const [index, leak] of nature.leaks.entries()) leakCurves[leak.fitting]?.push(leakedG[index] ?? 0);
    curves.massG.push(massKg * 1000);
    curves.storedJ.push(energyJ);
    curves.pressureBarG.push((state.pressurePa - atmospherePa) / 1e5);
    curves.temperatureC.push(state.temperatureK - 273.15);
    curves.waterM3.push(state.waterM3);
    curves.fuelG.push(fire.fuelKg * 1000);
  };

  let valveOpen = false;
  let feeding: { leftKg: number; kgPerS: number; happening: Happening & { kind: "feed" } } | null = null;
  let fedMl = 0;

  const carryOut = (controls: Controls, atS: number) => {
    const { wants } = controls;
    if (wants.light) fire.light();
    if (wants.putOut) fire.putOut();
    if (wants.fire && firing !== null) {
      say({ kind: "fuel", atS, amount: firing.each, by: plan.fuel.by });
      fire.add(trueFuelKg(firing.each));
    }
    const habits = plan.driver.feed;
    if (wants.feed && habits !== null && habits.by !== "axle-pump") {
      const { writtenMl, trueMl, strokes } = oneFeeding(
        habits,
        locomotive.handPump?.mlPerStroke ?? Number.NaN,
        day.faults,
        measures,
      );
      fedMl += writtenMl;
      feeding = {
        leftKg: trueMl * 1e-6 * feedWater.kgPerM3,
        kgPerS: habits.mlPerS * 1e-6 * feedWater.kgPerM3,
        happening: { kind: "feed", fromS: atS, atS, by: habits.by, ml: writtenMl, strokes },
      };
    }
  };

  const move = (dtS: number, atS: number, controls: Controls) => {
    const saturation = saturationAt(state.temperatureK);
    const { pressurePa } = state;
    const step = engine?.step(dtS, controls.regulatorOpen, pressurePa) ?? null;
    const speed = engine?.speedMPerS ?? 0;

    let leakSteamKg = 0;
    let leakWaterKg = 0;
    for (const [index, leak] of nature.leaks.entries()) {
      const insidePa = leak.side === "chest" ? (step?.chestPa ?? atmospherePa) : pressurePa;
      const kg = leakKgPerS(leak, insidePa, workingPa, atmospherePa) * dtS;
      leakedG[index] = (leakedG[index] ?? 0) + kg * 1000;
      if (leak.side === "water") leakWaterKg += kg;
      else leakSteamKg += kg;
    }
    const valve = safetyValveStep(nature.safetyValve, valveOpen, pressurePa, atmospherePa);
    if (valve.open !== valveOpen) {
      valveOpen = valve.open;
      say({ kind: "valve", atS, state: valveOpen ? "lifts" : "reseats" });
    }
    const blower = {
      fitting: "blower",
      side: "steam",
      gPerMinAtWorkingPressure: nature.blowerGPerMin,
    } as const;
    const blowerKg = controls.blowerOn ? leakKgPerS(blower, pressurePa, workingPa, atmospherePa) * dtS : 0;
    const engineKg = step?.steamKg ?? 0;
    const steamKg = engineKg + leakSteamKg + valve.kgPerS * dtS + blowerKg;

    let feedKg = 0;
    if (feeding !== null) {
      feedKg = Math.min(feeding.leftKg, feeding.kgPerS * dtS);
      feeding.leftKg -= feedKg;
      if (feeding.leftKg <= 0) {
        say({ ...feeding.happening, atS: atS + dtS });
        feeding = null;
      }
    }
    const pumpTurns = controls.bypassShut ? (step?.revolutions ?? 0) : 0;
    const pumpedKg = pumpTurns * pumpM3PerRev * feedWater.kgPerM3;
    if (pumpedKg > 0) fedMl += pumpTurns * pumpM3PerRev * 1e6;

    const blast = nature.fire.idleDraught + (1 - nature.fire.idleDraught) * Math.min(1.3, 1.6 * speed);
    const draught = controls.blowerOn ? Math.max(0.85, blast) : blast;
    const { burntKg, heatJ } = fire.step(dtS, controls.burner, draught);
    const lossJ = surfaceLossW(day.loss, state.temperatureK, day.airK) * windFactor(speed) * gust(dtS) * dtS;

    const waterEnthalpy = saturation.waterJPerKg + pressurePa * saturation.waterM3PerKg;
    const steamEnthalpy = saturation.steamJPerKg + pressurePa * saturation.steamM3PerKg;
    const leaving = waterEnthalpy + plan.dryness * (steamEnthalpy - waterEnthalpy);
    const carriedJ = steamKg * leaving + leakWaterKg * waterEnthalpy;
    const broughtJ = (feedKg + pumpedKg) * feedWater.joulesPerKg(pressurePa);

    massKg += feedKg + pumpedKg - steamKg - leakWaterKg;
    energyJ += heatJ - lossJ + broughtJ - carriedJ;
    state = boilerState(vessel, massKg, energyJ, state.temperatureK);

    counters.drawnG += (steamKg + leakWaterKg) * 1000;
    counters.fedG += (feedKg + pumpedKg) * 1000;
    counters.pumpedG += pumpedKg * 1000;
    counters.burntG += burntKg * 1000;
    counters.fireJ += heatJ;
    counters.lossJ += lossJ;
    counters.carriedOffJ += carriedJ;
    counters.broughtJ += broughtJ;
    counters.distanceM += step?.distanceM ?? 0;
    counters.revolutions += step?.revolutions ?? 0;
    counters.pumpRevolutions += pumpTurns;
    if (controls.regulatorOpen) counters.regulatorOpenS += dtS;
    counters.engineG += engineKg * 1000;
    counters.leaksG += (leakSteamKg + leakWaterKg) * 1000;
    counters.safetyValveG += valve.kgPerS * dtS * 1000;
    counters.blowerG += blowerKg * 1000;
    counters.dryG += (step?.dryKg ?? 0) * 1000;
    counters.workJ += step?.workJ ?? 0;
  };

  let steps = 0;
  for (; steps <= LONGEST_S / STEP_S; steps += 1) {
    const atS = steps * STEP_S;
    if (Number.isInteger(atS)) sample();
    const view: View = {
      atS,
      barG: (state.pressurePa - atmospherePa) / 1e5,
      levelMm: () => glassMm(locomotive.boiler, day.geometry, state.waterM3, state.temperatureK),
      fireBurning: fire.burning,
      bedKg: fire.fuelKg,
      feeding: feeding !== null,
      fedMl,
    };
    const controls = driver(view);
    if (controls.finished && Number.isInteger(atS)) break;
    carryOut(controls, atS);
    const parts = valveOpen ? 2 : 1;
    for (let part = 0; part < parts; part += 1) move(STEP_S / parts, atS + (part * STEP_S) / parts, controls);
  }
  return { day, ledger: { curves, leakedG: leakCurves, happenings, endS: curves.massG.length - 1 } };
}
