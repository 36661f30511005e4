import type { SteamingPlan } from "../plan.ts";
import { randomOf } from "../random.ts";
import { randomPlan } from "../random-plan.ts";
import { randomStages } from "../random-stages.ts";
import { rounded } from "../readings.ts";

const WEEK_MS = 7 * 86_400_000;
const FIRST_MS = Date.UTC(2026, 3, 4, 13);
/** Against the train of the first day, where an owner has several. */
const TRAINS = [0.5, 0.75, 1, 1.25, 1.5] as const;

/**
 * Outings of one engine by one owner on one track, drawn by chance: engine, measures, habits of driver and observer stay;
 * weather, course and (with every second owner who has one) the train change.
 * @returns null where the engine of this seed only stood
 */
export function ownerSeason(seed: number, count: number): SteamingPlan[] | null {
  const usual = randomPlan(seed);
  if (usual.purpose !== "trial" || usual.track === null) return null;
  const severalTrains = randomOf(seed, "owner").chance(0.5);
  return Array.from({ length: count }, (_, place) => {
    const random = randomOf(seed, `outing ${place}`);
    const train =
      usual.train === null || !severalTrains
        ? usual.train
        : { ...usual.train, massKg: rounded(usual.train.massKg * random.pick(TRAINS), 0.1) };
    return {
      ...usual,
      id: `season-${seed}-${place + 1}`,
      startedAt: new Date(FIRST_MS + place * WEEK_MS).toISOString(),
      measuresSeed: seed,
      ambientC: rounded(random.between(4, 28), 0.5),
      feedC: rounded(random.between(8, 25), 0.5),
      atmosphereHPa: random.whole(985, 1032),
      train,
      stages: randomStages(usual.engine, false, random),
    };
  });
}
