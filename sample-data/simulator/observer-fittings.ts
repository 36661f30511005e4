import type { Entry } from "../../src/logbook/entry.ts";
import { curveAt } from "./ledger.ts";
import { reading } from "./readings.ts";
import type { Watch } from "./watch.ts";

/**
 * Drips caught and looks taken. A cup or a cold cloth is taken to catch everything (in truth some steam
 * escapes it). A gland behind the regulator is caught running, at whatever pressure is in the chest.
 */
export function fittingEntries(watch: Watch): Entry[] {
  const { habits } = watch;
  const entries: Entry[] = [];
  for (const [index, { fitting, overS }] of habits.drips.entries()) {
    const atS = momentFor(watch, fitting, overS, index);
    if (atS === null) continue;
    const { massReadingG, massDivisionG } = watch.plan.instruments;
    const trueG = caughtG(watch, fitting, atS - overS, atS);
    const g = Math.max(0, reading(trueG, massReadingG, massDivisionG, watch.random));
    entries.push({ kind: "drip", atS: watch.stamp(atS), fitting, g, overS });
  }
  for (const [index, fitting] of habits.looksAt.entries()) {
    const atS = momentFor(watch, fitting, 30, index + 3);
    if (atS === null) continue;
    const gPerMin = caughtG(watch, fitting, atS - 30, atS) * 2;
    entries.push({ kind: "look", atS: watch.stamp(atS), fitting, grade: gradeOf(gPerMin) });
  }
  return entries;
}

/** What a good eye calls a leak of so many grams a minute. */
export function gradeOf(gPerMin: number): "dry" | "damp" | "weeping" | "dripping" | "blowing" {
  if (gPerMin < 0.02) return "dry";
  if (gPerMin < 0.08) return "damp";
  if (gPerMin < 0.25) return "weeping";
  return gPerMin < 1 ? "dripping" : "blowing";
}

/** A moment under good pressure (and, behind the regulator, with it open) at the end of `overS` of it. */
function momentFor(watch: Watch, fitting: string, overS: number, turn: number): number | null {
  const leak = watch.plan.engine.nature.leaks.find((each) => each.fitting === fitting);
  const { curves, endS } = watch.ledger;
  const enoughBar = 0.6 * watch.day.locomotive.workingPressureBarG;
  const fits: number[] = [];
  let good = 0;
  for (let s = 1; s < endS; s += 1) {
    const open = (curves.regulatorOpenS[s] ?? 0) > (curves.regulatorOpenS[s - 1] ?? 0);
    const steady = (curves.pressureBarG[s] ?? 0) >= enoughBar && (leak?.side !== "chest" || open);
    good = steady ? good + 1 : 0;
    if (good > overS) fits.push(s);
  }
  const at = fits[Math.floor(fits.length * Math.min(0.95, 0.25 + 0.2 * turn))];
  return at ?? null;
}

function caughtG(watch: Watch, fitting: string, fromS: number, toS: number): number {
  const leaked = watch.ledger.leakedG[fitting];
  return leaked === undefined ? 0 : curveAt(leaked, toS) - curveAt(leaked, fromS);
}
