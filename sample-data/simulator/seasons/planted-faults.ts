import type { EngineNature } from "../nature.ts";
import type { Random } from "../random.ts";

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

/** An engine with something the matter. */
export interface Sick {
  nature: EngineNature;
  /** 1 where no water is carried over */
  dryness: number;
}

const leaking = (nature: EngineNature, fitting: string, gPerMin: number): EngineNature => ({
  ...nature,
  leaks: nature.leaks.map((leak) =>
    leak.fitting === fitting ? { ...leak, gPerMinAtWorkingPressure: gPerMin } : leak,
  ),
});

/** @param leakScale leaks of a small engine are smaller; 1 for one that takes about 10 g of steam a minute */
export function planted(
  fault: PlantedFault | null,
  nature: EngineNature,
  leakScale: number,
  random: Random,
): Sick {
  const { safetyValve, motion } = nature;
  const leak = (fitting: string, least: number, most: number) =>
    leaking(nature, fitting, leakScale * random.between(least, most));
  switch (fault) {
    case null:
      return { nature, dryness: 1 };
    case "gland":
      return { nature: leak("right-gland", 1, 2.5), dryness: 1 };
    case "regulator":
      return { nature: leak("regulator", 0.8, 2.2), dryness: 1 };
    case "clack":
      return { nature: leak("clack", 1, 3), dryness: 1 };
    case "safety valve":
      return {
        nature: {
          ...leak("safety-valve", 0.2, 1),
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
