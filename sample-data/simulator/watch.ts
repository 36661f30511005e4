import type { Day } from "./day.ts";
import { glassMm } from "./glass.ts";
import { type CounterName, curveAt, type Ledger, type StateName } from "./ledger.ts";
import type { ObserverHabits, SteamingPlan } from "./plan.ts";
import { type Random, randomOf } from "./random.ts";

/** The observer beside the track: what there is to see, and a hand that is some seconds off. */
export interface Watch {
  plan: SteamingPlan;
  habits: ObserverHabits;
  day: Day;
  ledger: Ledger;
  random: Random;
  seed: number;
  at(name: CounterName | StateName, atS: number): number;
  /** height of the water in the glass, mm */
  levelMm(atS: number): number;
  /**
   * The time as written for something at `atS`: a whole second between 0 and the end. Things of one `sort`
   * come in order of time and are written in that order, however quickly they follow.
   */
  stamp(atS: number, sort?: string): number;
}

export function watchOf(plan: SteamingPlan, day: Day, ledger: Ledger, seed: number): Watch {
  const random = randomOf(seed, "observer");
  const lastStampS = new Map<string, number>();
  const at = (name: CounterName | StateName, atS: number) => curveAt(ledger.curves[name], atS);
  return {
    plan,
    habits: plan.observer,
    day,
    ledger,
    random,
    seed,
    at,
    levelMm: (atS) =>
      glassMm(day.locomotive.boiler, day.geometry, at("waterM3", atS), at("temperatureC", atS) + 273.15),
    stamp: (atS, sort) => {
      const earliestS = sort === undefined ? 0 : (lastStampS.get(sort) ?? 0);
      const written = Math.round(atS + plan.observer.stampSdS * random.normal());
      const stampS = Math.min(Math.max(written, earliestS), ledger.endS);
      if (sort !== undefined) lastStampS.set(sort, stampS);
      return stampS;
    },
  };
}

/** Times at which the stages begin, and the end. */
export const changesOf = (ledger: Ledger): number[] => [
  ...ledger.happenings.flatMap((happening) => (happening.kind === "stage" ? [happening.atS] : [])),
  ledger.endS,
];
