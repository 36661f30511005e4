import type { BoilerState } from "./boiler-state.ts";
import type { Day } from "./day.ts";
import type { Controls } from "./driver.ts";
import type { Engine } from "./engine.ts";
import type { Feeder } from "./feeder.ts";
import type { Fire } from "./fire.ts";
import { type Leak, leakKgPerS } from "./leaks.ts";
import type { Counters, Happening } from "./ledger.ts";
import { surfaceLossW, windFactor } from "./loss.ts";
import type { SteamingPlan } from "./plan.ts";
import { safetyValveStep } from "./safety-valve.ts";
import { saturationAt } from "./steam-table.ts";

/** All that works on the boiler. */
export interface Parts {
  plan: SteamingPlan;
  day: Day;
  fire: Fire;
  engine: Engine | null;
  feeder: Feeder;
  /** the air's stir, a factor about 1 on the surface loss */
  gust: (dtS: number) => number;
  say: (happening: Happening) => void;
}

/** What one step moves: net to the boiler, and each stream for the books. */
export interface Moved {
  massKg: number;
  energyJ: number;
  counted: Partial<Counters>;
  leakedG: number[];
}

const FULL_BLOWER_DRAUGHT = 0.85;

export interface Streams {
  readonly valveOpen: boolean;
  step(dtS: number, atS: number, state: BoilerState, controls: Controls): Moved;
}

export function streamsOf(parts: Parts): Streams {
  const { plan, day, fire, engine, feeder, gust, say } = parts;
  const { atmospherePa, workingPa, feedWater } = day;
  const { nature } = plan.engine;
  const blower: Leak = {
    fitting: "blower",
    side: "steam",
    gPerMinAtWorkingPressure: nature.blowerGPerMin,
  };
  let valveOpen = false;

  const leaks = (dtS: number, pressurePa: number, chestPa: number) => {
    const leakedG: number[] = [];
    let [steamKg, waterKg] = [0, 0];
    for (const leak of nature.leaks) {
      const insidePa = leak.side === "chest" ? chestPa : pressurePa;
      const kg = leakKgPerS(leak, insidePa, workingPa, atmospherePa) * dtS;
      leakedG.push(kg * 1000);
      if (leak.side === "water") waterKg += kg;
      else steamKg += kg;
    }
    return { leakedG, steamKg, waterKg };
  };

  const valve = (dtS: number, atS: number, pressurePa: number): number => {
    const { open, kgPerS } = safetyValveStep(nature.safetyValve, valveOpen, pressurePa, atmospherePa);
    if (open !== valveOpen) say({ kind: "valve", atS, state: open ? "lifts" : "reseats" });
    valveOpen = open;
    return kgPerS * dtS;
  };

  const fireStep = (dtS: number, controls: Controls, speedMPerS: number) => {
    const { idleDraught } = nature.fire;
    const blast = idleDraught + (1 - idleDraught) * Math.min(1.3, 1.6 * speedMPerS);
    const draught = controls.blowerOn ? Math.max(FULL_BLOWER_DRAUGHT, blast) : blast;
    return fire.step(dtS, controls.burner, draught);
  };

  return {
    get valveOpen() {
      return valveOpen;
    },
    step: (dtS, atS, state, controls) => {
      const { pressurePa } = state;
      const taken = engine?.step(dtS, controls.regulatorOpen, pressurePa) ?? null;
      const speedMPerS = engine?.speedMPerS ?? 0;
      const leaking = leaks(dtS, pressurePa, taken?.chestPa ?? atmospherePa);
      const valveKg = valve(dtS, atS, pressurePa);
      const blowerKg = controls.blowerOn ? leakKgPerS(blower, pressurePa, workingPa, atmospherePa) * dtS : 0;
      const engineKg = taken?.steamKg ?? 0;
      const steamKg = engineKg + leaking.steamKg + valveKg + blowerKg;
      const pumpTurns = controls.bypassShut ? (taken?.revolutions ?? 0) : 0;
      const pumpedKg = feeder.pump(pumpTurns);
      const fedKg = feeder.step(dtS, atS) + pumpedKg;
      const { burntKg, heatJ } = fireStep(dtS, controls, speedMPerS);
      const stillW = surfaceLossW(day.loss, state.temperatureK, day.airK);
      const lossJ = stillW * windFactor(speedMPerS) * gust(dtS) * dtS;

      const saturation = saturationAt(state.temperatureK);
      const waterEnthalpy = saturation.waterJPerKg + pressurePa * saturation.waterM3PerKg;
      const steamEnthalpy = saturation.steamJPerKg + pressurePa * saturation.steamM3PerKg;
      const leavingEnthalpy = waterEnthalpy + plan.dryness * (steamEnthalpy - waterEnthalpy);
      const carriedJ = steamKg * leavingEnthalpy + leaking.waterKg * waterEnthalpy;
      const broughtJ = fedKg * feedWater.joulesPerKg(pressurePa);
      return {
        massKg: fedKg - steamKg - leaking.waterKg,
        energyJ: heatJ - lossJ + broughtJ - carriedJ,
        leakedG: leaking.leakedG,
        counted: {
          drawnG: (steamKg + leaking.waterKg) * 1000,
          fedG: fedKg * 1000,
          pumpedG: pumpedKg * 1000,
          burntG: burntKg * 1000,
          fireJ: heatJ,
          lossJ,
          carriedOffJ: carriedJ,
          broughtJ,
          distanceM: taken?.distanceM ?? 0,
          revolutions: taken?.revolutions ?? 0,
          pumpRevolutions: pumpTurns,
          regulatorOpenS: controls.regulatorOpen ? dtS : 0,
          engineG: engineKg * 1000,
          leaksG: (leaking.steamKg + leaking.waterKg) * 1000,
          safetyValveG: valveKg * 1000,
          blowerG: blowerKg * 1000,
          dryG: (taken?.dryKg ?? 0) * 1000,
          workJ: taken?.workJ ?? 0,
        },
      };
    },
  };
}
