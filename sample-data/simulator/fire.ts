import type { FireNature } from "./nature.ts";
import { type Random, wanderingFactor } from "./random.ts";

/**
 * The fire: fuel burnt a second and the heat of it that reaches the boiler.
 *
 * Burning goes with setting (the driver's), draught (blast and blower), bed (coal thins as it burns), the
 * cooling of a gas tank, and a wander about 1. Of the heat a little less is caught the harder it burns. Left
 * out: the warming of the fire itself, and soot.
 */
export interface FireStep {
  burntKg: number;
  heatJ: number;
}

export interface Fire {
  readonly burning: boolean;
  readonly fuelKg: number;
  /** what does not reach the boiler goes up the chimney */
  light(): void;
  putOut(): void;
  add(kg: number): void;
  step(dtS: number, setting: number, draught: number): FireStep;
}

/** Time at full rate over which the last of the fuel burns away, s; below a share of full it is out. */
const LAST_S = 20;
const OUT_BELOW = 0.05;
const TANK_COOLS_S = 900;
const FALL_WITH_RATE = 0.12;

export function fireOf(
  nature: FireNature,
  lowerHeatingJPerKg: number,
  bedFullKg: number | null,
  random: Random,
): Fire {
  const fullKgPerS = nature.burnGPerMin / 60_000;
  const wander = wanderingFactor(nature.wander, random);
  let fuelKg = 0;
  let burning = false;
  let burntForS = 0;
  let dying = 0;

  const relativeRate = (dtS: number, setting: number, draught: number): number => {
    const bed = bedFullKg === null ? 1 : Math.min(1, fuelKg / bedFullKg) ** 0.6;
    const tank = 1 - nature.tankCooling * (1 - Math.exp(-burntForS / TANK_COOLS_S));
    return setting * draught * bed * tank * wander(dtS) * Math.min(1, fuelKg / (LAST_S * fullKgPerS));
  };

  return {
    get burning() {
      return burning;
    },
    get fuelKg() {
      return fuelKg;
    },
    light: () => {
      burning = true;
      dying = 1;
    },
    putOut: () => {
      burning = false;
    },
    add: (kg) => {
      fuelKg += kg;
    },
    step: (dtS, setting, draught) => {
      if (!burning) {
        dying = nature.diesS > 0 ? dying * Math.exp(-dtS / nature.diesS) : 0;
        if (dying < 1e-3) dying = 0;
      }
      if (dying === 0) return { burntKg: 0, heatJ: 0 };
      const rate = relativeRate(dtS, setting, draught) * dying;
      burntForS += dtS;
      if (burning && rate < OUT_BELOW && fuelKg < LAST_S * fullKgPerS) burning = false;
      const burntKg = Math.min(fuelKg, rate * fullKgPerS * dtS);
      fuelKg -= burntKg;
      const caught = nature.transfer * (1 - FALL_WITH_RATE * (rate - 1));
      return { burntKg, heatJ: burntKg * lowerHeatingJPerKg * caught };
    },
  };
}
