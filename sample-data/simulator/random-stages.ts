import type { EnginePlan } from "./nature.ts";
import type { Stage } from "./plan.ts";
import type { Random } from "./random.ts";

/** A usual course of a steaming: raised, run once or twice or only stood, and often shut in hot at the end. */
export function randomStages(engine: EnginePlan, standing: boolean, random: Random): Stage[] {
  const { workingPressureBarG, fuel } = engine.locomotive;
  const stages: Stage[] = [
    { kind: "raise", untilBarG: workingPressureBarG * random.between(0.7, 1), atMostS: 2400 },
  ];
  if (standing) {
    stages.push({ kind: "stand", forS: random.whole(900, 2700) });
  } else {
    if (random.chance(0.5)) stages.push({ kind: "stand", forS: random.whole(60, 600) });
    // half of those who cannot turn the fire off run until it goes out
    const untilFireOut = fuel.kind === "spirit" && random.chance(0.5);
    const runs = untilFireOut ? 1 : random.whole(1, 2);
    for (let i = 0; i < runs; i += 1) {
      const forS = untilFireOut ? 5400 : random.whole(500, 2000);
      const stops = random.chance(0.5)
        ? { everyS: random.whole(150, 500), forS: random.whole(20, 120) }
        : null;
      stages.push({ kind: "run", forS, stops });
      if (i + 1 < runs) stages.push({ kind: "stand", forS: random.whole(90, 500) });
    }
  }
  if (random.chance(0.6)) stages.push({ kind: "shut-in", forS: random.whole(600, 1500) });
  return stages;
}
