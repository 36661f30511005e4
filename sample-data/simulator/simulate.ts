import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { Steaming } from "../../src/logbook/steaming.ts";
import { entriesOf } from "./observer.ts";
import type { InstrumentSet, SteamingPlan } from "./plan.ts";
import { run } from "./run.ts";
import { tracesOf } from "./trace.ts";
import { truthOf } from "./truth.ts";
import type { Truth } from "./truth-types.ts";
import { watchOf } from "./watch.ts";

export interface Simulation {
  /** the engine, its `instruments` equal to the sizes of error that were used */
  locomotive: Locomotive;
  /** what was written down */
  steaming: Steaming;
  /** what happened */
  truth: Truth;
}

/** One invented steaming. The same plan and seed give the same result. */
export function simulate(plan: SteamingPlan, seed: number): Simulation {
  const { day, ledger } = run(plan, seed);
  const watch = watchOf(plan, day, ledger, seed);
  const entries = entriesOf(watch);
  const traces = tracesOf(watch);
  const steaming: Steaming = {
    id: plan.id,
    locomotiveId: plan.engine.locomotive.id,
    ...(plan.title === undefined ? {} : { title: plan.title }),
    purpose: plan.purpose,
    startedAt: plan.startedAt,
    conditions: {
      ambientC: plan.ambientC,
      feedC: plan.feedC,
      atmosphereHPa: plan.atmosphereHPa,
      ...(plan.dryness === 1 ? {} : { dryness: plan.dryness }),
    },
    ...(plan.track === null ? {} : { track: plan.track }),
    ...(plan.train === null ? {} : { train: trainWritten(plan.train) }),
    ...(plan.notes === undefined ? {} : { notes: plan.notes }),
    entries,
    ...(traces.length === 0 ? {} : { traces }),
  };
  return {
    locomotive: { ...plan.engine.locomotive, instruments: declared(plan.instruments) },
    steaming,
    truth: truthOf(watch, seed, entries),
  };
}

function trainWritten(train: NonNullable<SteamingPlan["train"]>): NonNullable<Steaming["train"]> {
  const { takenForRatio, ...as } = train;
  return takenForRatio === undefined ? as : { ...as, resistanceRatio: takenForRatio };
}

const declared = (instruments: InstrumentSet): NonNullable<Locomotive["instruments"]> => ({
  pressureReadingBar: instruments.pressureReadingBar,
  pressureBiasBar: instruments.pressureBiasBar,
  levelReadingMm: instruments.levelReadingMm,
  feedRelative: instruments.feedRelative,
  massReadingG: instruments.massReadingG,
  volumeReadingMl: instruments.volumeReadingMl,
});
