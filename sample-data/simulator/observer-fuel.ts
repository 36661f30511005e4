import type { Entry } from "../../src/logbook/entry.ts";
import { reading } from "./readings.ts";
import type { Watch } from "./watch.ts";

const SPENT_G = 0.2;

/** Fuel as measured in, what is left when the fire is out, and the boiler emptied when all is over. */
export function fuelEntries(watch: Watch): Entry[] {
  const { habits, ledger, plan, random } = watch;
  const { massReadingG, massDivisionG, volumeReadingMl, volumeDivisionMl } = plan.instruments;
  const entries: Entry[] = [];
  for (const happening of ledger.happenings) {
    if (happening.kind !== "fuel") continue;
    const { amount, by } = happening;
    entries.push({
      kind: "fuel",
      atS: watch.stamp(happening.atS, "fuel"),
      action: "added",
      ...amountOf(by, amount),
    });
  }
  if (habits.writesFuelRemaining) {
    const leftG = watch.at("fuelG", ledger.endS);
    const left =
      plan.fuel.by === "g"
        ? reading(leftG, massReadingG, massDivisionG, random)
        : reading(leftG / 1000 / watch.day.fuelKgPerUnit, volumeReadingMl, volumeDivisionMl, random);
    // a tank burnt dry is seen to be dry
    const seen = leftG < SPENT_G ? 0 : Math.max(0, left);
    entries.push({ kind: "fuel", atS: ledger.endS, action: "remaining", ...amountOf(plan.fuel.by, seen) });
  }
  if (habits.drains) {
    const ml = watch.at("massG", ledger.endS) / (watch.day.feedWater.kgPerM3 / 1000);
    entries.push({
      kind: "drained",
      atS: ledger.endS,
      ml: Math.max(0, reading(ml, volumeReadingMl, volumeDivisionMl, random)),
    });
  }
  return entries;
}

const amountOf = (by: "g" | "ml", amount: number) => (by === "g" ? { g: amount } : { ml: amount });

/**
 * Whole-engine weighings: before lighting up, at each stop of a run and at the end. On the scale stands
 * everything: metal, water, and the fuel still on board (an axle pump's tank is not used with weighings).
 */
export function weighings(watch: Watch): Entry[] {
  const { habits, ledger, random } = watch;
  if (!habits.weighs) return [];
  const times = [10];
  let runningSinceS: number | null = null;
  for (const happening of ledger.happenings) {
    if (happening.kind !== "regulator") continue;
    if (happening.state === "open") runningSinceS = happening.atS;
    else if (runningSinceS !== null && happening.atS + 20 < ledger.endS) {
      const atS = happening.atS + 15;
      if (!fedBetween(watch, atS - 5, atS + 5)) times.push(atS);
    }
  }
  times.push(ledger.endS);
  return times.map((atS) => ({
    kind: "weight",
    atS: watch.stamp(atS, "weight"),
    g: weightG(watch, atS, random),
  }));
}

/** Nobody weighs an engine with a hand on the pump. */
const fedBetween = (watch: Watch, fromS: number, toS: number): boolean =>
  watch.ledger.happenings.some((one) => one.kind === "feed" && one.fromS < toS && one.atS > fromS);

/** True weight with one reading's error. */
function weightG(watch: Watch, atS: number, random: Watch["random"]): number {
  const { massReadingG, massDivisionG } = watch.plan.instruments;
  return reading(trueWeightG(watch, atS), massReadingG, massDivisionG, random);
}

export const trueWeightG = (watch: Watch, atS: number): number =>
  watch.plan.engine.nature.motion.engineMassKg * 1000 + watch.at("massG", atS) + watch.at("fuelG", atS);
