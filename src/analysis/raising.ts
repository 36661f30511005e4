import { absent, type Figure } from "../quantity/measured.ts";
import { energyRise } from "./energy-rise.ts";
import type { Sources } from "./sources.ts";
import type { Water } from "./water.ts";

export interface Raising {
  toFirstSteamS: number | null;
  toWorkingPressureS: number | null;
  power: Figure;
}

/** Up to this part of a pressure the rise is steep and its moment well told. */
const STEEP = 0.85;

interface Reached {
  /** when the pressure stood at the mark; null if it never did */
  atS: number | null;
  /** to when the mean rise is best told: the mark, if the readings met it promptly, else the end of the steep rise */
  riseToS: number | null;
}

/**
 * When the pressure came up to a mark. A reading may fall short of it by the dial's error, and a safety valve may
 * hold the pressure just under it: if the mark is not met about when the steep rise would meet it, the rise is
 * taken up to where it was steep, and the moment from the pace of the rise if the readings come near enough.
 */
function reached(from: Sources, barG: number, sinceS: number): Reached {
  const { pressure, errors } = from;
  const exactS = pressure.reaches(barG, sinceS);
  const steepS = pressure.reaches(STEEP * barG, sinceS);
  if (steepS === null || steepS <= sinceS) return { atS: exactS, riseToS: exactS };
  const paceS = Math.max(30, 0.2 * (steepS - sinceS));
  const before = pressure.atS(steepS - paceS) ?? 0;
  const expectedS = steepS + ((1 - STEEP) * barG * paceS) / Math.max(STEEP * barG - before, 1e-9);
  const promptS = steepS + 3 * (expectedS - steepS) + 30;
  if (exactS !== null && exactS <= promptS) return { atS: exactS, riseToS: exactS };
  const short = 2 * Math.hypot(errors.pressureReadingBar, errors.pressureBiasBar);
  const nearS = pressure.reaches(Math.max(barG - short, STEEP * barG), sinceS);
  const near = nearS !== null && nearS <= promptS ? Math.max(nearS, Math.min(expectedS, promptS)) : exactS;
  return { atS: near, riseToS: steepS };
}

/** Times from fire lit, s, and the mean rise of stored heat until working pressure (or the highest reached), W. */
export function raisingOf(from: Sources, water: Water): Raising | null {
  const litS = from.timeline.of("fire").find((entry) => entry.state === "lit")?.atS;
  if (litS === undefined) return null;
  const { pressure } = from;
  const sinceLit = (atS: number | null) => (atS === null || atS < litS ? null : atS - litS);
  const working = reached(from, from.locomotive.workingPressureBarG, litS);
  const highest = Math.max(...pressure.points.filter(([atS]) => atS > litS).map(([, barG]) => barG));
  const untilS = working.riseToS ?? (Number.isFinite(highest) ? reached(from, highest, litS).riseToS : null);
  const startsInSteam = (pressure.atS(litS) ?? 0) >= from.locomotive.workingPressureBarG;
  return {
    toFirstSteamS: sinceLit(pressure.firstSteamS),
    toWorkingPressureS: startsInSteam ? null : sinceLit(working.atS),
    power:
      untilS === null || untilS <= litS
        ? absent("no pressure was read after the fire was lit")
        : startsInSteam
          ? absent("the boiler was at working pressure when the fire was lit")
          : energyRise(from, water, { fromS: litS, toS: untilS, perSecond: true, unit: "W" }),
  };
}
