import type { Trace } from "../../src/logbook/steaming.ts";
import { trueWeightG } from "./observer-fuel.ts";
import { reading } from "./readings.ts";
import type { Watch } from "./watch.ts";

/** What a logger keeps: each sample with an error of its own and the error that the instrument has this day. */
export function tracesOf(watch: Watch): Trace[] {
  return watch.habits.traces.map(({ channel, everyS, division }) => {
    const values: number[] = [];
    for (let k = 0; k * everyS <= watch.ledger.endS; k += 1) {
      values.push(sample(watch, channel, k * everyS, division));
    }
    return { channel, startS: 0, everyS, values };
  });
}

function sample(
  watch: Watch,
  channel: "pressureBarG" | "levelMm" | "massG",
  atS: number,
  division: number,
): number {
  const { pressureReadingBar, levelReadingMm, massReadingG } = watch.plan.instruments;
  const { random } = watch;
  if (channel === "levelMm") return reading(watch.levelMm(atS), levelReadingMm, division, random);
  if (channel === "massG") return reading(trueWeightG(watch, atS), massReadingG, division, random);
  return reading(watch.at("pressureBarG", atS) + watch.day.dialBiasBar, pressureReadingBar, division, random);
}
