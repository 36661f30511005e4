import type { Locomotive } from "../../logbook/locomotive.ts";
import type { Timeline } from "../../logbook/timeline.ts";
import { absent, type Figure, gathered, type Measured, type Part } from "../../quantity/measured.ts";
import type { ReadingErrors } from "../state/instruments.ts";
import { fireBurning, type Phase, type Stretch } from "../state/phases.ts";
import { type Burning, burningClock, burningOf, type Clock, glowClock } from "./fuel-burning.ts";
import { type BurntAt, type FuelStock, fuelStock } from "./fuel-stock.ts";
import { unevenByPhase } from "./uneven.ts";

/** What the fire burnt by what was read of the fuel, against time: between two looks at it by how hard the fire is likely to burn. */
export interface FuelRead {
  /** burnt in all of some windows together, g */
  burntG(windows: readonly Stretch[]): Figure;
  fire: readonly Stretch[];
}

/** What was written of fire and fuel, put together. */
export interface FuelLog {
  fire: readonly Stretch[];
  litS: number;
  stock: FuelStock;
  /** the moments of the stock, and the end of the log */
  known: readonly BurntAt[];
  how: Burning;
  burning: Clock;
  /** burnt of what was burnt by some moments, by a fire that burns so, g */
  burntG(known: readonly BurntAt[], how: Burning, windows: readonly Stretch[]): Measured;
}

/** Causes of error of what was burnt, by the names that its parts bear. */
export const burningPart = {
  readings: "fuel readings",
  uneven: "burning that was not even",
  unread: "what was left, which nobody looked at",
};

/** Everything from lighting up to the end of the log. */
export const ALWAYS: readonly Stretch[] = [[Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]];

/** Where entries of the fire tell no time in which it burnt. */
export const whyNoFire = (timeline: Timeline): string =>
  timeline.of("fire").some(({ state }) => state === "lit")
    ? "the fire was put out at the very moment it was lit, as it was written down"
    : "the fire was never recorded as lit";

/** Part of the burning time that may lie beyond the last reading of what remained. */
const MAY_EXTRAPOLATE = 0.5;

/** When the fire burnt; where nobody wrote of it, all the while. */
function fireOf(timeline: Timeline): readonly Stretch[] {
  const [startS, endS] = [timeline.firstS ?? 0, timeline.lastS ?? 0];
  if (timeline.of("fire").length > 0) return fireBurning(timeline);
  return endS > startS ? [[startS, endS]] : [];
}

/** The fire without what it burnt, which tells the water of weighings with a fire between them alone. */
export const fireAlone = (timeline: Timeline): FuelRead => ({
  fire: fireOf(timeline),
  burntG: () => absent("what the fire burnt is worked out on the sheet"),
});

/**
 * @param steamingId of a steaming in which the engine was weighed: fuel and water owe to the same readings of the fuel
 * @returns the reason where nothing can be said
 */
export function fuelLog(
  timeline: Timeline,
  phases: readonly Phase[],
  locomotive: Locomotive,
  errors: ReadingErrors,
  steamingId: string,
): FuelLog | (Pick<FuelLog, "fire"> & { why: string }) {
  const endS = timeline.lastS ?? 0;
  const fire = fireOf(timeline);
  if (timeline.of("fuel").length === 0) return { fire, why: "no fuel was recorded" };
  const [first] = fire;
  if (first === undefined) {
    const why =
      timeline.of("fire").length > 0
        ? whyNoFire(timeline)
        : "all was written down at one moment: write down when the fire is lit and put out";
    return { fire, why };
  }
  const [litS] = first;
  const stock = fuelStock(timeline, locomotive, errors, litS, endS);
  if (typeof stock === "string") return { fire, why: stock };

  const how = burningOf(locomotive.fuel);
  const burning = burningClock(fire, phases, how);
  const known = carriedOn(stock.known, burning, endS);
  if (known === null)
    return { fire, why: "what fuel was left was not recorded near the end: measure what is left" };
  const lastFire = timeline.of("fire").at(-1);
  const glowing = glowClock(lastFire?.state === "out" ? lastFire.atS : null, how);
  const weighed =
    timeline.of("weight").length > 0 || timeline.traces.some(({ channel }) => channel === "massG");
  const sourceOf = weighed ? (cause: string) => `${cause} of steaming ${steamingId}` : null;
  return {
    fire,
    litS,
    stock,
    known,
    how,
    burning,
    burntG: (by, burns, windows) =>
      burntWithin(
        by,
        { burning: burningClock(fire, phases, burns), glowing, how: burns, phases },
        windows,
        sourceOf,
      ),
  };
}

/** Beyond the last reading at the mean pace so far, if that is not too far. */
function carriedOn(known: FuelStock["known"], burning: Clock, endS: number): readonly BurntAt[] | null {
  const last = known.at(-1) ?? known[0];
  const beyond = burning(last.atS, endS);
  const told = burning(known[0].atS, last.atS);
  if (beyond > MAY_EXTRAPOLATE * told) return null;
  const more = (last.grams / told) * beyond;
  return [...known, { atS: endS, grams: last.grams + more, uPutInG: 0.25 * more, uReadG: null }];
}

interface Clocks {
  burning: Clock;
  /** part of what still burns after the fire was out */
  glowing: Clock;
  how: Burning;
  phases: readonly Phase[];
}

/** @param sourceOf where the engine was weighed: what its weighings and this owe to the same cause */
function burntWithin(
  known: readonly BurntAt[],
  { burning, glowing, how, phases }: Clocks,
  windows: readonly Stretch[],
  sourceOf: ((cause: string) => string) | null,
): Measured {
  const { glow, astray, owed } = how;
  const burnt = known.slice(1).map((b, i) => {
    const a = known[i] ?? b;
    const [glowsInAll, glows] = [glowing(a.atS, b.atS), within(glowing, a, b, windows)];
    const all = burning(a.atS, b.atS) + glow.asRunningS * glowsInAll;
    const share = all > 0 ? (within(burning, a, b, windows) + glow.asRunningS * glows) / all : 0;
    const grams = b.grams - a.grams;
    const perGlowS = all > 0 ? (grams * (glows - share * glowsInAll)) / all : 0;
    return { ...b, fromS: a.atS, toS: b.atS, grams, share, all, glowG: perGlowS * glow.uS };
  });
  let grams = 0;
  const [readings, uneven]: [Part[], Part[]] = [[], []];
  const read = (reading: string, u: number) =>
    readings.push({
      name: burningPart.readings,
      u,
      ...(sourceOf === null ? {} : { source: sourceOf(reading) }),
    });
  burnt.forEach((one, i) => {
    const next = burnt[i + 1];
    grams += one.grams * one.share;
    const name = burningPart.uneven;
    if (sourceOf === null)
      uneven.push({ name, u: Math.abs(one.grams * one.share * (1 - one.share) * astray) });
    else {
      const of = {
        name,
        sourceOf: (what: string) => sourceOf(`${name} ${what}, before look ${i + 1},`),
      };
      uneven.push(...unevenByPhase(phases, burning, one, windows, how, of));
    }
    // what a reading says too much of one stretch, it says too little of the next
    const takenBack = next === undefined || next.uReadG === null ? 0 : next.share;
    read(`fuel put in before look ${i + 1}`, one.share * one.uPutInG);
    read(`fuel left at look ${i + 1}`, (one.share - takenBack) * (one.uReadG ?? 0));
  });
  const splitG = burnt.reduce((sum, one) => sum + one.grams * one.share * (1 - one.share), 0);
  const glowG = burnt.reduce((sum, one) => sum + one.glowG, 0);
  const parts = [
    ...readings,
    ...uneven,
    ...owed.map((part) => ({ ...part, u: splitG * part.u })),
    { name: "what still burnt after the fire was out", u: Math.abs(glowG) },
  ];
  return { value: grams, unit: "g", parts: gathered(parts) };
}

const within = (clock: Clock, a: BurntAt, b: BurntAt, windows: readonly Stretch[]): number =>
  windows.reduce((sum, [fromS, toS]) => sum + clock(Math.max(a.atS, fromS), Math.min(b.atS, toS)), 0);
