import { randomOf } from "../../sample-data/simulator/random.ts";
import { falseAlarmBy, firstAlarm, scored } from "../../src/care/indicator-course.ts";
import { type Indicator, indicators } from "../../src/care/indicators.ts";
import type { Share } from "./care-leaks.ts";

/** Outings of an engine with nothing the matter. */
export const OUTINGS = 20;

export interface AlarmShare {
  share: Share;
  /** what the program says of it */
  stated: number;
  /** per cent */
  most: number;
}

/** A figure of each make: its stray in its own unit, a part of its size with conditions to set right, its own best. */
const kinds = ["reseat", "water-a-lap", "standing-loss"] as const;

/** How often a figure of a sound engine gives alarm within twenty outings, its standard being those outings themselves. */
export function falseAlarms(seeds: readonly number[]): AlarmShare[] {
  return kinds.map((key) => {
    const indicator = indicators.find((one) => one.key === key);
    if (indicator === undefined) throw new RangeError(`falseAlarms: no indicator ${key}`);
    const hits = seeds.filter((seed) => firstAlarm(indicator, scored(indicator, steady(indicator, seed))));
    return {
      share: {
        name: `false alarm by outing ${OUTINGS}: ${indicator.name}`,
        hits: hits.length,
        of: seeds.length,
      },
      stated: falseAlarmBy(OUTINGS),
      most: 4,
    };
  });
}

/** Values about one level that go with pressure and speed as they may, read with other errors each time. */
function steady({ key, strays, sways = [] }: Indicator, seed: number) {
  const random = randomOf(seed, `steady ${key}`);
  const level = strays.relative > 0 ? 50 : 3;
  const stray = Math.hypot(strays.relative * level, strays.absolute);
  const slopes = sways.map(({ by, mean, sd }) => ({ by, slope: mean + sd * random.normal() }));
  return Array.from({ length: OUTINGS }, () => {
    const off = { pressure: 0.06 * random.normal(), speed: 0.08 * random.normal() };
    const u = stray * random.between(0.3, 1.5);
    const swayed = slopes.reduce((sum, { by, slope }) => sum + slope * level * off[by], 0);
    return {
      value: level + swayed + Math.hypot(stray, u) * random.normal(),
      u,
      like: "",
      conditions: { pressure: 1 + off.pressure, speed: -3 + off.speed },
    };
  });
}
