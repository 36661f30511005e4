import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { fedUntil, grew, toppingUpOf } from "../../../src/analysis/water/topping-up.ts";
import { boilerGeometry } from "../../../src/boiler/geometry.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { interval, isMeasured } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { move, reading } from "./balance-by-hand.ts";

const level = (mm: number, atS: number): Entry => ({ kind: "level", mm, atS });
const bar = (barG: number, atS: number): Entry => ({ kind: "pressure", barG, atS });
const mlAt = (mm: number) => 1e6 * boilerGeometry(smallEngine().boiler).waterM3AtLevelMm(mm);

/** A cold boiler with the glass at 20 mm, raised to 3 bar; the driver wrote down so much as filled. */
const steamingFilled = (ml: number, levels: readonly Entry[]) =>
  analyse(smallEngine(), {
    ...smallSteaming(),
    entries: [
      { kind: "fill", ml, atS: 0, id: "fill" },
      ...levels,
      { kind: "fire", state: "lit", atS: 20 },
      bar(0, 20),
      bar(3, 400),
      { kind: "phase", name: "running", atS: 420 },
      level(18, 420),
      level(13, 720),
      level(8, 1020),
      bar(3, 1020),
    ],
  });
const twice = [level(20, 5), level(20, 12)].map((entry, i) => ({ ...entry, id: `glass ${i}` }));

test("a filling on top of water that was in already is set aside, and said: the glass tells the water", () => {
  const all = mlAt(20);
  const topped = steamingFilled(all / 2, twice);
  const without = steamingFilled(all, twice);
  for (const of of ["minutesToLowest", "waterAboveLowest"] as const) {
    const [one, other] = [topped.forecast?.[of], without.forecast?.[of]];
    if (one === undefined || other === undefined || !isMeasured(one) || !isMeasured(other))
      throw new Error("no figure");
    expect(one.value / other.value).toBeCloseTo(1, 1);
  }
  const said = topped.warnings.find(({ code }) => code === "filled-on-top");
  expect(said?.entries).toEqual(["fill", "glass 0", "glass 1"]);
  expect(said?.text).toMatch(new RegExp(`about ${Math.round(all / 2)} g more`));
  expect(topped.warnings.map(({ code }) => code)).not.toContain("level-rising");
  const waterDrawn = topped.totals?.waterDrawn ?? null;
  expect(waterDrawn !== null && isMeasured(waterDrawn) && interval(waterDrawn)[0]).toBeGreaterThan(0);
});

test("a filling that the glass bears out stays, and so does one that a single reading speaks against", () => {
  const all = mlAt(20);
  for (const [ml, levels] of [
    [all, twice],
    [0.98 * all, twice],
    [all, [level(22, 12)]],
  ] as const)
    expect(steamingFilled(ml, levels).warnings.map(({ code }) => code)).not.toContain("filled-on-top");
});

describe("between two readings", () => {
  const none = { moves: [], pumpingS: null, pumpPrior: { gPerS: 0, uGPerS: 0 } };
  const [before, now] = [reading(100, 100), reading(300, 100)];
  const put = (...moves: ReturnType<typeof move>[]) => {
    const input = { ...none, moves };
    return fedUntil(input, now).putInAtMost - fedUntil(input, before).putIn;
  };

  test("was put in what was moved since the first, and what is written down within a minute and a half of the second", () => {
    const early = move(50, 30);
    expect(put(early)).toBe(0);
    expect(put(early, move(200, 20))).toBe(20);
    expect(put(early, move(200, 20), move(390, 15))).toBe(35);
    expect(put(early, move(200, 20), move(391, 15))).toBe(20);
    // what is let out after the reading makes no rise of it
    expect(put(early, move(200, 20), move(350, -10))).toBe(20);
  });

  // own errors of 1 and 2 g, 5 - 2 g of a shared one and 1 g of another: root 15 g; five of them, and 2 % of what is there
  test("the boiler's water grew by more than five of their errors and a fiftieth of itself", () => {
    const shared = (source: string, uGrams: number) => ({ source, name: source, uGrams });
    const first = reading(100, 100, { uGrams: 1, shared: [shared("boiler", 2)] });
    const grown = (by: number, input: Parameters<typeof fedUntil>[0] = none) =>
      grew(
        fedUntil(input, first),
        fedUntil(
          input,
          reading(300, 100 + by, { uGrams: 2, shared: [shared("boiler", 5), shared("dial", 1)] }),
        ),
      );
    const limit = (5 * Math.sqrt(15) + 2) / 0.98;
    expect(grown(limit + 0.01)).toBe(true);
    expect(grown(limit - 0.01)).toBe(false);
    // beside 100 g put in, of which 3 g are in doubt
    const fed = { ...none, moves: [move(200, 100)] };
    const beside = (100 + 5 * Math.sqrt(15 + 9) + 2) / 0.98;
    expect(grown(beside + 0.01, fed)).toBe(true);
    expect(grown(beside - 0.01, fed)).toBe(false);
  });
});

describe("a first filling that went on top of other water", () => {
  const none = { moves: [], pumpingS: null, pumpPrior: { gPerS: 0, uGPerS: 0 } };
  const filling = reading(0, 100, { poured: true });
  const [low, high, higher] = [reading(10, 100), reading(20, 200), reading(30, 210)];
  const told = (...readings: ReturnType<typeof reading>[]) => toppingUpOf({ ...none, readings });

  test("is one above which both of the next two readings stand", () => {
    expect(told(filling, high, higher)).toEqual({ filling, readings: [high, higher] });
    const weighed = reading(15, 2000, { of: "whole engine" });
    expect(told(weighed, filling, { ...weighed, atS: 16 }, high, higher)?.readings).toEqual([high, higher]);
  });

  test("is none where one of the two does not, was itself poured, or is wanting", () => {
    expect(told(filling, low, higher)).toBeNull();
    expect(told(filling, high, { ...low, atS: 30 })).toBeNull();
    expect(told(filling, high, { ...higher, poured: true })).toBeNull();
    expect(told(filling, high)).toBeNull();
    expect(told(filling)).toBeNull();
    expect(told()).toBeNull();
  });

  test("is none where the boiler was not filled first", () => {
    expect(told(low, high, higher)).toBeNull();
  });
});
