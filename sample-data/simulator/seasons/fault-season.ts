import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import type { EnginePlan } from "../nature.ts";
import type { SteamingPlan } from "../plan.ts";
import type { Random } from "../random.ts";
import { simulate } from "../simulate.ts";
import { type FaultEngine, spiritEngine } from "./fault-engines.ts";
import { seasonRandom } from "./leak-season.ts";
import { type PlantedFault, planted, type Sick } from "./planted-faults.ts";

export interface FaultSeason {
  locomotive: Locomotive;
  steamings: Steaming[];
}

/** Sound outings of one engine, and then some with the fault in it; only what was written down. */
export function faultSeason(
  fault: PlantedFault | null,
  seed: number,
  bed: FaultEngine = spiritEngine,
  counts = { sound: 5, faulty: 3 },
): FaultSeason {
  const random = seasonRandom(seed, `fault ${fault ?? "none"}`);
  const sick = planted(fault, bed.engine.nature, bed.leakScale, random);
  const outings = [
    ...soundOutings(bed, seed, counts.sound),
    ...Array.from({ length: counts.faulty }, (_, i) => outing(bed, sick, counts.sound + i, seed, random)),
  ];
  const [first] = outings;
  if (first === undefined) throw new RangeError("faultSeason: no outings were asked for, wanted one or more");
  return { locomotive: first.locomotive, steamings: outings.map(({ steaming }) => steaming) };
}

const known = new Map<string, { locomotive: Locomotive; steaming: Steaming }[]>();

/** The same sound outings serve every fault of a seed. */
function soundOutings(bed: FaultEngine, seed: number, count: number) {
  const { nature, locomotive } = bed.engine;
  const key = `${locomotive.id} ${seed} ${count}`;
  const made =
    known.get(key) ??
    Array.from({ length: count }, (_, i) =>
      outing(bed, { nature, dryness: 1 }, i, seed, seasonRandom(seed, `sound ${i}`)),
    );
  known.set(key, made);
  return made;
}

const DAY_MS = 86_400_000;

function outing(bed: FaultEngine, sick: Sick, place: number, seed: number, random: Random) {
  const { locomotive, steaming } = simulate(planFor(bed, sick, place, random), seed * 100 + place);
  const { conditions, ...rest } = steaming;
  if (conditions === undefined) return { locomotive, steaming };
  // nobody knows that she primes
  const { dryness: _unknown, ...told } = conditions;
  return { locomotive, steaming: { ...rest, conditions: told } };
}

function planFor(bed: FaultEngine, { nature, dryness }: Sick, place: number, random: Random): SteamingPlan {
  const engine: EnginePlan = { ...bed.engine, nature };
  const { workingPressureBarG } = engine.locomotive;
  const looked = engine.locomotive.fittings.map(({ id }) => id).filter(() => random.chance(0.6));
  return {
    id: `outing-${place + 1}`,
    purpose: "trial",
    startedAt: new Date(Date.UTC(2026, 3, 4, 13) + 7 * place * DAY_MS).toISOString(),
    engine,
    instruments: {
      pressureReadingBar: 0.08,
      pressureDivisionBar: 0.1,
      pressureBiasBar: 0.05,
      levelReadingMm: 0.5,
      levelDivisionMm: 0.5,
      feedRelative: 0.02,
      massReadingG: 0.05,
      massDivisionG: 0.01,
      volumeReadingMl: 1,
      volumeDivisionMl: 1,
    },
    ambientC: random.between(8, 24),
    feedC: random.between(8, 20),
    atmosphereHPa: random.whole(995, 1030),
    dryness,
    track: bed.track,
    train: bed.train,
    // a glass that stands high primes
    fillMl: dryness < 1 ? bed.fillMl.high : bed.fillMl.usual,
    fuel: bed.fuel,
    stages: [
      { kind: "raise", untilBarG: 0.8 * workingPressureBarG, atMostS: 1500 },
      { kind: "stand", forS: 150 },
      { kind: "run", forS: 900, stops: { everyS: 300, forS: 40 } },
      { kind: "shut-in", forS: 720 },
    ],
    driver: {
      lightsAtS: 60,
      feed: bed.feed,
      stopBelow: 0.4,
      goAbove: 0.9,
      turnDownAbove: bed.turnDownAbove,
      turnUpBelow: bed.turnUpBelow,
      marginMm: 4,
    },
    observer: {
      levelEveryS: 80,
      pressureEveryS: 60,
      holdEveryS: 60,
      unevenness: 0.3,
      missed: 0.05,
      stampSdS: 1.5,
      readsAtChanges: true,
      marksPhases: true,
      writesRegulator: true,
      writesFill: true,
      drains: false,
      writesFuelRemaining: true,
      laps: "each",
      forgottenLaps: 0.02,
      writesValve: true,
      weighs: false,
      drips: random.chance(0.6) ? [{ fitting: "right-gland", overS: 120 }] : [],
      looksAt: looked,
      traces: [],
      writesPumpFeed: random.chance(0.6),
    },
  };
}
