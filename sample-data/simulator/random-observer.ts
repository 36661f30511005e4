import type { EnginePlan } from "./nature.ts";
import type { InstrumentSet, ObserverHabits } from "./plan.ts";
import type { Random } from "./random.ts";

/** Instruments as they are bought: divisions from what is sold, errors from a little to twice a division. */
export function randomInstruments(engine: EnginePlan, weighs: boolean, random: Random): InstrumentSet {
  const large = engine.locomotive.fuel.kind === "coal";
  const pressureDivisionBar = random.pick([0.05, 0.1, 0.1, 0.2, 0.25]);
  const levelDivisionMm = random.pick([0.5, 1, 1]);
  const massDivisionG = weighs || large ? 1 : random.pick([0.01, 0.1, 0.1]);
  const volumeDivisionMl = large ? 5 : random.pick([0.5, 1]);
  return {
    pressureDivisionBar,
    pressureReadingBar: pressureDivisionBar * random.between(0.4, 1),
    pressureBiasBar: random.between(0.01, 0.12),
    levelDivisionMm,
    levelReadingMm: levelDivisionMm * random.between(0.5, 1.3),
    feedRelative: random.between(0.005, 0.04),
    massDivisionG,
    massReadingG: massDivisionG * random.between(0.5, 2),
    volumeDivisionMl,
    volumeReadingMl: volumeDivisionMl * random.between(0.5, 1.2),
  };
}

export function randomObserver(
  engine: EnginePlan,
  day: { weighs: boolean; withoutGlass: boolean },
  random: Random,
): ObserverHabits {
  // from a reading each half minute to one each five minutes
  const everyS = 30 * 10 ** random.uniform();
  const fittings = engine.locomotive.fittings.map((fitting) => fitting.id);
  const logger = random.chance(0.15);
  return {
    levelEveryS: day.withoutGlass ? null : everyS,
    pressureEveryS: everyS * random.between(0.5, 1.2),
    holdEveryS: random.between(30, 150),
    unevenness: random.between(0.1, 0.6),
    missed: random.between(0, 0.15),
    stampSdS: random.between(0.5, 3),
    readsAtChanges: random.chance(0.7) || day.weighs,
    marksPhases: random.chance(0.5),
    writesRegulator: random.chance(0.8),
    writesFill: day.withoutGlass || random.chance(0.3),
    drains: day.withoutGlass || random.chance(0.1),
    writesFuelRemaining: random.chance(0.7) || day.weighs,
    laps: random.pick(["each", "each", "each", "at-stops", "none"]),
    forgottenLaps: random.chance(0.4) ? random.between(0.02, 0.1) : 0,
    writesValve: random.chance(0.6),
    weighs: day.weighs,
    drips:
      day.weighs || random.chance(0.6)
        ? []
        : fittings.slice(0, 2).map((fitting) => ({ fitting, overS: random.pick([60, 120]) })),
    looksAt: random.chance(0.3) ? fittings : [],
    traces: logger ? [{ channel: "pressureBarG", everyS: random.pick([1, 2, 5]), division: 0.01 }] : [],
    writesPumpFeed: random.chance(0.65),
  };
}
