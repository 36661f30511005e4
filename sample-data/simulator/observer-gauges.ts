import type { Entry } from "../../src/logbook/entry.ts";
import { reading } from "./readings.ts";
import { changesOf, type Watch } from "./watch.ts";

/** Readings of dial and glass: by the clock, unevenly, some missed, and at the changes of stage. */
export function gaugeReadings(watch: Watch): Entry[] {
  const { habits, ledger, random } = watch;
  const entries: Entry[] = [];
  // the first change is the lighting up, when all stands as it did at the start
  const changes = habits.readsAtChanges ? [1, ...changesOf(ledger).slice(1)] : [];
  const shutInFromS = ledger.happenings.find((h) => h.kind === "stage" && h.name === "shut-in")?.atS;

  const levelTimes = [...byTheClock(watch, habits.levelEveryS, 0, ledger.endS), ...changes];
  for (const atS of levelTimes) {
    const entry = level(watch, Math.min(atS + random.between(0, 4), ledger.endS));
    if (entry !== null) entries.push(entry);
  }
  const dialTimes = [...byTheClock(watch, habits.pressureEveryS, 0, shutInFromS ?? ledger.endS), ...changes];
  if (shutInFromS !== undefined) {
    dialTimes.push(...byTheClock(watch, habits.holdEveryS, shutInFromS, ledger.endS));
  }
  for (const atS of dialTimes) entries.push(pressure(watch, Math.max(0, atS - random.between(0, 3))));
  return entries;
}

function byTheClock(watch: Watch, everyS: number | null, fromS: number, toS: number): number[] {
  if (everyS === null) return [];
  const { habits, random } = watch;
  const times: number[] = [];
  let atS = fromS;
  for (;;) {
    atS += everyS * (1 + habits.unevenness * random.between(-1, 1));
    if (atS >= toS) return times;
    if (!random.chance(habits.missed)) times.push(atS);
  }
}

/** The dial: its error this day, a reading's own, and a pin that the pointer rests on at nothing. */
function pressure(watch: Watch, atS: number): Entry {
  const { pressureReadingBar, pressureDivisionBar } = watch.plan.instruments;
  const trueBarG = watch.at("pressureBarG", atS);
  const shown =
    trueBarG < 0.02
      ? 0
      : reading(trueBarG + watch.day.dialBiasBar, pressureReadingBar, pressureDivisionBar, watch.random);
  return { kind: "pressure", atS: watch.stamp(atS), barG: Math.max(0, shown) };
}

/** The glass, where there is one and the water stands in it. Nobody reads it with a hand on the pump. */
function level(watch: Watch, atS: number): Entry | null {
  const { glass } = watch.plan.engine.nature;
  const { levelReadingMm, levelDivisionMm } = watch.plan.instruments;
  const feeding = watch.ledger.happenings.some((h) => h.kind === "feed" && h.fromS <= atS && atS <= h.atS);
  if (glass === null || feeding) return null;
  const trueMm = watch.levelMm(atS);
  if (trueMm < glass.fromMm || trueMm > glass.toMm) return null;
  return {
    kind: "level",
    atS: watch.stamp(atS),
    mm: reading(trueMm, levelReadingMm, levelDivisionMm, watch.random),
  };
}
