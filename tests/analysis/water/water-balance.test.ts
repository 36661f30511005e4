import { describe, expect, test } from "vitest";
import { waterBalance } from "../../../src/analysis/water/water-balance.ts";
import { standardUncertainty } from "../../../src/quantity/measured.ts";
import {
  balanceInput,
  drawnBetween,
  estimated,
  move,
  NOT_STEADY,
  near,
  partNamed,
  rateWithin,
  reading,
  STEADY,
  standingAt,
} from "./balance-by-hand.ts";

describe("two readings of the water", () => {
  const two = [reading(100, 2000, { uGrams: 3 }), reading(1100, 1000, { uGrams: 4 })];

  test("what was drawn is what went, with both reading errors", () => {
    const balance = waterBalance(balanceInput(two), STEADY);
    const drawn = estimated(balance, drawnBetween(100, 1100));
    near(drawn.value, 1000, 1e-6);
    expect(drawn.unit).toBe("g");
    near(standardUncertainty(drawn), 5);
    near(partNamed(drawn, "readings"), 5);
    expect([balance?.fromS, balance?.toS]).toEqual([100, 1100]);
  });

  test("and what was put in between; what was before or after makes no difference", () => {
    const moves = [move(50, 500), move(600, 300, { scaleRelative: 0.02, uGrams: 2 }), move(1200, 700)];
    const balance = waterBalance(balanceInput(two, { moves }), STEADY);
    const drawn = estimated(balance, drawnBetween(100, 1100));
    near(drawn.value, 1300, 1e-6);
    near(standardUncertainty(drawn), Math.hypot(3, 4, 6, 2));
    near(partNamed(drawn, "each measure of feed"), 2);
    // had the measure given more than it says, more was drawn
    const scale = drawn.parts.find((part) => part.source === "feed scale");
    near(scale?.u ?? 0, 6);
    expect(scale?.name).toBe("scale of the feed measure");
  });

  test("between them water stands on the straight line, and what is fed stands on top of it", () => {
    const balance = waterBalance(balanceInput(two, { moves: [move(600, 300)] }), STEADY);
    near(estimated(balance, standingAt(100)).value, 2000, 1e-6);
    near(estimated(balance, standingAt(350)).value, 2000 - 325, 1e-6);
    near(estimated(balance, standingAt(850)).value, 2000 - 975 + 300, 1e-6);
    near(estimated(balance, standingAt(1350)).value, 1000 - 325, 1e-6);
    near(estimated(balance, standingAt(0)).value, 2000 + 130, 1e-6);
    near(standardUncertainty(estimated(balance, standingAt(600))), 2.5);
    near(partNamed(estimated(balance, standingAt(1100)), "readings"), 4);
  });

  test("a combination is one figure: coefficients count, and what is asked twice is not two", () => {
    const balance = waterBalance(balanceInput(two), STEADY);
    const rise = estimated(balance, {
      contents: [
        [1100, 2],
        [100, -2],
      ],
    });
    near(rise.value, -2000, 1e-6);
    near(standardUncertainty(rise), 10);
    // all that stood there at the start was drawn or stands there still: no doubt but of the start
    const closed = estimated(balance, {
      contents: [[1100, 1]],
      drawn: [
        [1100, 1],
        [100, -1],
      ],
    });
    near(closed.value, 2000, 1e-6);
    near(standardUncertainty(closed), 3);
  });

  test("systematic errors of the readings: what both share cancels as far as it is alike", () => {
    const shared = (uGrams: number) => ({ shared: [{ source: "dial", name: "bias of the dial", uGrams }] });
    const biased = [reading(0, 2000, shared(7)), reading(1000, 1000, shared(5))];
    const balance = waterBalance(balanceInput(biased), STEADY);
    const part = estimated(balance, drawnBetween(0, 1000)).parts.find(({ source }) => source === "dial");
    // were the readings too high by 7 and 5 g, 2 g fewer were drawn than they say
    near(part?.u ?? 0, -2);
    expect(part?.name).toBe("bias of the dial");
    const swapped = [reading(0, 2000, shared(5)), reading(1000, 1000, shared(7))];
    const other = estimated(waterBalance(balanceInput(swapped), STEADY), drawnBetween(0, 1000));
    near(other.parts.find(({ source }) => source === "dial")?.u ?? 0, 2);
  });

  test("one reading, or none, makes no balance", () => {
    expect(waterBalance(balanceInput(two.slice(0, 1)), STEADY)).toBeNull();
    expect(waterBalance(balanceInput([]), STEADY)).toBeNull();
  });

  // the least error that is reckoned with: a hundred-thousandth of what was drawn
  test("readings without an error still give a figure", () => {
    const faultless = two.map((one) => ({ ...one, uGrams: 0 }));
    const drawn = estimated(waterBalance(balanceInput(faultless), STEADY), drawnBetween(100, 1100));
    near(drawn.value, 1000, 1e-6);
    near(partNamed(drawn, "readings"), Math.SQRT2 * 0.01, 0.01);
  });

  test("the mean rate is that of what was drawn, and no less than the readings could tell apart", () => {
    expect(waterBalance(balanceInput(two), STEADY)?.meanRateGPerS).toBeCloseTo(1, 9);
    const alike = [reading(0, 500, { uGrams: 1 }), reading(1000, 500, { uGrams: 3 })];
    expect(waterBalance(balanceInput(alike), STEADY)?.meanRateGPerS).toBeCloseTo(0.006, 9);
    expect(
      waterBalance(balanceInput([...alike].reverse().map((one, i) => ({ ...one, atS: 1000 * i }))))
        ?.meanRateGPerS,
    ).toBeCloseTo(0.006, 9);
    const livelyS = (atS: number) => 0.3 * atS;
    expect(waterBalance(balanceInput(two, { livelyS }), STEADY)?.meanRateGPerS).toBeCloseTo(1000 / 300, 9);
    const atOnce = [reading(0, 500), reading(0.5, 400)];
    expect(waterBalance(balanceInput(atOnce), STEADY)?.meanRateGPerS).toBeCloseTo(100, 9);
  });
});

describe("many readings of a steady demand", () => {
  // straight line by least squares, sigma 2 g, at 0, 100 ... 900 s: mean 450 s, sum of squares 825 000 s2
  const strayed = [1, -2, 0, 2, -1, 1, 0, -2, 2, -1];
  const ten = strayed.map((stray, i) => reading(100 * i, 2000 - 100 * i + stray, { uGrams: 2 }));
  const meanStray = strayed.reduce((a, b) => a + b, 0) / 10;
  const slope = strayed.reduce((sum, stray, i) => sum + (stray - meanStray) * (100 * i - 450), 0) / 825_000;
  const balance = waterBalance(balanceInput(ten), STEADY);

  test("the rate is the slope of the line of least squares, u that of the slope", () => {
    const drawn = estimated(balance, drawnBetween(0, 900));
    near(drawn.value, 900 - 900 * slope, 1e-5);
    near(standardUncertainty(drawn), (900 * 2) / Math.sqrt(825_000));
  });

  test("what stands there is the line's height, least doubtful in the middle", () => {
    for (const atS of [0, 450, 700]) {
      const line = 2000 - atS + meanStray + slope * (atS - 450);
      const standing = estimated(balance, standingAt(atS));
      near(standing.value, line, 1e-6);
      near(standardUncertainty(standing), 2 * Math.sqrt(1 / 10 + (atS - 450) ** 2 / 825_000), 2e-3);
      expect(balance?.value({ unit: "g", ...standingAt(atS) })).toBeCloseTo(standing.value, 6);
    }
    const drawn = { unit: "g", ...drawnBetween(200, 500) };
    expect(balance?.value(drawn)).toBeCloseTo(balance?.estimate(drawn)?.value ?? 0, 6);
  });

  test("a coarse reading counts for less: weights are as 1/u2", () => {
    const uneven = [reading(0, 2000), reading(1000, 1000, { uGrams: 1 }), reading(1000, 1002, { uGrams: 3 })];
    const drawn = estimated(waterBalance(balanceInput(uneven), STEADY), drawnBetween(0, 1000));
    near(drawn.value, 1000 - 2 / 10, 1e-5);
    near(standardUncertainty(drawn), Math.hypot(1, Math.sqrt(9 / 10)));
  });

  // residuals ten times the declared error: chi2 of the strays above about the line
  test("readings that scatter beyond their errors make every random part larger by the Birge ratio", () => {
    const wild = ten.map((one, i) => ({ ...one, grams: 2000 - 100 * i + 10 * (strayed[i] as number) }));
    const chi2 =
      strayed.reduce((sum, stray, i) => sum + (stray - meanStray - slope * (100 * i - 450)) ** 2, 0) * 25;
    const drawn = estimated(waterBalance(balanceInput(wild), STEADY), drawnBetween(0, 900));
    near(partNamed(drawn, "readings"), (Math.sqrt(chi2 / 8) * 900 * 2) / Math.sqrt(825_000), 5e-3);
  });

  test("and so the doubt of an uneven demand, by the same ratio", () => {
    const lively = [{ size: 0.01, memoryS: 30 }];
    const [even, wild] = [1, 60].map((times) => {
      const scattered = strayed.map((stray, i) =>
        reading(100 * i, 20_000 - 1000 * i + times * stray, { uGrams: 2 }),
      );
      return estimated(waterBalance(balanceInput(scattered), lively), standingAt(420));
    });
    if (even === undefined || wild === undefined) throw new Error("no figure");
    const ratioOf = (name: string) => partNamed(wild, name) / partNamed(even, name);
    expect(ratioOf("readings")).toBeGreaterThan(5);
    near(ratioOf(NOT_STEADY), ratioOf("readings"), 0.05);
  });

  test("two rates are told by readings on both sides of the change", () => {
    const effects = [rateWithin(0, 400), rateWithin(400, 1000)];
    const bent = [0, 200, 400, 700, 1000].map((atS) =>
      reading(atS, 2000 - Math.min(atS, 400) - 2 * Math.max(0, atS - 400)),
    );
    const found = waterBalance(balanceInput(bent, { effects }), STEADY);
    near(estimated(found, drawnBetween(0, 400)).value, 400, 1e-3);
    near(estimated(found, drawnBetween(400, 1000)).value, 1200, 1e-3);
    near(estimated(found, drawnBetween(300, 500)).value, 300, 1e-3);
  });

  test("readings put together by neighbours give what they give one by one", () => {
    const many = Array.from({ length: 61 }, (_, i) =>
      reading(20 * i, 3000 - 20 * i + (i % 3) - 1, { uGrams: 2 }),
    );
    const found = waterBalance(balanceInput(many), STEADY);
    const squares = many.reduce((sum, { atS }) => sum + (atS - 600) ** 2, 0);
    const fall = many.reduce((sum, { atS, grams }) => sum - grams * (atS - 600), 0) / squares;
    near(estimated(found, drawnBetween(0, 1200)).value, 1200 * fall, 1e-4);
    near(standardUncertainty(estimated(found, drawnBetween(0, 1200))), (1200 * 2) / Math.sqrt(squares), 5e-3);
  });
});

describe("a pump that nobody measured", () => {
  const pumpingS = (atS: number) => Math.max(0, atS - 500);
  const pumped = { pumpingS, pumpPrior: { gPerS: 0.4, uGPerS: 0.2 } };
  const PUMP = "delivery of the axle pump";

  test("is told by how much less the level falls while it works", () => {
    // 1 g/s drawn; 0.3 g/s fed from 500 s on
    const readings = [0, 250, 500, 750, 1000].map((atS) =>
      reading(atS, 2000 - atS + 0.3 * pumpingS(atS), { uGrams: 0.1 }),
    );
    const balance = waterBalance(balanceInput(readings, pumped), STEADY);
    near(estimated(balance, { pumpRate: 500 }).value, 150, 1e-3);
    near(estimated(balance, drawnBetween(0, 1000)).value, 1000, 1e-3);
    near(estimated(balance, standingAt(800)).value, 2000 - 800 + 90, 1e-3);
    // least squares: in steps of 250 s the pump is 0, 0, 0, 1, 2; what a straight line leaves of that has squares 0.7
    near(
      standardUncertainty(estimated(balance, { pumpRate: 500 })),
      (500 * 0.1) / 250 / Math.sqrt(0.7),
      0.01,
    );
  });

  test("is what it may be beforehand where nothing tells it, and no figure is refused for it", () => {
    const always = { ...pumped, pumpingS: (atS: number) => atS };
    const balance = waterBalance(balanceInput([reading(0, 2000), reading(1000, 1000)], always), STEADY);
    const rate = estimated(balance, { pumpRate: 1 });
    near(rate.value, 0.4, 5e-3);
    near(partNamed(rate, PUMP), 0.2, 5e-3);
    const drawn = estimated(balance, drawnBetween(0, 1000));
    near(drawn.value, 1400, 5e-3);
    near(partNamed(drawn, PUMP), 200, 5e-3);
  });
});

describe("weighings of the whole engine", () => {
  const weighed = (atS: number, grams: number) => reading(atS, grams, { of: "whole engine" });

  test("tell what was drawn; what only changed its place on the engine they do not see", () => {
    const moves = [move(400, 300), move(500, 250, { fromOutside: false, source: "hand pump" })];
    const balance = waterBalance(balanceInput([weighed(0, 9000), weighed(1000, 8300)], { moves }), STEADY);
    near(estimated(balance, drawnBetween(0, 1000)).value, 1000, 1e-5);
  });

  test("beside the glass each has a start of its own, and both tell the rate", () => {
    const moves = [move(500, 250, { fromOutside: false })];
    const both = [reading(0, 2000), weighed(1, 9000), reading(1000, 1250), weighed(1001, 8000)];
    const balance = waterBalance(balanceInput(both, { moves }), STEADY);
    const drawn = estimated(balance, drawnBetween(0, 1000));
    near(drawn.value, 1000, 1e-4);
    near(standardUncertainty(drawn), 1, 5e-3);
    near(estimated(balance, standingAt(0)).value, 2000, 1e-3);
  });

  test("an unmeasured pump moves water within the engine: the glass sees it, the scales do not", () => {
    const always = { pumpingS: (atS: number) => atS, pumpPrior: { gPerS: 0.4, uGPerS: 0.3 } };
    const both = [reading(0, 2000), weighed(0, 9000), reading(1000, 1250), weighed(1000, 8000)];
    const balance = waterBalance(balanceInput(both, always), STEADY);
    near(estimated(balance, drawnBetween(0, 1000)).value, 1000, 1e-3);
    near(estimated(balance, { pumpRate: 1000 }).value, 250, 1e-3);
  });
});

describe("a leak that follows the pressure", () => {
  // a leak of 0.1 g/s that slows down evenly to nothing in 1000 s: 50 g in all, 37.5 of them in the first half
  const slowing = (atS: number) => atS - atS ** 2 / 2000;
  const effect = { name: "shut-in", within: [[0, 1000]] as const, prior: 10, clock: slowing };
  const leaked = [0, 250, 500, 750, 1000].map((atS) => reading(atS, 900 - 0.1 * slowing(atS)));

  test("goes by its own clock, and the water at the end stands where it does", () => {
    const balance = waterBalance(balanceInput(leaked, { effects: [effect] }), STEADY);
    expect(estimated(balance, drawnBetween(0, 500)).value).toBeCloseTo(37.5, 1);
    expect(estimated(balance, drawnBetween(500, 1000)).value).toBeCloseTo(12.5, 1);
    expect(estimated(balance, standingAt(1000)).value).toBeCloseTo(850, 1);
  });
});

describe("what is thought beforehand", () => {
  // run down by 500 g, of which nothing is known, and then shut in for as long: 1 g by readings of 50 g each, 70.7 together;
  // of a mean rate of 501 g in 1000 s a tenth is thought, 25.05 g, give or take three: 75.15
  test("of leaks is where a figure lies that the readings hardly tell, and not none", () => {
    const readings = [reading(0, 1000), reading(500, 500), reading(1000, 499)];
    const leak = { ...rateWithin(500, 1000, 0.3), usual: 0.1 };
    const balance = waterBalance(
      balanceInput(
        readings.map((one) => ({ ...one, uGrams: 50 })),
        { effects: [rateWithin(0, 500, 1000), leak] },
      ),
      STEADY,
    );
    const byHand = (1 / 5000 + 25.05 / 75.15 ** 2) / (1 / 5000 + 1 / 75.15 ** 2);
    const drawn = estimated(balance, drawnBetween(500, 1000)).value;
    near(drawn, byHand, 0.02);
    near(balance?.value({ unit: "g", ...drawnBetween(500, 1000) }) ?? 0, drawn, 1e-9);
    // what is drawn is no longer there
    const fell = estimated(balance, standingAt(500)).value - estimated(balance, standingAt(1000)).value;
    near(fell, drawn, 1e-6);
  });
});
