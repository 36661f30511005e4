import type { Locomotive } from "../../logbook/locomotive.ts";
import { overlapS, type Timeline } from "../../logbook/timeline.ts";
import { absent, type Figure, gathered, type Measured, type Part } from "../../quantity/measured.ts";
import type { PhaseName } from "../report-schema.ts";
import type { ReadingErrors } from "../state/instruments.ts";
import { fireStretches, type Phase, type Stretch } from "../state/phases.ts";
import { type BurntAt, type FuelStock, fuelStock, UNKNOWN_LEFT } from "./fuel-stock.ts";
import { isSolid } from "./fuel-table.ts";

/** What the fire burnt, against time: known where it was read, between that by how hard the fire is likely to burn. */
export interface FuelCourse {
  /** burnt in all of some windows together, g */
  burntG(windows: readonly Stretch[]): Figure;
  fire: readonly Stretch[];
  /** nothing was recorded as remaining, and all that was added is taken as burnt */
  takenAsAllBurnt: boolean;
}

/** Causes of error of what was burnt, by the names that its parts bear. */
export const burningPart = { readings: "fuel readings", uneven: "burning that was not even" };

/** Everything from lighting up to the end of the log. */
export const ALWAYS: readonly Stretch[] = [[Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]];

/**
 * How hard a fire burns in each phase, against running: a grate lives by the draught of the exhaust or the blower, a gas burner
 * is turned down once there is steam, spirit burns on, a little harder from a full pot (our estimate, held to account by the
 * calibration). And how far one part of the time may depart from that: relative standard deviation of its rate against the rest.
 */
const BURNS: Record<"solid" | "gas" | "spirit", Record<PhaseName, number> & { astray: number }> = {
  solid: { raising: 0.5, standing: 0.3, running: 1, "shut-in": 0.3, astray: 0.2 },
  gas: { raising: 1.2, standing: 0.8, running: 1, "shut-in": 1, astray: 0.15 },
  spirit: { raising: 1.1, standing: 1, running: 1, "shut-in": 1, astray: 0.15 },
};
/** Relative standard uncertainty of what burns between "out" and cold, as a part of all (our estimate). */
const AFTERGLOW = { spirit: 0.003, gas: 0.003, solid: 0.02 };
/** Where entries of the fire tell no time in which it burnt. */
export const whyNoFire = (timeline: Timeline): string =>
  timeline.of("fire").some(({ state }) => state === "lit")
    ? "the fire was put out at the very moment it was lit, as it was written down"
    : "the fire was never recorded as lit";

/** Part of the burning time that may lie beyond the last reading of what remained. */
const MAY_EXTRAPOLATE = 0.5;

/** @param steamingId of a steaming in which the engine was weighed: fuel and water owe to the same readings of the fuel */
export function fuelCourse(
  timeline: Timeline,
  phases: readonly Phase[],
  locomotive: Locomotive,
  errors: ReadingErrors,
  steamingId: string,
): FuelCourse {
  const endS = timeline.lastS ?? 0;
  const startS = timeline.firstS ?? 0;
  const recorded = timeline.of("fire").length > 0;
  const fire: readonly Stretch[] = recorded ? fireStretches(timeline) : endS > startS ? [[startS, endS]] : [];
  const none = (why: string): FuelCourse => ({ burntG: () => absent(why), fire, takenAsAllBurnt: false });
  if (timeline.of("fuel").length === 0) return none("no fuel was recorded");
  const [first] = fire;
  if (first === undefined)
    return none(
      recorded
        ? whyNoFire(timeline)
        : "all was written down at one moment: write down when the fire is lit and put out",
    );
  const stock = fuelStock(timeline, locomotive, errors, first[0], endS);
  if (typeof stock === "string") return none(stock);

  const kind = isSolid(locomotive.fuel) ? "solid" : locomotive.fuel.kind === "spirit" ? "spirit" : "gas";
  const burning = burningClock(fire, phases, BURNS[kind]);
  const known = carriedOn(stock.known, burning, endS);
  if (known === null) return none("what fuel was left was not recorded near the end: measure what is left");
  const isOut = timeline.of("fire").at(-1)?.state === "out";
  const weighed =
    timeline.of("weight").length > 0 || timeline.traces.some(({ channel }) => channel === "massG");
  const sourceOf = weighed ? (reading: string) => `${reading} of steaming ${steamingId}` : () => undefined;

  return {
    fire,
    takenAsAllBurnt: stock.takenAsAllBurnt,
    burntG: (windows) => {
      const burnt = burntWithin(known, burning, windows, BURNS[kind].astray, sourceOf);
      // what was read when all was cold includes what still burnt after the fire was put out
      const afterglow = isOut && windows !== ALWAYS ? burnt.value * AFTERGLOW[kind] : 0;
      const parts = [
        ...burnt.parts,
        { name: "what still burnt after the fire was out", u: afterglow },
      ].filter((part) => part.u !== 0);
      if (!stock.takenAsAllBurnt) return { ...burnt, parts };
      // never more than was put in
      const most = burnt.value * (1 + (2 * stock.uPutInG) / Math.max(stock.putInG, 1e-9));
      return { ...burnt, parts, range95: [burnt.value * (1 - 2 * UNKNOWN_LEFT), most] };
    },
  };
}

type Clock = (fromS: number, toS: number) => number;

/** Seconds of burning in a window, counted as of running. */
export function burningClock(
  fire: readonly Stretch[],
  phases: readonly Phase[],
  burns: Record<PhaseName, number>,
): Clock {
  return (fromS, toS) => {
    let total = overlapS(fire, fromS, toS);
    for (const phase of phases) {
      const lit = overlapS(fire, Math.max(fromS, phase.fromS), Math.min(toS, phase.toS));
      total += (burns[phase.name] - 1) * lit;
    }
    return total;
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

function burntWithin(
  known: readonly BurntAt[],
  burning: Clock,
  windows: readonly Stretch[],
  astray: number,
  sourceOf: (reading: string) => string | undefined,
): Measured {
  const burnt = known.slice(1).map((b, i) => {
    const a = known[i] ?? b;
    const all = burning(a.atS, b.atS);
    const within = windows.map(([fromS, toS]) => burning(Math.max(a.atS, fromS), Math.min(b.atS, toS)));
    const share = all > 0 ? within.reduce((sum, one) => sum + one, 0) / all : 0;
    return { ...b, grams: b.grams - a.grams, share };
  });
  let [grams, unevenVariance] = [0, 0];
  const readings: Part[] = [];
  const read = (reading: string, u: number) => {
    const source = sourceOf(reading);
    readings.push({ name: burningPart.readings, u, ...(source === undefined ? {} : { source }) });
  };
  burnt.forEach((one, i) => {
    const next = burnt[i + 1];
    grams += one.grams * one.share;
    unevenVariance += (one.grams * one.share * (1 - one.share) * astray) ** 2;
    // what a reading says too much of one stretch, it says too little of the next
    const takenBack = next === undefined || next.uReadG === null ? 0 : next.share;
    read(`fuel put in before look ${i + 1}`, one.share * one.uPutInG);
    read(`fuel left at look ${i + 1}`, (one.share - takenBack) * (one.uReadG ?? 0));
  });
  const parts = [...readings, { name: burningPart.uneven, u: Math.sqrt(unevenVariance) }];
  return { value: grams, unit: "g", parts: gathered(parts) };
}
