import { absent, type Figure } from "../../quantity/measured.ts";
import type { Sources } from "../sources.ts";
import { uClockS } from "../state/clock-grain.ts";
import { sharedSource } from "../state/instruments.ts";
import { fireStretches } from "../state/phases.ts";
import type { Water } from "../water/water.ts";
import { energyRise } from "./energy-rise.ts";
import { metByPace, metUnderWay, TOLD } from "./met-under-way.ts";
import { metUnseen, type Reached, riseToMark } from "./rise-to-mark.ts";

export interface Raising {
  toFirstSteamS: number | null;
  toWorkingPressureS: number | null;
  power: Figure;
  /** the window of the power, s since the start; null where there is none */
  window: readonly [fromS: number, toS: number] | null;
  /** the power ends at this pressure, about the highest read before steam was used; null where it ends at working pressure, or none was */
  setOffBelow: { barG: number } | null;
}

/**
 * Times from fire lit, s, and the mean rise of stored heat until working pressure, W; if it was not met, or nobody can tell
 * when, until the highest that was raised before steam was used to run.
 */
export function raisingOf(from: Sources, water: Water): Raising | null {
  const litS = from.timeline.of("fire").find((entry) => entry.state === "lit")?.atS;
  if (litS === undefined) return null;
  const { pressure } = from;
  const sinceLit = (atS: number | null) => (atS === null || atS < litS ? null : atS - litS);
  const workingBarG = from.locomotive.workingPressureBarG;
  const fire = firstFire(from);
  const usedS = Math.min(usedFromS(from, litS), fire.outS);
  const highest = highestBefore(from, litS, usedS + STILL_RAISED_S);
  // what falls once steam is used was not stopped by a valve
  const untilS = Math.max(usedS, highest?.atS ?? usedS);
  const told = asUntil(riseToMark(from, workingBarG, litS, untilS), workingBarG);
  const nearlyAtBarG = Math.min(highest?.barG ?? 0, workingBarG) - shortBar(from);
  const nearly =
    highest !== null && highest.barG >= workingBarG - nearlyBar(from)
      ? asUntil(riseToMark(from, nearlyAtBarG, litS, untilS), nearlyAtBarG)
      : null;
  const met = metBetween(nearly, told);
  const firstAtMarkS = pressure.reaches(workingBarG, litS);
  const laterS = firstAtMarkS !== null && firstAtMarkS < fire.outS + STILL_RAISED_S ? firstAtMarkS : null;
  // a dial that stood nearly at the mark, a pace that would have met it, or a valve lifting later on, does not tell that it was met
  const lifted = from.timeline
    .of("valve")
    .some(({ atS, state }) => state === "lifts" && atS >= litS && atS <= usedS + STILL_RAISED_S);
  const shown = laterS !== null || lifted;
  const unseen = met === null && highest !== null && metUnseen(from, workingBarG, [litS, highest.atS]);
  const underWay = met !== null || unseen ? null : metUnderWay(from, workingBarG, litS, usedS);
  const later = underWay !== null && underWay.atS < fire.outS + STILL_RAISED_S ? underWay : null;
  const carriedOn = met !== null || unseen || later !== null ? null : cameByPace(from, usedS);
  const until = met ?? asUntil(later, workingBarG) ?? carriedOn ?? highest;
  const atMarkS = carriedOn?.barG === workingBarG ? carriedOn.atS : null;
  const startsInSteam = (pressure.atS(litS) ?? 0) >= from.locomotive.workingPressureBarG;
  return {
    window: until === null ? null : [litS, until.atS],
    setOffBelow:
      until !== null &&
      (until === highest || (until === carriedOn && until.barG < workingBarG) || !shown) &&
      (usedS < fire.outS || fire.relit) &&
      !startsInSteam
        ? { barG: until.barG }
        : null,
    toFirstSteamS: sinceLit(pressure.firstSteamS),
    toWorkingPressureS:
      startsInSteam || !shown ? null : sinceLit(met?.atS ?? later?.atS ?? atMarkS ?? laterS),
    power: startsInSteam
      ? absent("the boiler was at working pressure when the fire was lit")
      : until === null || until.atS <= litS
        ? absent("no pressure was read to rise after the fire was lit")
        : unseen || until.uS > TOLD * (until.atS - litS)
          ? absent(MET_UNSEEN)
          : powerUntil(from, water, litS, until),
  };
}

const MET_UNSEEN =
  "the dial was not read for so long that working pressure may have been met meanwhile: read it each minute or two as it rises";

/** A reading so long after steam is first used still shows what had been raised, s. */
const STILL_RAISED_S = 30;

/** From when steam was used to run, so that the fire no longer only raised it. */
const usedFromS = (from: Sources, litS: number): number =>
  from.phases.find((phase) => phase.name === "running" && phase.fromS > litS)?.fromS ??
  Number.POSITIVE_INFINITY;

/** A fire that is lit again within so long is still the same, s (our choice). */
const LIT_AGAIN_S = 120;

/** When the fire that was lit first went out, and whether another was lit later: what that raised is not the first one's. */
function firstFire({ timeline }: Sources): { outS: number; relit: boolean } {
  const fire = fireStretches(timeline);
  const last = fire.findIndex(([, outS], i) => (fire[i + 1]?.[0] ?? Infinity) - outS > LIT_AGAIN_S);
  const outS = fire[last]?.[1];
  const putOut = timeline.of("fire").some(({ atS, state }) => state === "out" && atS === outS);
  return {
    outS: putOut && outS !== undefined ? outS : Number.POSITIVE_INFINITY,
    relit: last + 1 < fire.length,
  };
}

/** Where the raising of steam ended: when, and at what pressure. */
type Until = Reached & { barG: number; atMark: boolean };

const asUntil = (reached: Reached | null, barG: number): Until | null =>
  reached === null ? null : { ...reached, barG, atMark: true };

/** A dial that reads low by so much may never show the working pressure that was met. */
const nearlyBar = ({ errors }: Sources): number =>
  2.5 * Math.hypot(errors.pressureReadingBar, errors.pressureBiasBar);
/** Come to working pressure, or nearly, by the pace of the rise when steam was first used, though no reading shows it. */
function cameByPace(from: Sources, usedS: number): Until | null {
  const { workingPressureBarG } = from.locomotive;
  const nearlyAtBarG = workingPressureBarG - nearlyBar(from);
  return (
    asUntil(metByPace(from, workingPressureBarG, usedS), workingPressureBarG) ??
    asUntil(metByPace(from, nearlyAtBarG, usedS), nearlyAtBarG)
  );
}
/** Where it was met and not shown, the highest shown stands so far beyond it: a part of it, or so many errors of a reading, up to a part (our choice). */
const RAISED_BEYOND = { part: 0.02, errors: 3.5, most: 0.1 };
const shortBar = ({ errors, locomotive }: Sources): number =>
  Math.max(
    RAISED_BEYOND.part * locomotive.workingPressureBarG,
    Math.min(
      RAISED_BEYOND.errors * errors.pressureReadingBar,
      RAISED_BEYOND.most * locomotive.workingPressureBarG,
    ),
  );
/** Nearly shown so long before it was told to be met, it was met then; a while before, then or when it was told, s. */
const LONG_BEFORE_S = 300;
const A_WHILE_BEFORE_S = 100;

/**
 * Where the pressure stood nearly at the mark for minutes before a reading showed it, it may have been met then or now. What
 * stood in the boiler nearly at the mark is that of the pressure read then, whether or not it was met.
 */
function metBetween(nearly: Until | null, told: Until | null): Until | null {
  if (told === null || nearly === null) return told ?? nearly;
  const betweenS = told.atS - nearly.atS;
  if (betweenS > LONG_BEFORE_S) return nearly;
  if (betweenS < A_WHILE_BEFORE_S) return told;
  return { ...told, atS: told.atS - betweenS / 2, uS: Math.hypot(told.uS, betweenS / 2) };
}

/** Two readings that differ by less than so many of their errors are alike. */
const ALIKE = 2 * Math.SQRT2;

/** The highest pressure raised before steam was used; null where none was read. */
function highestBefore(from: Sources, litS: number, untilS: number): Until | null {
  const { pressure, errors } = from;
  const { cameDown, points } = pressure;
  if (cameDown !== null && cameDown.atS <= untilS)
    return { atS: cameDown.atS, barG: cameDown.barG, atMark: false, uS: 0, dialS: 0 };
  const before = points.filter(([atS]) => atS > litS && atS <= untilS);
  const [topS, topBarG] = before.reduce<readonly [number, number]>(
    (a, b) => (b[1] > a[1] ? b : a),
    [litS, 0],
  );
  // stood as high as can be told minutes before, she had been raised by then
  const asHigh = topBarG - ALIKE * errors.pressureReadingBar;
  const since = before.find(([atS, barG]) => barG >= asHigh && topS - atS > LONG_BEFORE_S);
  const [atS, barG] = since ?? [topS, topBarG];
  return barG > 0 ? { atS, barG, atMark: false, uS: 0, dialS: 0 } : null;
}

/** By how much the clock may have been off between lighting and the end, s: a logger has its own, which tells the seconds. */
function uOfClock({ timeline }: Sources): number {
  const uEach = uClockS(timeline.entries);
  return timeline.traces.some(({ channel }) => channel === "pressureBarG") ? uEach : Math.SQRT2 * uEach;
}

/** The end's pressure is the mark's: what a dial shows wrong moves the moment, not the heat. */
function powerUntil(from: Sources, water: Water, litS: number, until: Until): Figure {
  const { atS, barG, atMark, uS, dialS } = until;
  const ended = atMark ? from.stateAtPressure(barG) : from.stateAt(atS);
  const risen = { ...from, stateAt: (momentS: number) => (momentS === atS ? ended : from.stateAt(momentS)) };
  const power = energyRise(risen, water, {
    fromS: litS,
    toS: atS,
    perSecond: true,
    unit: "W",
    endsAtMark: atMark,
  });
  if (power.value === null) return power;
  const perSecond = power.value / (atS - litS);
  const parts = [
    { name: "moment of working pressure", u: perSecond * uS },
    { name: "clock, read to whole minutes or so", u: perSecond * uOfClock(from) },
    { name: "bias of the pressure dial", source: sharedSource.dial(from.locomotive), u: -perSecond * dialS },
  ];
  return { ...power, parts: [...power.parts, ...parts.filter((part) => part.u !== 0)] };
}
