import type { EntryOf } from "../../logbook/entry.ts";
import type { Fitting } from "../../logbook/locomotive.ts";
import {
  absent,
  combined,
  type Figure,
  interval,
  type Measured,
  measured,
  scaled,
} from "../../quantity/measured.ts";
import { steamHoleM, steamLeak, waterHoleM } from "../../steam/leak-flow.ts";
import { meanPressureBar } from "../pressure/pressure-at.ts";
import type { Sources } from "../sources.ts";
import { PA_PER_BAR } from "../state/circumstances.ts";

/** One drip caught: what the fitting would let out at working pressure, and the round hole that would. */
export interface DripFigures {
  fitting: string;
  atS: number;
  /** g/min at working pressure */
  rate: Figure;
  /** mm, of discharge coefficient 1 */
  equivalentHole: Figure;
}

/** What drips is boiler water, steam, or neither (fuel, oil), by the kind of the fitting. */
type Stuff = "steam" | "water" | "neither";
const STUFF: Partial<Record<Fitting["kind"], Stuff>> = { clack: "water", pump: "water", burner: "neither" };

const NOT_DRIVEN = "what a burner drips is not driven by the boiler's pressure";

/** Every drip entry carried to working pressure; null where none was caught. */
export function leaksOf(from: Sources): DripFigures[] | null {
  const drips = from.timeline.of("drip");
  return drips.length === 0 ? null : drips.map((drip) => dripFigures(from, drip));
}

function dripFigures(from: Sources, drip: EntryOf<"drip">): DripFigures {
  const { fitting, atS, g, overS } = drip;
  const kind = from.locomotive.fittings.find((one) => one.id === fitting)?.kind ?? "other";
  const stuff = STUFF[kind] ?? "steam";
  const caught = scaled(measured(g, from.errors.massReadingG, "g", "weighing"), 60 / overS, "g/min");
  if (stuff === "neither")
    return { fitting, atS, rate: notBelowNothing(caught), equivalentHole: absent(NOT_DRIVEN) };
  const pressure = meanPressureBar(from, atS - overS, atS);
  if (pressure.value === null) return { fitting, atS, rate: pressure, equivalentHole: pressure };
  const rate = atWorkingPressure(from, caught, pressure, stuff);
  return { fitting, atS, rate, equivalentHole: holeAtWorking(from, rate, stuff) };
}

/**
 * Steam: as much more as the flow through one hole grows, proportional to the absolute pressure while choked. Hot
 * water: as the root of the gauge pressure.
 */
function atWorkingPressure(from: Sources, caught: Measured, pressure: Measured, stuff: Stuff): Measured {
  const { around, locomotive } = from;
  const working = locomotive.workingPressureBarG;
  const flow = (barG: number) =>
    stuff === "water"
      ? Math.sqrt(barG)
      : steamLeak(around.absolutePa(barG), around.atmospherePa, 1).massKgPerS;
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

/** Diameter of the round hole that passes the rate at working pressure. */
function holeAtWorking(from: Sources, rate: Measured, stuff: Stuff): Measured {
  const { around, locomotive, stateAtPressure } = from;
  const working = locomotive.workingPressureBarG;
  const density = 1 / stateAtPressure(working).water.volumeM3PerKg;
  return holeMm(rate, (gPerMin) => {
    const kgPerS = gPerMin / 60_000;
    return stuff === "water"
      ? waterHoleM(kgPerS, working * PA_PER_BAR, density)
      : steamHoleM(kgPerS, around.absolutePa(working), around.atmospherePa);
  });
}

/** Diameter of the round hole that passes a rate, mm; its range from the ends of the rate's. Nothing leaks inwards. */
export function holeMm(rate: Measured, diameterM: (rate: number) => number): Measured {
  const diameter = (of: number) => 1000 * diameterM(Math.max(0, of));
  const [low, high] = interval(rate);
  const ends: readonly [number, number] = [diameter(low), diameter(high)];
  const perRate = high > low ? (ends[1] - ends[0]) / (high - low) : 0;
  return { ...combined(diameter(rate.value), "mm", [[rate, perRate]]), range95: ends };
}
