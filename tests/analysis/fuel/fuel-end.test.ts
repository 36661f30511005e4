import { describe, expect, test } from "vitest";
import { fuelLeft } from "../../../src/analysis/fuel/fuel-end.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { bar, fire, phase } from "../water/water-log.ts";

const fuel = (action: "added" | "remaining", g: number, atS: number): Entry => ({
  kind: "fuel",
  action,
  g,
  atS,
});
const ml = (action: "added" | "remaining", amount: number, atS: number): Entry => ({
  kind: "fuel",
  action,
  ml: amount,
  atS,
});

/** Weights are read to 0.5 g, measures to 1 ml. */
const engine = (of: Partial<Locomotive["fuel"]> = {}): Locomotive => ({
  ...smallEngine(),
  fuel: { kind: "spirit", ...of },
  instruments: { massReadingG: 0.5, volumeReadingMl: 1 },
});
const leftOf = (entries: Entry[], locomotive = engine()) =>
  fuelLeft(sourcesOf(locomotive, { ...smallSteaming(), entries }));
function told(entries: Entry[], locomotive = engine()) {
  const { draining, why } = leftOf(entries, locomotive);
  if (draining === null) throw new Error(why);
  return draining;
}

describe("the fuel as it goes", () => {
  /** 50 g put in, 30 g left ten minutes after lighting: 20 g in 10 min; asked five minutes later. */
  const looked = [
    fuel("added", 50, 0),
    fire("lit", 10),
    phase("running", 10),
    fuel("remaining", 30, 610),
    bar(3, 910),
  ];

  test("goes on as it went until it was looked at: 2 g a minute, 10 g less by now", () => {
    expect(told(looked)).toMatchObject({
      rate: expect.closeTo(2, 9),
      left: expect.closeTo(20, 9),
      degreesOfFreedom: Number.POSITIVE_INFINITY,
    });
  });

  /**
   * left = R - 5 (P - R)/10 = 1.5 R - 0.5 P and rate = (P - R)/10, of R read and P put in, each to 0.5 g. Besides, the fire goes on
   * otherwise by 6 % of 2 g/min, and flickers by 12 % of a minute's fuel times root minutes: over the ten minutes that tell
   * the rate, and over the five since.
   */
  test("each error counts as it enters into what is left and into the rate", () => {
    const read = 0.5 ** 2;
    const flicker = (0.12 * 2) ** 2;
    const another = 0.12 ** 2 + flicker / 10;
    const draining = told(looked);
    expect(draining.rateVariance).toBeCloseTo(2 * read * 0.1 ** 2 + another, 9);
    expect(draining.leftVariance).toBeCloseTo((1.5 ** 2 + 0.5 ** 2) * read + 25 * another + 5 * flicker, 9);
    expect(draining.covariance).toBeCloseTo((-1.5 * 0.1 - 0.5 * 0.1) * read - 5 * another - flicker / 2, 9);
  });

  test("what was in her before the fire is as much as if it were put in then", () => {
    const before = [fuel("added", 5, 0), fuel("remaining", 18, 2), fuel("added", 32, 4), ...looked.slice(1)];
    expect(told(before).rate).toBeCloseTo(2, 9);
    // 18 read and 32 put in, each to 0.5 g: the fives of before are of no account
    const read = 0.5 ** 2;
    expect(told(before).rateVariance - told(looked).rateVariance).toBeCloseTo(read * 0.1 ** 2, 9);
  });

  test("what was put in since the look is left as well, and tells nothing of the rate", () => {
    const filled = [...looked.slice(0, -1), fuel("added", 7, 700), bar(3, 910)];
    expect(told(filled)).toMatchObject({ rate: expect.closeTo(2, 9), left: expect.closeTo(27, 9) });
    const between = [...looked.slice(0, 3), fuel("added", 7, 300), ...looked.slice(3)];
    expect(told(between)).toMatchObject({ rate: expect.closeTo(2.7, 9), left: expect.closeTo(16.5, 9) });
  });

  test("a measure counts by the fuel's density: spirit by the table's, another by its own", () => {
    const inMl = [
      ml("added", 50, 0),
      fire("lit", 10),
      phase("running", 10),
      ml("remaining", 30, 610),
      bar(3, 610),
    ];
    const perMl = told(inMl).left / 30;
    expect(told(inMl).rate).toBeCloseTo(2 * perMl, 9);
    // what is left is what was read, to 1 ml
    expect(told(inMl).leftVariance).toBeCloseTo(perMl ** 2, 9);
    const other = engine({ kind: "other", lowerHeatingValueMJPerKg: 30, densityGPerMl: 0.9 });
    expect(told(inMl, other).left).toBeCloseTo(27, 9);
  });

  test("a gas fire burns three tenths harder while steam is raised, spirit one: ten minutes are 11.5 and 10.5 of running", () => {
    const raised = [
      fuel("added", 50, 0),
      fire("lit", 10),
      phase("raising", 10),
      phase("running", 310),
      fuel("remaining", 27, 610),
      bar(3, 910),
    ];
    const gas = engine({ kind: "butane" });
    expect(told(raised, gas)).toMatchObject({ rate: expect.closeTo(2, 9), left: expect.closeTo(17, 9) });
    expect(told(raised).rate).toBeCloseTo(23 / 10.5, 9);
    const another = (locomotive: Locomotive, share: number) => {
      const { rate, rateVariance } = told(raised, locomotive);
      const minutes = locomotive === gas ? 11.5 : 10.5;
      return (
        rateVariance - (2 * 0.5 ** 2) / minutes ** 2 - (0.12 * rate) ** 2 / minutes - (share * rate) ** 2
      );
    };
    expect(another(gas, 0.12)).toBeCloseTo(0, 9);
    expect(another(engine(), 0.06)).toBeCloseTo(0, 9);
  });

  test("coal burns slower before she runs: 5 min at a half, and standing at 0.3 of it", () => {
    const coal = engine({ kind: "coal", lowerHeatingValueMJPerKg: 30 });
    const entries = (then: "raising" | "standing") => [
      fuel("added", 50, 0),
      fire("lit", 10),
      phase(then, 10),
      phase("running", 310),
      fuel("remaining", 30, 610),
      bar(3, 610),
    ];
    expect(told(entries("raising"), coal).rate).toBeCloseTo(20 / (5 * 0.5 + 5), 9);
    expect(told(entries("standing"), coal).rate).toBeCloseTo(20 / (5 * 0.3 + 5), 9);
  });
});

describe("where it cannot be told when the fuel ends", () => {
  const lit = fire("lit", 10);
  const put = fuel("added", 50, 0);
  test.each<[string, Entry[], Locomotive]>([
    ["not noted as lit", [put, bar(3, 600)], engine()],
    ["the fire is out", [put, lit, fuel("remaining", 30, 500), fire("out", 600)], engine()],
    ["no fuel left was read since lighting", [fuel("remaining", 50, 0), lit, bar(3, 600)], engine()],
    ["nobody noted how much fuel was put in", [lit, fuel("remaining", 30, 600)], engine()],
    ["no less than what was put in", [put, lit, fuel("remaining", 50, 600)], engine()],
    ["should be gone", [put, lit, fuel("remaining", 10, 600), bar(3, 900)], engine()],
    [
      "its density is not known",
      [put, lit, ml("remaining", 30, 600)],
      engine({ kind: "other", lowerHeatingValueMJPerKg: 30 }),
    ],
  ])("it says why: %s", (why, entries, locomotive) => {
    expect(leftOf(entries, locomotive)).toEqual({ draining: null, why: expect.stringContaining(why) });
  });
});
