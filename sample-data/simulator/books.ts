import type { BoilerState } from "./boiler-state.ts";
import type { Leak } from "./leaks.ts";
import { type Counters, type Curves, counterNames, noCounters, noCurves } from "./ledger.ts";

/** Counters that only grow, and their samples. */
export interface Books {
  add(moved: Partial<Counters>, leakedG: readonly number[]): void;
  sample(massKg: number, energyJ: number, fuelKg: number, state: BoilerState, atmospherePa: number): void;
  curves: Curves;
  leakedG: Record<string, number[]>;
}

export function booksOf(leaks: readonly Leak[]): Books {
  const counters = noCounters();
  const curves = noCurves();
  const leaked = leaks.map(() => 0);
  const leakedG = Object.fromEntries(leaks.map((leak) => [leak.fitting, [] as number[]]));
  return {
    curves,
    leakedG,
    add: (moved, leakedNowG) => {
      for (const name of counterNames) counters[name] += moved[name] ?? 0;
      for (let i = 0; i < leaked.length; i += 1) leaked[i] = (leaked[i] ?? 0) + (leakedNowG[i] ?? 0);
    },
    sample: (massKg, energyJ, fuelKg, state, atmospherePa) => {
      for (const name of counterNames) curves[name].push(counters[name]);
      for (const [index, leak] of leaks.entries()) leakedG[leak.fitting]?.push(leaked[index] ?? 0);
      curves.massG.push(massKg * 1000);
      curves.storedJ.push(energyJ);
      curves.pressureBarG.push((state.pressurePa - atmospherePa) / 1e5);
      curves.temperatureC.push(state.temperatureK - 273.15);
      curves.waterM3.push(state.waterM3);
      curves.fuelG.push(fuelKg * 1000);
    },
  };
}
