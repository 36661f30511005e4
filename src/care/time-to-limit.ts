import { absent, type Figure } from "../quantity/measured.ts";
import { firstReaching } from "../statistics/growth-fit.ts";
import { hoursInWords } from "./words.ts";

export interface TimeToLimit {
  hoursToLimit: Figure;
  /** ends of the interval that holds the truth 80 times in 100; null where it cannot be told */
  hoursToLimit80: readonly [number, number] | null;
}

/** What is sought for an end lies within so many hours in steam, longer than any packing lasts; else there is no end. */
const HORIZON_H = 1000;
/** Times are sought to so much of themselves. */
const NEAR = 2e-3;
/** The normal's 90 %: half of the 80 % interval, in standard uncertainties. */
const HALF_80 = 1.2816;

/**
 * Hours in steam until the limit, from the chance of being over it so many hours on. A figure has two ends from the
 * readings or is none: where 1 in 40 of what they leave open never gets there, that is said with the hours it is more
 * than, and no end is made up.
 */
export function timeToLimit(
  chanceOver: (hoursFromNow: number) => number,
  course: { few: boolean; jumped: boolean; stepped: boolean },
): TimeToLimit {
  const none = (why: string): TimeToLimit => ({ hoursToLimit: absent(why), hoursToLimit80: null });
  if (course.few) return none("three readings or more, not all of one outing, are wanted for a forecast");
  const over = chanceOver(0) >= 0.9;
  if (course.stepped && !over)
    return none("it rose at once and has not been seen to grow since: no time to the limit can be told");
  const at = (chance: number) => firstReaching(chanceOver, chance, 0, HORIZON_H, NEAR);
  const [least, low, middle, high, most] = [at(0.025), at(0.1), at(0.5), at(0.9), at(0.975)];
  if (course.jumped && middle !== 0)
    return none("the last reading jumped: no time to the limit can be told before the next");
  if (least === null) return none("cannot tell: the readings leave it open whether it grows at all");
  if (low === null || middle === null || high === null || most === null) {
    const lower = over
      ? "it is over already, more than 9 times in 10"
      : least === 0
        ? "it may be there already"
        : `more than ${hoursInWords(least)}, 97 times in 100`;
    return none(`cannot tell: ${lower}, but the readings set no upper end`);
  }
  const u = (high - low) / (2 * HALF_80);
  return {
    hoursToLimit: {
      value: middle,
      unit: "h",
      parts: u === 0 ? [] : [{ name: "scatter and course of the readings", u }],
      range95: [least, most],
    },
    hoursToLimit80: [low, high],
  };
}
