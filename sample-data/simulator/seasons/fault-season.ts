import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { coldbrook } from "../engines-spirit.ts";
import type { EngineNature, EnginePlan } from "../nature.ts";
import type { SteamingPlan } from "../plan.ts";
import type { Random } from "../random.ts";
import { simulate } from "../simulate.ts";
import { seasonRandom } from "./leak-season.ts";

/** A fault planted in an engine that was sound; named as the suspects are. */
export const plantedFaults = [
  "gland",
  "regulator",
  "clack",
  "safety valve",
  "blow-by",
  "priming",
  "pump",
] as const;
export type PlantedFault = (typeof plantedFaults)[number];

const leaking = (nature: EngineNature, fitting: string, gPerMin: number): EngineNature => ({
  ...nature,
  leaks: nature.leaks.map((leak) =>
    leak.fitting === fitting ? { ...leak, gPerMinAtWorkingPressure: gPerMin } : leak,
  ),
});

interface Sick {
  nature: EngineNature;
  /** 1 where no water is carried over */
  dryness: number;
}

function planted(fault: PlantedFault | null, nature: EngineNature, random: Random): Sick {
  const { safetyValve, motion } = nature;
  switch (fault) {
    case null:
      return { nature, dryness: 1 };
    case "gland":
      return { nature: leaking(nature, "right-gland", random.between(1, 2.5)), dryness: 1 };
    case "regulator":
      return { nature: leaking(nature, "regulator", random.between(0.8, 2.2)), dryness: 1 };
    case "clack":
      return { nature: leaking(nature, "clack", random.between(1, 3)), dryness: 1 };
    case "safety valve":
      return {
        nature: {
          ...leaking(nature, "safety-valve", random.between(0.2, 1)),
          safetyValve: {
            ...safetyValve,
            liftBarG: safetyValve.liftBarG * random.between(0.86, 0.93),
            reseatBarG: safetyValve.reseatBarG * random.between(0.78, 0.88),
          },
        },
        dryness: 1,
      };
    case "blow-by":
      return {
        nature: { ...nature, motion: { ...motion, excess: motion.excess + random.between(0.8, 1.6) } },
        dryness: 1,
      };
    case "priming":
      return { nature, dryness: random.between(0.55, 0.8) };
    case "pump":
      return {
        nature: { ...nature, pumpEfficiency: nature.pumpEfficiency * random.between(0.25, 0.6) },
        dryness: 1,
      };
  }
}

export interface FaultSeason {
  locomotive: Locomotive;
  steamings: Steaming[];
}

/** Sound outings of one engine, and then some with the fault in it; only what was written down. */
export function faultSeason(
  fault: PlantedFault | null,
  seed: number,
  counts = { sound: 5, faulty: 3 },
): FaultSeason {
  const random = seasonRandom(seed, `fault ${fault ?? "none"}`);
  const whole = coldbrook;
  const sick = planted(fault, whole.nature, random);
  const outings = [
    ...soundOutings(seed, counts.sound),
    ...Array.from({ length: counts.faulty }, (_, i) =>
      outing({ ...whole, nature: sick.nature }, sick.dryness, counts.sound + i, seed, random),
    ),
  ];
  const [first] = outings;
  if (first === undefined) throw new RangeError("faultSeason: no outings were asked for, wanted one or more");
  return { locomotive: first.locomotive, steamings: outings.map(({ steaming }) => steaming) };
}

const known = new Map<string, { locomotive: Locomotive; steaming: Steaming }[]>();

/** The same sound outings serve every fault of a seed. */
function soundOutings(seed: number, count: number) {
  const key = `${seed} ${count}`;
  const made =
    known.get(key) ??
    Array.from({ length: count }, (_, i) => outing(coldbrook, 1, i, seed, seasonRandom(seed, `sound ${i}`)));
  known.set(key, made);
  return made;
}

const DAY_MS = 86_400_000;

function outing(engine: EnginePlan, dryness: number, place: number, seed: number, random: Random) {
  const { locomotive, steaming } = simulate(planFor(engine, dryness, place, random), seed * 100 + place);
  const { conditions, ...rest } = steaming;
  if (conditions === undefined) return { locomotive, steaming };
  // nobody knows that she primes
  const { dryness: _unknown, ...told } = conditions;
  return { locomotive, steaming: { ...rest, conditions: told } };
}

function planFor(engine: EnginePlan, dryness: number, place: number, random: Random): SteamingPlan {
  const { boiler, workingPressureBarG } = engine.locomotive;
  const span = boiler.highestLevelMm - boiler.lowestLevelMm;
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
    track: { lapM: 30 },
    train: { massKg: 6 },
    fillMl: fillFor(dryness),
    fuel: { by: "ml", first: 125, portions: null },
    stages: [
      { kind: "raise", untilBarG: 0.8 * workingPressureBarG, atMostS: 1500 },
      { kind: "stand", forS: 150 },
      { kind: "run", forS: 900, stops: { everyS: 300, forS: 40 } },
      { kind: "shut-in", forS: 720 },
    ],
    driver: {
      lightsAtS: 60,
      feed: {
        by: "axle-pump",
        belowMm: boiler.lowestLevelMm + 0.6 * span,
        aboveMm: boiler.lowestLevelMm + 0.9 * span,
        each: 0,
        mlPerS: 0,
        mostMl: 2000,
        onlyStanding: false,
      },
      stopBelow: 0.4,
      goAbove: 0.9,
      turnDownAbove: 2,
      turnUpBelow: 0,
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

/** A glass that stands high primes; otherwise cold water for a little less than four fifths of the glass. */
const fillFor = (dryness: number): number => (dryness < 1 ? 248 : 232);
