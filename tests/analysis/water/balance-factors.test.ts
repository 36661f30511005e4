import { describe, expect, test } from "vitest";
import {
  type Combination,
  errorFactors,
  type Factor,
  recordedMoves,
} from "../../../src/analysis/water/balance-factors.ts";
import { waterBalance } from "../../../src/analysis/water/water-balance.ts";
import { standardUncertainty } from "../../../src/quantity/measured.ts";
import {
  balanceInput,
  drawnBetween,
  estimated,
  move,
  partNamed,
  rateWithin,
  reading,
  STEADY,
  standingAt,
} from "./balance-by-hand.ts";

/** 2 g/s drawn on the whole, 500 g in all. */
const factorsOf = (...given: Parameters<typeof balanceInput>) => errorFactors(balanceInput(...given), 2, 500);
const glass = [reading(0, 2000), reading(400, 1600, { uGrams: 3 }), reading(1000, 1500)];
const only = (factors: readonly Factor[], which: (factor: Factor) => boolean): Factor => {
  const [first, ...rest] = factors.filter(which);
  if (first === undefined || rest.length > 0) throw new Error(`wanted one cause, got ${rest.length + 1}`);
  return first;
};
const seen = ({ ofReadings }: Factor) => [...ofReadings];
const standing = (atS: number): Combination => ({ unit: "g", ...standingAt(atS) });
const drawn = (fromS: number, toS: number): Combination => ({ unit: "g", ...drawnBetween(fromS, toS) });

describe("causes of error of the water balance", () => {
  test("where it begins is open by ten of the coarsest reading errors and all that was drawn", () => {
    const [ofGlass, ofEngine] = factorsOf([...glass, reading(1000, 9000, { of: "whole engine" })]);
    expect(ofGlass && seen(ofGlass)).toEqual([530, 530, 530, 0]);
    expect(ofEngine && seen(ofEngine)).toEqual([0, 0, 0, 530]);
    // what stands in her begins with the glass, whatever her weight
    expect([ofGlass?.ofWanted(standing(700)), ofEngine?.ofWanted(standing(700))]).toEqual([530, 0]);
    expect(ofGlass?.ofWanted(drawn(0, 700))).toBe(0);
  });

  test("a steady rate takes from what stands in her, from the first reading on and before it", () => {
    const late = glass.map((one) => ({ ...one, atS: one.atS + 100 }));
    const rate = only(
      factorsOf(late, { effects: [rateWithin(0, 300, 3)] }),
      ({ timesUsual }) => timesUsual === 3,
    );
    // 3 x 2 g/s from 100 to 300 s
    expect(seen(rate)).toEqual([-0, -1200, -1200]);
    expect(rate.ofWanted(drawn(100, 200))).toBe(600);
    expect(rate.ofWanted(drawn(50, 100))).toBe(300);
    expect(rate.ofWanted(standing(200))).toBe(-600);
    expect(rate.ofWanted(standing(50))).toBe(300);
    expect(rate.kind).toBe("prior");
  });

  test("a demand of known size is an error under its own name, and nothing that the readings must fix", () => {
    const cold = { ...rateWithin(0, 300, 1), name: "cold cylinders", isError: true as const };
    const [error, ...rest] = factorsOf(glass, { effects: [cold] }).filter(({ kind }) => kind === "random");
    expect(rest).toEqual([]);
    expect(error).toMatchObject({ name: "cold cylinders" });
    expect(error?.ofWanted(drawn(100, 200))).toBe(200);
  });

  test("feeds of one scale err together, those of another by themselves", () => {
    const moves = [
      move(100, 40, { scaleRelative: 0.02 }),
      move(200, 60, { scaleRelative: 0.05, source: "hand pump", sourceName: "hand pump's ml a stroke" }),
      move(500, 100, { scaleRelative: 0.02 }),
    ];
    const shared = factorsOf(glass, { moves }).filter(({ kind }) => kind === "shared");
    expect(shared.map(({ source, name }) => [source, name])).toEqual([
      ["feed scale", "scale of the feed measure"],
      ["hand pump", "hand pump's ml a stroke"],
    ]);
    expect(shared.map(seen)).toEqual([
      [0, 0.8, 2.8],
      [0, 3, 3],
    ]);
    expect(shared.map((factor) => factor.ofWanted(standing(300)))).toEqual([0.8, 3]);
    expect(shared.map((factor) => factor.ofWanted(drawn(0, 1000)))).toEqual([0, 0]);
  });

  test("each measure errs by itself, and one without an error of its own is none", () => {
    const moves = [move(100, 40, { uGrams: 2 }), move(200, 40), move(500, 40, { uGrams: 3 })];
    const each = factorsOf(glass, { moves }).filter(({ name }) => name === "each measure of feed");
    expect(each.map(seen)).toEqual([
      [0, 2, 2],
      [0, 0, 3],
    ]);
    expect(each.map((factor) => factor.ofWanted(standing(300)))).toEqual([2, 0]);
    expect(each.every(({ kind }) => kind === "random")).toBe(true);
  });

  // half flowed by 400 s, all by 800 s: 4 x share x rest of 5 g
  test("a pump's feed may have flowed early or late while it was under way", () => {
    const moves = [move(800, 40, { over: [[0, 800]], uTimingG: 5 }), move(900, 40, { over: [[800, 900]] })];
    const timing = only(factorsOf(glass, { moves }), ({ name }) => name === "when the pump fed");
    expect(seen(timing)).toEqual([0, 5, 0]);
    expect(timing.ofWanted(standing(200))).toBeCloseTo(3.75, 9);
    expect(timing.ofWanted(drawn(0, 400))).toBe(0);
  });

  test("a weighing sees neither what changes its place on the engine nor that error", () => {
    const both = [reading(0, 2000), reading(1000, 1500), reading(1000, 9000, { of: "whole engine" })];
    const within = {
      fromOutside: false,
      scaleRelative: 0.1,
      uGrams: 2,
      over: [[0, 2000]] as const,
      uTimingG: 5,
    };
    const factors = factorsOf(both, { moves: [move(2000, 40, within)] });
    const named = (name: string) => seen(only(factors, (factor) => factor.name === name));
    expect(named("scale of the feed measure")).toEqual([0, 2, 0]);
    expect(named("each measure of feed")).toEqual([0, 1, 0]);
    expect(named("when the pump fed")).toEqual([0, 5, 0]);
  });

  test("a pump that nobody measured delivers into the boiler, and is no weight", () => {
    const both = [...glass, reading(1000, 9000, { of: "whole engine" })];
    const pumping = {
      pumpingS: (atS: number) => Math.max(0, atS - 300),
      pumpPrior: { gPerS: 0.5, uGPerS: 0.2 },
    };
    const pump = only(factorsOf(both, pumping), ({ name }) => name === "delivery of the axle pump");
    expect(seen(pump)).toEqual([0, 20, 140, 0].map((grams) => expect.closeTo(grams, 9)));
    expect(pump.ofWanted(standing(400))).toBeCloseTo(20, 9);
    expect(pump.ofWanted({ unit: "g", pumpRate: 60 })).toBeCloseTo(12, 9);
    expect(recordedMoves(balanceInput(both, pumping), { atS: 400 })).toBeCloseTo(50, 9);
    expect(recordedMoves(balanceInput(both, pumping), { atS: 400, of: "whole engine" })).toBe(0);
    expect(factorsOf(glass).some(({ name }) => name === pump.name)).toBe(false);
  });

  test("what readings share moves each of them by its own amount, by source", () => {
    const shared = [
      reading(0, 2000, {
        shared: [
          { source: "dial", name: "bias", uGrams: 2 },
          { source: "volume", name: "size", uGrams: 5 },
        ],
      }),
      reading(900, 1000, { shared: [{ source: "volume", name: "size", uGrams: -3 }] }),
    ];
    const found = factorsOf(shared).filter(({ kind }) => kind === "shared");
    expect(
      found.map(({ source, name, ...factor }) => [source, name, seen({ source, name, ...factor })]),
    ).toEqual([
      ["dial", "bias", [2, 0]],
      ["volume", "size", [5, -3]],
    ]);
    expect(found.map((factor) => factor.ofWanted(standing(100)))).toEqual([0, 0]);
  });
});

describe("weighings alone", () => {
  const weighed = [reading(0, 9000, { of: "whole engine" }), reading(1000, 8000, { of: "whole engine" })];
  const balance = waterBalance(balanceInput(weighed), STEADY);

  test("tell what was drawn and how far the water fell, and not what stands in her", () => {
    expect(estimated(balance, drawnBetween(0, 1000)).value).toBeCloseTo(1000, 2);
    expect(
      estimated(balance, {
        contents: [
          [1000, 1],
          [0, -1],
        ],
      }).value,
    ).toBeCloseTo(-1000, 2);
    expect(balance?.estimate({ unit: "g", ...standingAt(500) })).toBeNull();
  });
});

describe("what stands in her after the last reading", () => {
  // fed after it: 2 % of 200 g, and 3 g of the one measure, beside the last reading and the line's own doubt
  test("is in doubt by what was fed since", () => {
    const since = [move(1100, 200, { scaleRelative: 0.02, uGrams: 3 })];
    const two = [reading(0, 2000), reading(1000, 1000)];
    const [fed, unfed] = [since, []].map((moves) =>
      estimated(waterBalance(balanceInput(two, { moves }), STEADY), standingAt(1200)),
    );
    if (fed === undefined || unfed === undefined) throw new Error("no figure");
    expect(fed.value - unfed.value).toBeCloseTo(200, 6);
    expect(Math.sqrt(standardUncertainty(fed) ** 2 - standardUncertainty(unfed) ** 2)).toBeCloseTo(5, 2);
    expect(partNamed(fed, "scale of the feed measure")).toBeCloseTo(4, 6);
  });
});
