import { boilerGeometry } from "../../../src/boiler/geometry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { LogEntry } from "../../outbox/database.ts";
import { entryValue, reading } from "../../words/entry-words.ts";

/** A first pressure beyond so many times the working one is asked about; a test with cold water goes no higher (our choice). */
const HIGHEST = 2.5;
/** Air beside a track, and feed, are no warmer, °C (our choice). */
const WARMEST: Readonly<Record<string, number>> = { ambient: 50, feed: 100 };
/** A lap in less than this part of the one before it is asked about (our choice). */
const QUICKER = 1 / 5;
/** A drip that would empty the boiler within this is asked about, s (our choice). */
const EMPTIED_WITHIN_S = 60;

/**
 * What is beyond the boiler, the tank or the lap before, in words; null where nothing is.
 * @param before what stands before it, in the order in which it was written
 */
export function beyondWords(entry: LogEntry, before: readonly LogEntry[], engine: Locomotive): string | null {
  const boilerMl = 1e6 * boilerGeometry(engine.boiler).totalM3;
  const isOdd = {
    pressure: (each: LogEntry) =>
      each.kind === "pressure" &&
      !before.some(({ kind }) => kind === "pressure") &&
      each.barG > HIGHEST * engine.workingPressureBarG,
    temperature: (each: LogEntry) => each.kind === "temperature" && each.celsius > (WARMEST[each.of] ?? 999),
    drip: (each: LogEntry) => each.kind === "drip" && each.g * EMPTIED_WITHIN_S > boilerMl * each.overS,
  }[entry.kind as "pressure"];
  if (isOdd?.(entry)) return `${entryValue(entry, engine)}?`;
  switch (entry.kind) {
    case "fill":
    case "blowdown":
    case "drained":
      return entry.ml > boilerMl
        ? `${reading(entry.ml, "ml")}, and the boiler holds ${reading(Math.round(boilerMl), "ml")}?`
        : null;
    case "lap": {
      const [first, last] = before.filter(({ kind }) => kind === "lap").slice(-2);
      if (first === undefined || last === undefined || entry.count !== 1) return null;
      const [tookS, usualS] = [entry.atS - last.atS, last.atS - first.atS];
      const stopped = before.some(({ kind, atS }) => kind === "regulator" && atS > first.atS);
      return !stopped && tookS < QUICKER * usualS ? `A lap in ${tookS.toFixed(1)} s: tapped twice?` : null;
    }
    case "fuel":
      return fuelWords(entry, before, engine);
    default:
      return null;
  }
}

type FuelEntry = Extract<LogEntry, { kind: "fuel" }>;

/** What was left when somebody looked, and all that was put in since. */
export function fuelThere(fuel: readonly FuelEntry[], unit: "g" | "ml"): number {
  let there = 0;
  for (const each of fuel) there = (each.action === "added" ? there : 0) + (each[unit] ?? 0);
  return there;
}

/** More in the tank than it takes, or more left than was put in. */
function fuelWords(entry: FuelEntry, before: readonly LogEntry[], engine: Locomotive): string | null {
  const unit = entry.g === undefined ? "ml" : "g";
  const now = entry[unit] ?? 0;
  const fuel = before.filter((each): each is FuelEntry => each.kind === "fuel");
  if (fuel.some((each) => each[unit] === undefined)) return null;
  const there = fuelThere(fuel, unit);
  if (entry.action === "remaining")
    return fuel.length > 0 && now > there ? `${reading(now, unit)} left, of ${reading(there, unit)}?` : null;
  const { tankMl } = engine.fuel;
  // what burnt since is not known, but a fire out, or not lit yet, burns nothing
  const isBurning = before.findLast(({ kind }) => kind === "fire");
  const held = isBurning?.kind === "fire" && isBurning.state === "lit" ? now : there + now;
  return unit === "ml" && tankMl !== undefined && held > tankMl
    ? `${reading(held, "ml")} in a tank of ${reading(tankMl, "ml")}?`
    : null;
}
