import { absent, type Figure } from "../quantity/measured.ts";
import { energyRise } from "./energy-rise.ts";
import type { Sources } from "./sources.ts";
import type { Water } from "./water.ts";

export interface Raising {
  toFirstSteamS: number | null;
  toWorkingPressureS: number | null;
  power: Figure;
}

/**
 * When the pressure came up to a mark, though a reading may fall short of it by its own error: where the line
 * through the readings first comes within two standard uncertainties of the dial, carried on at the pace of the rise. Null if never.
 */
function reached(from: Sources, barG: number, sinceS: number): number | null {
  const short = 2 * Math.hypot(from.errors.pressureReadingBar, from.errors.pressureBiasBar);
  const { pressure } = from;
  const nearS = pressure.reaches(barG - short, sinceS);
  if (nearS === null) return null;
  const exactS = pressure.reaches(barG, sinceS);
  const after = pressure.points.filter(([atS]) => atS > nearS).slice(0, 2);
  if (exactS !== null && (after.length === 0 || exactS <= (after.at(-1)?.[0] ?? exactS))) return exactS;
  const paceS = Math.max(30, 0.25 * (nearS - sinceS));
  const before = pressure.atS(nearS - paceS);
  const rise = before === null ? 0 : (barG - short - before) / paceS;
  return rise > 0 ? Math.min(nearS + short / rise, nearS + paceS) : nearS;
}

/** Times from fire lit, s, and the mean rise of stored heat until working pressure (or the highest reached), W. */
export function raisingOf(from: Sources, water: Water): Raising | null {
  const litS = from.timeline.of("fire").find((entry) => entry.state === "lit")?.atS;
  if (litS === undefined) return null;
  const { pressure } = from;
  const sinceLit = (atS: number | null) => (atS === null || atS < litS ? null : atS - litS);
  const workingS = reached(from, from.locomotive.workingPressureBarG, litS);
  const highest = Math.max(...pressure.points.filter(([atS]) => atS > litS).map(([, barG]) => barG));
  const untilS = workingS ?? (Number.isFinite(highest) ? reached(from, highest, litS) : null);
  const startsInSteam = (pressure.atS(litS) ?? 0) >= from.locomotive.workingPressureBarG;
  return {
    toFirstSteamS: sinceLit(pressure.firstSteamS),
    toWorkingPressureS: startsInSteam ? null : sinceLit(workingS),
    power:
      untilS === null || untilS <= litS
        ? absent("no pressure was read after the fire was lit")
        : startsInSteam
          ? absent("the boiler was at working pressure when the fire was lit")
          : energyRise(from, water, { fromS: litS, toS: untilS, perSecond: true, unit: "W" }),
  };
}
