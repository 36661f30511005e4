import type { PressureReading } from "./pressure-points.ts";

/** A logger's samples of one second as their mean; atS since the moment that they stand about. */
export interface Second {
  atS: number;
  barG: number;
  samples: number;
}

/** Where the pressure turns up again by so many errors of a second's mean, another rise begins (our choice). */
const TURNS = 5;

/** Samples about a moment as the mean of each second, or of another span, in seconds since it. */
export function bySeconds(
  logged: readonly PressureReading[],
  atS: number,
  fromS: number,
  toS: number,
  everyS = 1,
): Second[] {
  const found = new Map<number, { s: number; barG: number; samples: number }>();
  for (const read of logged) {
    const sinceS = read.atS - atS;
    if (sinceS < fromS || sinceS > toS) continue;
    const place = Math.ceil(sinceS / everyS);
    const sum = found.get(place) ?? { s: 0, barG: 0, samples: 0 };
    found.set(place, { s: sum.s + sinceS, barG: sum.barG + read.barG, samples: sum.samples + 1 });
  }
  return [...found.values()].map(({ s, barG, samples }) => ({
    atS: s / samples,
    barG: barG / samples,
    samples,
  }));
}

/**
 * Of the seconds about a top, at 0, the one rise and fall that it belongs to: to either side of the highest, which is within
 * so many seconds, those before the pressure turns up again. A valve that pops and shuts within seconds has several in as
 * long as a moment's samples are taken from.
 */
export function oneRiseAndFall(
  seconds: readonly Second[],
  withinS: number,
  uOf: (second: Second) => number,
): readonly Second[] {
  const near = seconds.filter(({ atS }) => Math.abs(atS) <= withinS);
  const highest = seconds.findIndex(({ barG }) => barG === Math.max(...near.map((one) => one.barG)));
  const falling = (outwards: readonly Second[]) => {
    let low = 0;
    const turned = outwards.findIndex((second, i) => {
      const lowest = outwards[low] as Second;
      if (second.barG < lowest.barG) low = i;
      return second.barG - lowest.barG > TURNS * uOf(second);
    });
    return turned < 0 ? outwards : outwards.slice(0, low + 1);
  };
  return [
    ...falling(seconds.slice(0, highest + 1).toReversed()).toReversed(),
    ...falling(seconds.slice(highest)).slice(1),
  ];
}
