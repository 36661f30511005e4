import { describe, expect, test } from "vitest";
import { simulateColdHold } from "../../../sample-data/simulator/cold-hold.ts";
import { analyse } from "../../../src/analysis/analyse.ts";
import {
  type Figure,
  isMeasured,
  type Measured,
  standardUncertainty,
} from "../../../src/quantity/measured.ts";
import { enlarged, later, type Recorded } from "../like-steamings.ts";

const figure = (found: Figure | undefined): Measured => {
  if (found === undefined || !isMeasured(found)) throw new Error(`no figure: ${found?.why}`);
  return found;
};
const heldBy = ({ locomotive, steaming }: Recorded) => {
  const { coldHold } = analyse(locomotive, steaming);
  return { ...coldHold, compliance: figure(coldHold?.compliance), leak: figure(coldHold?.leak) };
};
/** Holds of five to twelve strokes; with fewer the air left in the boiler is not told from its springiness. */
const seeds = [501, 502, 504, 506, 508, 510, 511, 514, 516, 519];

describe("hydraulic holds of a boiler whose truth is known", () => {
  test.each(seeds)(
    "seed %i: compliance and leak within four standard uncertainties, and told to some purpose",
    (seed) => {
      const { truth, ...recorded } = simulateColdHold(seed);
      const { compliance, leak } = heldBy(recorded);
      for (const [found, wanted] of [
        [compliance, truth.complianceMlPerBar],
        [leak, truth.leakMlPerMin],
      ] as const)
        expect(Math.abs(found.value - wanted) / standardUncertainty(found)).toBeLessThan(4);
      expect(standardUncertainty(compliance) / truth.complianceMlPerBar).toBeLessThan(0.07);
      // 0.01 ml/min is a drop in five minutes
      expect(standardUncertainty(leak)).toBeLessThan(0.012);
    },
  );

  test.each(seeds)("seed %i: a larger boiler yields and leaks in proportion, at any time of day", (seed) => {
    const recorded = simulateColdHold(seed);
    const small = heldBy(recorded);
    const large = heldBy(enlarged(recorded, 3));
    const late = heldBy(later(recorded, 1000));
    expect(large.temperatureCouldExplain).toBe(small.temperatureCouldExplain);
    expect(late.temperatureCouldExplain).toBe(small.temperatureCouldExplain);
    for (const of of ["compliance", "leak"] as const) {
      expect(large[of].value / small[of].value).toBeCloseTo(3, 6);
      expect(standardUncertainty(large[of]) / standardUncertainty(small[of])).toBeCloseTo(3, 6);
      expect(late[of].value / small[of].value).toBeCloseTo(1, 6);
      expect(standardUncertainty(late[of]) / standardUncertainty(small[of])).toBeCloseTo(1, 6);
    }
  });

  /** What each reading's error does, found out by making it: a tenth of its standard uncertainty at a time. */
  test.each(seeds)("seed %i: errors of reading and of the pump move the leak as its parts say", (seed) => {
    const { locomotive, steaming } = simulateColdHold(seed);
    const right = heldBy({ locomotive, steaming });
    const partOf = (name: string) =>
      Math.hypot(...right.leak.parts.filter((part) => part.name === name).map(({ u }) => u));
    const movedWith = (entries: typeof steaming.entries) =>
      (heldBy({ locomotive, steaming: { ...steaming, entries } }).leak.value - right.leak.value) / 0.1;

    const bar = 0.1 * (locomotive.instruments?.pressureReadingBar ?? Number.NaN);
    const thermometer = steaming.entries.some((entry) => entry.kind === "temperature");
    let [byPressure, byTemperature] = [0, 0];
    steaming.entries.forEach((entry, place) => {
      if (entry.kind === "pressure" || entry.kind === "strokes") {
        const moved = movedWith(steaming.entries.with(place, { ...entry, barG: entry.barG + bar }));
        byPressure = Math.hypot(byPressure, moved);
      }
      if (entry.kind === "temperature") {
        const moved = movedWith(steaming.entries.with(place, { ...entry, celsius: entry.celsius + 0.01 }));
        byTemperature = Math.hypot(byTemperature, moved);
      }
    });
    expect(byPressure / partOf("pressure readings")).toBeGreaterThan(0.7);
    expect(byPressure / partOf("pressure readings")).toBeLessThan(1.3);
    if (!thermometer) return;
    // water swells more the warmer it is: by a tenth over the step that the part is reckoned with
    const asSaid = byTemperature / partOf("temperature of the water");
    expect(asSaid).toBeGreaterThan(0.85);
    expect(asSaid).toBeLessThan(1.15);
  });
});
