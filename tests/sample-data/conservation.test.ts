import { describe, expect, it } from "vitest";
import { dayOf } from "../../sample-data/simulator/day.ts";
import { curveAt } from "../../sample-data/simulator/ledger.ts";
import { randomPlan } from "../../sample-data/simulator/random-plan.ts";
import { simulate } from "../../sample-data/simulator/simulate.ts";
import { heatBetween } from "../../sample-data/simulator/truth-windows.ts";
import { boilerContents } from "../../src/boiler/contents.ts";

const seeds = Array.from({ length: 24 }, (_, i) => 500 + i);
const runs = seeds.map((seed) => {
  const plan = randomPlan(seed);
  return { seed, plan, ...simulate(plan, seed) };
});

describe("what goes in, out and stays", () => {
  it.each(runs)("closes for mass and energy to 1e-9 of what went through (seed $seed)", ({ truth }) => {
    expect(Math.abs(truth.residuals.mass)).toBeLessThan(1e-9);
    expect(Math.abs(truth.residuals.energy)).toBeLessThan(1e-9);
  });

  it.each(runs)("sums to what was drawn, stream by stream and leak by leak (seed $seed)", ({ truth }) => {
    const end = (name: keyof typeof truth.curves) => truth.curves[name].at(-1) ?? Number.NaN;
    const parts = end("engineG") + end("leaksG") + end("safetyValveG") + end("blowerG");
    expect(Math.abs(parts / end("drawnG") - 1)).toBeLessThan(1e-9);
  });

  it.each(runs)(
    "agrees with the boiler's contents reckoned from pressure and water level (seed $seed)",
    (run) => {
      const { plan, seed, truth } = run;
      const { vessel, atmospherePa } = dayOf(plan, seed);
      const { curves } = truth;
      const offsetsJ: number[] = [];
      for (let s = 0; s < truth.endS; s += 37) {
        const pressureBarG = curves.pressureBarG[s] ?? Number.NaN;
        if (pressureBarG < 0.01) continue;
        const contents = boilerContents({
          totalM3: vessel.totalM3,
          waterM3: curves.waterM3[s] ?? Number.NaN,
          pressurePa: pressureBarG * 1e5 + atmospherePa,
          metalHeatCapacityJPerK: vessel.metalJPerK,
        });
        // the table's own error, 1e-9, grown by T(p) and by the difference of large numbers
        expect(
          Math.abs(((contents.waterKg + contents.steamKg) * 1000) / (curves.massG[s] ?? 0) - 1),
        ).toBeLessThan(1e-7);
        offsetsJ.push((contents.energyJ - (curves.storedJ[s] ?? 0)) / contents.energyJ);
      }
      expect(offsetsJ.length).toBeGreaterThan(5);
      for (const offset of offsetsJ) expect(Math.abs(offset)).toBeLessThan(1e-7);
    },
  );

  it.each(runs)(
    "makes useful heat of the fire's heat less the surface's loss (seed $seed)",
    ({ truth, locomotive }) => {
      const lowerHeating = (locomotive.fuel.lowerHeatingValueMJPerKg ?? 0) * 1e6;
      const [fromS, toS] = [truth.raising.litAtS, truth.endS];
      const heat = heatBetween(truth, lowerHeating, fromS, toS);
      const moved = (name: "fireJ" | "lossJ") =>
        curveAt(truth.curves[name], toS) - curveAt(truth.curves[name], fromS);
      expect(Math.abs((moved("fireJ") - moved("lossJ")) / heat.usefulJ - 1)).toBeLessThan(1e-8);
      expect(heat.efficiency).toBeGreaterThan(0.05);
      expect(heat.efficiency).toBeLessThan(0.7);
    },
  );
});
