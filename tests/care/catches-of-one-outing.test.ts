import { describe, expect, test } from "vitest";
import { careOf } from "../../src/care/care.ts";
import type { FittingCare } from "../../src/care/fitting-care.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import { drip, engineWith, outing, recordsOf } from "./season-logbook.ts";

const engine = engineWith([{ id: "gland", name: "Gland", kind: "gland", limitGPerMin: 0.5 }]);
const at = (gPerMin: number, atS: number): Entry => ({ ...drip("gland", gPerMin), atS });

function after(weeks: readonly Entry[][]): FittingCare {
  const steamings = weeks.map((entries, week) => outing(week, entries));
  const [care] = careOf(engine, recordsOf(engine, steamings), []).fittings;
  if (care === undefined) throw new Error("no fitting came back");
  return care;
}
const width = ({ leak }: FittingCare) => (leak?.levelNow.high80 ?? 0) - (leak?.levelNow.low80 ?? 0);

describe("catches of one outing, minutes apart", () => {
  const once = after([[at(0.21, 900)]]);
  const thrice = after([[at(0.2, 900), at(0.22, 1080), at(0.21, 1260)]]);

  test("are one level, no less sure than one of them alone", () => {
    expect(thrice.leak?.levelNow.value).toBeCloseTo(0.21, 1);
    expect(width(thrice)).toBeLessThanOrEqual(width(once));
    expect(thrice).toMatchObject({ state: "sound", readings: 3, sure: "hardly sure" });
  });

  test("show no trend and no time to the limit, and a steaming more is asked for", () => {
    const risen = after([[at(0.2, 600), at(0.25, 800), at(0.3, 1000), at(0.35, 1200), at(0.4, 1400)]]);
    expect(risen.leak).toMatchObject({
      slope: { value: null },
      hoursToLimit: { value: null },
      rising: null,
      jump: null,
      step: null,
    });
    expect(risen.why).toContain("5 catches in 1.0 h in steam, too near together for a trend");
    expect(risen.measureNext).toContain("a trend wants more than one outing");
  });

  test("that do not agree leave more open than the ones that do", () => {
    expect(width(after([[at(0.05, 900), at(0.4, 1080), at(0.18, 1260)]]))).toBeGreaterThan(2 * width(thrice));
  });

  test("hours apart show no trend either, before a second outing", () => {
    const long = after([[at(0.1, 100), at(0.2, 2000), at(0.3, 3600)]]);
    expect(long.leak).toMatchObject({ slope: { value: null }, hoursToLimit: { value: null } });
  });

  test("are counted with those of the outings after, one level each", () => {
    const twice = (level: number) => [at(level, 900), at(level, 1080)];
    const care = after([0.1, 0.2, 0.3, 0.4].map(twice));
    expect(care.leak?.points).toHaveLength(4);
    expect(care.leak?.slope.value).toBeCloseTo(0.1, 2);
    expect(care.why).toContain("8 catches in 4.0 h in steam");
  });

  test("the last of them may by itself be over the limit beyond doubt", () => {
    expect(after([[at(0.1, 900), at(1.2, 1200)]]).state).toBe("attend");
  });
});

describe("a catch of whole grams", () => {
  const first = (g: number) => after([[{ kind: "drip", fitting: "gland", g, overS: 120, atS: 2000 }]]);

  test("is weighed no worse than its neighbours: one or two show no step of the scale", () => {
    const states = [3.9, 4, 4.1].map((g) => first(g).state);
    expect(states).toEqual(["attend", "attend", "attend"]);
    const u = [3.9, 4, 4.1].map((g) => first(g).evidence.drips[0]?.u ?? 0);
    // the doubt of the pressure grows with what was caught, and the weighing is the same
    expect([...u].sort((a, b) => a - b)).toEqual(u);
  });

  test("time after time shows a scale of whole grams", () => {
    const coarse = after(
      [2, 4, 3].map((g) => [{ kind: "drip", fitting: "gland", g, overS: 120, atS: 2000 }]),
    );
    // 1 g in two minutes
    expect(coarse.evidence.drips[0]?.u).toBeCloseTo(0.5, 2);
  });

  test("that is over the limit, though not surely, is said to be", () => {
    const care = first(1.1);
    expect(care.state).toBe("watch");
    expect(care.why).toContain("over it, but not surely enough to take it apart; chance that it is over:");
  });
});
