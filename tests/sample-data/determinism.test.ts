import { describe, expect, it } from "vitest";
import { randomPlan } from "../../sample-data/simulator/random-plan.ts";
import { simulate } from "../../sample-data/simulator/simulate.ts";

describe("a seed", () => {
  it("gives the same plan, entries and truth again", () => {
    for (const seed of [1, 77, 123_456_789]) {
      expect(randomPlan(seed)).toEqual(randomPlan(seed));
      expect(simulate(randomPlan(seed), seed)).toEqual(simulate(randomPlan(seed), seed));
    }
  });

  it("gives another steaming when it is another", () => {
    const plan = randomPlan(3);
    expect(simulate(plan, 4).truth.curves.massG).not.toEqual(simulate(plan, 3).truth.curves.massG);
  });

  it("keeps what happened the same however it is watched", () => {
    const plan = randomPlan(9);
    const closer = {
      ...plan,
      observer: { ...plan.observer, pressureEveryS: 15, levelEveryS: 20, missed: 0 },
    };
    const [before, after] = [simulate(plan, 9), simulate(closer, 9)];
    expect(after.truth.curves).toEqual(before.truth.curves);
    expect(after.steaming.entries.length).toBeGreaterThan(before.steaming.entries.length);
  });
});
