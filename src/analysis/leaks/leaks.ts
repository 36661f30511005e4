import type { EntryOf } from "../../logbook/entry.ts";
import type { Fitting } from "../../logbook/locomotive.ts";
import {
  absent,
  combined,
  type Figure,
  interval,
  isMeasured,
  type Measured,
  measured,
  scaled,
} from "../../quantity/measured.ts";
import { steamHoleM, steamLeak, waterHoleM } from "../../steam/leak-flow.ts";
import { meanPressureBar } from "../pressure/pressure-at.ts";
import type { Sources } from "../sources.ts";
import { PA_PER_BAR } from "../state/circumstances.ts";
import { coldAt } from "../state/held-cold.ts";
import { densityGPerMl } from "../water/feed-course.ts";
import { dripSizes, overSizes } from "./drip-thought.ts";
import { weighingG } from "./weighing.ts";

/** One drip caught: what the fitting would let out at working pressure, and the round hole that would. */
export interface DripFigures {
  fitting: string;
  atS: number;
  /** g/min at working pressure */
  rate: Figure;
  /** mm, of discharge coefficient 1 */
  equivalentHole: Figure;
}

/** What drips is boiler water, steam, or neither (fuel, oil), by the kind of the fitting; under the pump cold water. */
type Stuff = "steam" | "water" | "cold water" | "neither";
const STUFF: Partial<Record<Fitting["kind"], Stuff>> = { clack: "water", pump: "water", burner: "neither" };

const NOT_DRIVEN = "what a burner drips is not driven by the boiler's pressure";

/** Every drip entry carried to working pressure; null where none was caught. */
export function leaksOf(from: Sources): DripFigures[] | null {
  const drips = from.timeline.of("drip");
  const uG = weighingG(
    from.locomotive,
    drips.map(({ g }) => g),
  );
  return drips.length === 0 ? null : drips.map((drip) => dripFigures(from, drip, uG));
}

function stuffOf(from: Sources, { fitting, atS }: EntryOf<"drip">): Stuff {
  const kind = from.locomotive.fittings.find((one) => one.id === fitting)?.kind ?? "other";
  const stuff = STUFF[kind] ?? "steam";
  return stuff !== "neither" && coldAt(from, atS) ? "cold water" : stuff;
}

/**
 * As it was caught and weighed, carried to working pressure, g/min; nothing is thought of such fittings.
 * @param uG standard uncertainty of the weighing
 */
export function caughtOf(from: Sources, drip: EntryOf<"drip">, uG: number): Figure {
  const { atS, g, overS } = drip;
  const stuff = stuffOf(from, drip);
  const caught = scaled(measured(g, uG, "g", WEIGHING), 60 / overS, "g/min");
  if (stuff === "neither") return notBelowNothing(caught);
  const pressure = meanPressureBar(from, atS - overS, atS);
  return isMeasured(pressure) ? atWorkingPressure(from, caught, pressure, stuff) : pressure;
}

const WEIGHING = "weighing";

function dripFigures(from: Sources, drip: EntryOf<"drip">, uG: number): DripFigures {
  const { fitting, atS } = drip;
  const stuff = stuffOf(from, drip);
  const caught = caughtOf(from, drip, uG);
  if (stuff === "neither") return { fitting, atS, rate: caught, equivalentHole: absent(NOT_DRIVEN) };
  if (!isMeasured(caught)) return { fitting, atS, rate: caught, equivalentHole: caught };
  const diameterMm = holeAtWorking(from, stuff);
  // through the same hole goes far more cold water than steam: what fittings usually let out says nothing of it
  if (stuff === "cold water")
    return { fitting, atS, rate: caught, equivalentHole: holeMm(caught, diameterMm) };
  return { fitting, atS, ...thoughtOf(from, caught, diameterMm) };
}

/**
 * Rate and hole by what such fittings usually let out, where the weighing leaves that open. The ranges do not lean on it: they
 * are what the weighing allows.
 */
function thoughtOf(
  from: Sources,
  caught: Measured,
  diameterMm: (gPerMin: number) => number,
): { rate: Measured; equivalentHole: Measured } {
  const weighed = caught.parts.find(({ name }) => name === WEIGHING)?.u ?? 0;
  if (weighed === 0) return { rate: caught, equivalentHole: holeMm(caught, diameterMm) };
  const sizes = dripSizes(from.geometry.totalM3, caught.value, weighed);
  const pressure = caught.parts.filter(({ name }) => name !== WEIGHING);
  const over = (unit: string, of: (gPerMin: number) => number, power: number): Measured => {
    const { mean: value, sd, goesWith } = overSizes(sizes, of);
    // so much it goes with what was caught; the rest of its spread the weighing does not tell
    const byWeighing = goesWith / weighed;
    const u = Math.sqrt(Math.max(0, sd ** 2 - byWeighing ** 2));
    const byPressure = pressure.map((part) => ({ ...part, u: (power * part.u * value) / caught.value }));
    return {
      value,
      unit,
      parts: [{ name: WEIGHING, u: byWeighing }, { name: "what such fittings let out", u }, ...byPressure],
    };
  };
  const [low, high] = interval(caught);
  return {
    rate: { ...over("g/min", (gPerMin) => gPerMin, 1), range95: [low, high] },
    equivalentHole: { ...over("mm", diameterMm, 0.5), range95: [diameterMm(low), diameterMm(high)] },
  };
}

/**
 * Steam: as much more as the flow through one hole grows, proportional to the absolute pressure while choked. Water, hot
 * or cold: as the root of the gauge pressure.
 */
function atWorkingPressure(from: Sources, caught: Measured, pressure: Measured, stuff: Stuff): Measured {
  const { around, locomotive } = from;
  const working = locomotive.workingPressureBarG;
  const flow = (barG: number) =>
    stuff === "steam"
      ? steamLeak(around.absolutePa(barG), around.atmospherePa, 1).massKgPerS
      : Math.sqrt(barG);
  const growth = (barG: number) => flow(working) / flow(barG);
  const step = 0.01 * pressure.value;
  const perBar = (growth(pressure.value + step) - growth(pressure.value - step)) / (2 * step);
  return notBelowNothing(
    combined(caught.value * growth(pressure.value), "g/min", [
      [caught, growth(pressure.value)],
      [pressure, caught.value * perBar],
    ]),
  );
}

/** Nothing leaks inwards: a range that would reach below nothing ends there. */
function notBelowNothing(figure: Measured): Measured {
  const [low, high] = interval(figure);
  return low >= 0 ? figure : { ...figure, range95: [0, high] };
}

/** Diameter of the round hole that passes a rate at working pressure, mm. */
function holeAtWorking({ around, locomotive, stateAtPressure }: Sources, stuff: Stuff) {
  const working = locomotive.workingPressureBarG;
  const density =
    stuff === "cold water"
      ? 1000 * densityGPerMl(around.feedC, around)
      : 1 / stateAtPressure(working).water.volumeM3PerKg;
  return (gPerMin: number): number => {
    const kgPerS = gPerMin / 60_000;
    return stuff === "steam"
      ? 1000 * steamHoleM(kgPerS, around.absolutePa(working), around.atmospherePa)
      : 1000 * waterHoleM(kgPerS, working * PA_PER_BAR, density);
  };
}

/** Diameter of the round hole that passes a rate, mm; its range from the ends of the rate's. Nothing leaks inwards. */
export function holeMm(rate: Measured, diameterMm: (rate: number) => number): Measured {
  const diameter = (of: number) => diameterMm(Math.max(0, of));
  const [low, high] = interval(rate);
  const ends: readonly [number, number] = [diameter(low), diameter(high)];
  const perRate = high > low ? (ends[1] - ends[0]) / (high - low) : 0;
  return { ...combined(diameter(rate.value), "mm", [[rate, perRate]]), range95: ends };
}
