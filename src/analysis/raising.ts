import { absent, type Figure } from "../quantity/measured.ts";
import { energyRise } from "./energy-rise.ts";
import type { Sources } from "./sources.ts";
import type { Water } from "./water.ts";

export interface Raising {
  toFirstSteamS: number | null;
  toWorkingPressureS: number | null;
  power: Figure;
}

/** Times from fire lit, s, and the mean rise of stored heat until working pressure (or the highest reached), W. */
export function raisingOf(from: Sources, water: Water): Raising | null {
  const litS = from.timeline.of("fire").find((entry) => entry.state === "lit")?.atS;
  if (litS === undefined) return null;
  const { pressure } = from;
  const sinceLit = (atS: number | null) => (atS === null || atS < litS ? null : atS - litS);
  const workingS = pressure.reaches(from.locomotive.workingPressureBarG, litS);
  const highestS = from.pressure.points.reduce<readonly [number, number] | null>(
    (best, point) => (point[0] > litS && (best === null || point[1] > best[1]) ? point : best),
    null,
  )?.[0];
  const untilS = workingS ?? highestS;
  const startsInSteam = (pressure.atS(litS) ?? 0) >= from.locomotive.workingPressureBarG;
  return {
    toFirstSteamS: sinceLit(pressure.firstSteamS),
    toWorkingPressureS: startsInSteam ? null : sinceLit(workingS),
    power:
      untilS === undefined || untilS <= litS
        ? absent("no pressure was read after the fire was lit")
        : startsInSteam
          ? absent("the boiler was at working pressure when the fire was lit")
          : energyRise(from, water, { fromS: litS, toS: untilS, perSecond: true, unit: "W" }),
  };
}
