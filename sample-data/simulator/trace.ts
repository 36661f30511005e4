import type { Trace } from "../../src/logbook/steaming.ts";
import { trueWeightG } from "./observer-fuel.ts";
import type { TraceHabit } from "./plan.ts";
import { randomOf } from "./random.ts";
import { reading } from "./readings.ts";
import type { Watch } from "./watch.ts";

/** What a logger keeps: each sample with an error of its own and the error that the instrument has this day. */
export function tracesOf(watch: Watch): Trace[] {
  return watch.habits.traces.map((habit) => {
    const bias = loggerBias(watch, habit);
    const values: number[] = [];
    const until = watch.habits.writesUntilS ?? watch.ledger.endS;
    for (let atS = 0; atS <= Math.min(watch.ledger.endS, until); atS += habit.everyS) {
      const uncertainty = habit.readingU ?? declaredU(watch, habit);
      values.push(reading(trueValue(watch, habit, atS) + bias, uncertainty, habit.division, watch.random));
    }
    return { channel: habit.channel, startS: 0, everyS: habit.everyS, values };
  });
}

function trueValue(watch: Watch, { channel }: TraceHabit, atS: number): number {
  if (channel === "levelMm") return watch.levelMm(atS);
  if (channel === "massG") return trueWeightG(watch, atS);
  return watch.at("pressureBarG", atS);
}

/** Added to every sample of the day; drawn apart, so that the rest of the day is the same with and without it. */
export function loggerBias(watch: Watch, { channel, biasU, bias }: TraceHabit): number {
  if (bias !== undefined) return bias;
  if (biasU !== undefined) return biasU * randomOf(watch.seed, `logger ${channel}`).normal();
  return channel === "pressureBarG" ? watch.day.dialBiasBar : 0;
}

function declaredU(watch: Watch, { channel }: TraceHabit): number {
  const { pressureReadingBar, levelReadingMm, massReadingG } = watch.plan.instruments;
  return { pressureBarG: pressureReadingBar, levelMm: levelReadingMm, massG: massReadingG }[channel];
}
