import { dayOf } from "../../sample-data/simulator/day.ts";
import type { SteamingPlan } from "../../sample-data/simulator/plan.ts";
import type { Random } from "../../sample-data/simulator/random.ts";
import { reading } from "../../sample-data/simulator/readings.ts";
import type { Simulation } from "../../sample-data/simulator/simulate.ts";
import type { Entry } from "../../src/logbook/entry.ts";

/**
 * The entries with one to three looks at what fuel is left, at random moments of a window, each with the error of one
 * reading.
 */
export function withLooks(
  plan: SteamingPlan,
  { steaming, truth }: Simulation,
  seed: number,
  [fromS, toS]: readonly [number, number],
  random: Random,
): Entry[] {
  const { massReadingG, massDivisionG, volumeReadingMl, volumeDivisionMl } = plan.instruments;
  const gPerMl = 1000 * dayOf(plan, seed).fuelKgPerUnit;
  const looks = Array.from({ length: random.whole(1, 3) }, (): Entry => {
    const atS = random.whole(Math.ceil(fromS), Math.floor(toS));
    const leftG = truth.curves.fuelG[atS] ?? Number.NaN;
    const read = (left: number, u: number, division: number) =>
      Math.max(0, reading(left, u, division, random));
    return plan.fuel.by === "g"
      ? { kind: "fuel", action: "remaining", atS, g: read(leftG, massReadingG, massDivisionG) }
      : {
          kind: "fuel",
          action: "remaining",
          atS,
          ml: read(leftG / gPerMl, volumeReadingMl, volumeDivisionMl),
        };
  });
  return [...steaming.entries, ...looks].sort((a, b) => a.atS - b.atS);
}

/** Coal in one stock that is fired evenly: a grate that burns down after the last of it is not tried. */
export const inOneStock = (plan: SteamingPlan): SteamingPlan =>
  plan.fuel.portions === null
    ? plan
    : { ...plan, fuel: { ...plan.fuel, first: 4 * plan.fuel.first, portions: null } };

/** When the fire burnt at half its rate for want of fuel: the simulator's dies with its last twenty seconds' worth. */
export function fireEndsS(plan: SteamingPlan, { truth }: Simulation): number | null {
  const lastG = (plan.engine.nature.fire.burnGPerMin * 10) / 60;
  const endS = truth.curves.fuelG.findIndex((g) => g < lastG);
  return endS < 0 ? null : endS;
}
