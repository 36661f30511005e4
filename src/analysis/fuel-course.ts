import type { Locomotive } from "../logbook/locomotive.ts";
import { overlapS, type Timeline } from "../logbook/timeline.ts";
import { absent, type Figure, type Measured } from "../quantity/measured.ts";
import { fuelProperties, fuelTable } from "./fuel-table.ts";
import type { ReadingErrors } from "./instruments.ts";
import { fireStretches, type Stretch } from "./phases.ts";

/** What the fire had burnt, against time: known at readings of what remained, even burning between them. */
export interface FuelCourse {
  /** burnt in a window, g */
  burntG(fromS: number, toS: number): Figure;
  fire: readonly Stretch[];
  /** true where nothing was recorded as remaining and all that was added is taken as burnt */
  takenAsAllBurnt: boolean;
}

interface Anchor {
  atS: number;
  burntG: number;
  uG: number;
}

/**
 * How unevenly a fire burns between two readings of its fuel: relative standard deviation of the rate in one part
 * of the time against the rest (our estimate; a burner is turned down while standing, a draughted grate burns harder
 * while running).
 */
const UNEVEN = { liquidOrGas: 0.25, solid: 0.35 };
/** Standard uncertainty, as a part of all fuel, of what was left unburnt when nobody looked (our estimate). */
const UNKNOWN_LEFT = 0.3;
/** Relative standard uncertainty of what burns between "out" and cold, as a part of all (our estimate). */
const AFTERGLOW = { liquidOrGas: 0.003, solid: 0.02 };
/** Part of the burning time that may lie beyond the last reading of what remained. */
const MAY_EXTRAPOLATE = 0.5;

export function fuelCourse(timeline: Timeline, locomotive: Locomotive, errors: ReadingErrors): FuelCourse {
  const endS = timeline.lastS ?? 0;
  const recorded = fireStretches(timeline);
  const startS = timeline.entries[0]?.atS ?? 0;
  const fire: readonly Stretch[] =
    timeline.of("fire").length > 0 ? recorded : endS > startS ? [[startS, endS]] : [];
  const entries = timeline.of("fuel");
  const solid = fuelTable[locomotive.fuel.kind]?.densityGPerMl === null;
  const none = (why: string): FuelCourse => ({ burntG: () => absent(why), fire, takenAsAllBurnt: false });
  const litS = fire[0]?.[0];
  const outS = fire.at(-1)?.[1];
  if (entries.length === 0) return none("no fuel was recorded");
  if (litS === undefined || outS === undefined) return none("the fire was never recorded as lit");
  const densityGPerMl =
    fuelProperties(locomotive.fuel)?.densityGPerMl ?? locomotive.fuel.densityGPerMl ?? null;
  if (densityGPerMl === null && entries.some((entry) => entry.ml !== undefined)) {
    return none("fuel was measured in ml and the density of this fuel is not known");
  }

  const anchors: Anchor[] = [{ atS: litS, burntG: 0, uG: 0 }];
  let stockG = 0;
  let variance = 0;
  let lastRemainingS: number | null = null;
  let stockRead = false;
  for (const entry of entries) {
    const grams = entry.g ?? (entry.ml ?? 0) * (densityGPerMl ?? 0);
    const u = entry.g !== undefined ? errors.massReadingG : errors.volumeReadingMl * (densityGPerMl ?? 0);
    if (entry.action === "added") {
      if (grams === 0) continue;
      stockG += grams;
      variance += u ** 2;
    } else if (entry.atS <= litS && !stockRead) {
      stockG = grams;
      variance = u ** 2;
    } else {
      if (!stockRead && stockG === 0 && anchors.length === 1) {
        // the first word on fuel is what is left, after lighting up: what was there before is not known
        return none("what the tank held when the fire was lit was not recorded");
      }
      const burntG = stockG - grams;
      anchors.push({ atS: Math.min(entry.atS, outS), burntG, uG: Math.hypot(Math.sqrt(variance), u) });
      lastRemainingS = entry.atS;
      stockRead = true;
    }
  }

  const burningS = (fromS: number, toS: number) => overlapS(fire, fromS, toS);
  let takenAsAllBurnt = false;
  const fireIsOut = timeline.of("fire").at(-1)?.state === "out";
  if (lastRemainingS === null) {
    if (!fireIsOut && !solid) return none("what fuel was left was not recorded, and the fire was still lit");
    anchors.push({ atS: outS, burntG: stockG, uG: Math.hypot(Math.sqrt(variance), UNKNOWN_LEFT * stockG) });
    takenAsAllBurnt = true;
  }
  const last = anchors.at(-1);
  const beyondS = last === undefined ? 0 : burningS(last.atS, outS);
  if (last !== undefined && beyondS > 0) {
    const knownS = burningS(litS, last.atS);
    if (beyondS > MAY_EXTRAPOLATE * knownS) return none("what fuel was left was not recorded near the end");
    const rate = last.burntG / knownS;
    anchors.push({
      atS: outS,
      burntG: last.burntG + rate * beyondS,
      uG: Math.hypot(last.uG, 0.25 * rate * beyondS),
    });
  }

  const uneven = solid ? UNEVEN.solid : UNEVEN.liquidOrGas;
  return {
    fire,
    takenAsAllBurnt,
    burntG: (fromS, toS) => {
      const burnt = burntWithin(anchors, burningS, fromS, toS, uneven);
      const afterglow =
        Number.isFinite(toS) && fireIsOut
          ? burnt.value * (solid ? AFTERGLOW.solid : AFTERGLOW.liquidOrGas)
          : 0;
      const parts = [
        ...burnt.parts,
        { name: "what still burnt after the fire was out", u: afterglow },
      ].filter((part) => part.u > 0);
      if (!takenAsAllBurnt) return { ...burnt, parts };
      // never more than was put in
      const most = burnt.value * (1 + (2 * Math.sqrt(variance)) / Math.max(stockG, 1e-9));
      return { ...burnt, parts, range95: [burnt.value * (1 - 2 * UNKNOWN_LEFT), most] };
    },
  };
}

function burntWithin(
  anchors: readonly Anchor[],
  burningS: (fromS: number, toS: number) => number,
  fromS: number,
  toS: number,
  uneven: number,
): Measured {
  let grams = 0;
  let unevenVariance = 0;
  let readVariance = 0;
  for (let i = 1; i < anchors.length; i++) {
    const a = anchors[i - 1];
    const b = anchors[i];
    if (a === undefined || b === undefined) continue;
    const all = burningS(a.atS, b.atS);
    if (!(all > 0)) continue;
    const share = burningS(Math.max(a.atS, fromS), Math.min(b.atS, toS)) / all;
    if (!(share > 0)) continue;
    const burnt = b.burntG - a.burntG;
    grams += burnt * share;
    unevenVariance += (burnt * share * (1 - share) * uneven) ** 2;
    readVariance += share ** 2 * Math.max(0, b.uG ** 2 - a.uG ** 2);
  }
  const end = anchors.at(-1);
  // a window that holds all the burning owes only the error of the last reading
  const whole = end !== undefined && grams === end.burntG;
  const parts = [
    { name: "fuel readings", u: whole ? end.uG : Math.sqrt(readVariance) },
    { name: "burning that was not even", u: Math.sqrt(unevenVariance) },
  ].filter((part) => part.u > 0);
  return { value: grams, unit: "g", parts };
}
