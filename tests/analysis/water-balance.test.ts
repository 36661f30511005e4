import { describe, expect, test } from "vitest";
import { waterBalance } from "../../src/analysis/water-balance.ts";
import { standardUncertainty } from "../../src/quantity/measured.ts";
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

const near = (got: number, byHand: number, relative = 1e-3) =>
  expect(Math.abs(got / byHand - 1)).toBeLessThan(relative);
const NOT_STEADY = "demand that was not steady";

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

describe("a demand that wanders", () => {
  // rate errors of 0.5 g/s forgotten within a second make a random walk of variance 2 x 0.5^2 x 1 g2 a second
  // (Gillespie, Phys. Rev. E 54 (1996) 2084, long times), and between two readings a Brownian bridge
  const two = [reading(0, 2000, { uGrams: 0 }), reading(1000, 1000, { uGrams: 0 })];
  const walk = waterBalance(balanceInput(two), [{ size: 0.5, memoryS: 1 }]);
  const perS = 2 * 0.25;

  test("what stands there between two readings is in doubt as a bridge is", () => {
    const quarter = estimated(walk, standingAt(250));
    near(quarter.value, 1750, 1e-6);
    near(partNamed(quarter, NOT_STEADY), Math.sqrt((perS * 250 * 750) / 1000), 0.01);
    near(partNamed(estimated(walk, drawnBetween(0, 500)), NOT_STEADY), Math.sqrt(perS * 250), 0.01);
  });

  test("what was drawn from reading to reading is not in doubt by it", () => {
    expect(partNamed(estimated(walk, drawnBetween(0, 1000)), NOT_STEADY)).toBeLessThan(0.02);
  });

  // beyond the last reading, by s: a walk of its own, and the rate told by the walk between: var(s/T W(T)) + var(W(s))
  test("beyond the readings, before them or after, the doubt grows alike", () => {
    const byHand = Math.sqrt(perS * (200 + 200 ** 2 / 1000));
    near(partNamed(estimated(walk, standingAt(1200)), NOT_STEADY), byHand, 0.01);
    near(partNamed(estimated(walk, standingAt(-200)), NOT_STEADY), byHand, 0.01);
  });

  test("it wanders on the clock of the livelier time", () => {
    const livelyS = (atS: number) => 0.25 * atS;
    // the mean rate is four times as large on a clock that goes at a quarter: 4^2 x 1/4
    const slow = waterBalance(balanceInput(two, { livelyS }), [{ size: 0.5, memoryS: 1 }]);
    near(partNamed(estimated(slow, standingAt(500)), NOT_STEADY), Math.sqrt(4 * perS * 250), 0.02);
  });

  test("a reading of the middle pulls the course to itself, as far as the walk may stray", () => {
    // bridge variance 0.5 x 250 = 125 g2 against a reading error of 100 g2: 125/225 of 30 g
    const three = [two[0], reading(500, 1530, { uGrams: 10 }), two[1]].flatMap((one) => one ?? []);
    const pulled = waterBalance(balanceInput(three), [{ size: 0.5, memoryS: 1 }]);
    const middle = estimated(pulled, standingAt(500));
    near(middle.value, 1500 + (30 * 125) / 225, 1e-3);
    near(partNamed(middle, "readings"), (10 * 125) / 225, 0.01);
    near(partNamed(middle, NOT_STEADY), (Math.sqrt(125) * 100) / 225, 0.01);
    expect(pulled?.value({ unit: "g", ...standingAt(500) })).toBeCloseTo(middle.value, 6);
  });

  // of a whole and of twice a part of it: the walk to 500 s counts three times, that from there on once
  test("coefficients of moments count, each with the others", () => {
    const figure = estimated(walk, {
      drawn: [
        [500, 2],
        [1000, 1],
        [0, -3],
      ],
    });
    near(figure.value, 2000, 1e-6);
    // told by the readings: W(500) + W(1000) together are 1000; what is left of 2 W(500) is twice the bridge
    near(partNamed(figure, NOT_STEADY), 2 * Math.sqrt(perS * 250), 0.01);
    const odd = estimated(walk, {
      drawn: [
        [250, 3],
        [500, 0.5],
        [0, -3.5],
      ],
    });
    // bridge: covariance of 250 and 500 s is 0.5 x 250 x 500 / 1000
    const byHand = perS * (9 * 187.5 + 2 * 1.5 * 125 + 0.25 * 250);
    near(partNamed(odd, NOT_STEADY), Math.sqrt(byHand), 0.01);
  });

  test("its size is told by the readings beyond the unknowns, at least by three, and by forty as good as known", () => {
    const dfOf = (count: number) => {
      const even = Array.from({ length: count }, (_, i) => reading(30 * i, 3000 - 30 * i));
      const found = waterBalance(balanceInput(even), [{ size: 0.5, memoryS: 1 }]);
      return estimated(found, standingAt(37)).parts.find(({ name }) => name === NOT_STEADY)?.df;
    };
    expect([2, 5, 6, 12, 41, 42].map(dfOf)).toEqual([3, 3, 4, 10, 39, undefined]);
  });

  test("of several strays each counts by how likely it is, and that they disagree is a doubt", () => {
    const three = [two[0], reading(500, 1530, { uGrams: 10 }), two[1]].flatMap((one) => one ?? []);
    const strays = [0.01, 0.5].map((size) => ({ size, memoryS: 1 }));
    const [still, lively] = strays.map((stray) => waterBalance(balanceInput(three), [stray]));
    const both = waterBalance(balanceInput(three), strays);
    const [a, b, mean] = [still, lively, both].map((one) => estimated(one ?? null, standingAt(500)));
    if (a === undefined || b === undefined || mean === undefined) throw new Error("no figure");
    // the reading in the middle lies 30 g off a bridge of variance 0.05 and 125 g2, with its own 100 g2
    const likelihood = (bridge: number) =>
      Math.exp((-0.5 * 30 ** 2) / (bridge + 100)) / Math.sqrt(bridge + 100);
    const [l1, l2] = [likelihood(0.05), likelihood(125)];
    const w = l2 / (l1 + l2);
    near(mean.value - 1500, (1 - w) * (a.value - 1500) + w * (b.value - 1500), 0.01);
    const disagree = w * (1 - w) * (b.value - a.value) ** 2;
    const own = (1 - w) * partNamed(a, NOT_STEADY) ** 2 + w * partNamed(b, NOT_STEADY) ** 2;
    near(partNamed(mean, NOT_STEADY), Math.sqrt(own + disagree), 0.01);
    near(
      partNamed(mean, "readings"),
      Math.sqrt((1 - w) * partNamed(a, "readings") ** 2 + w * partNamed(b, "readings") ** 2),
      0.01,
    );
    expect(both?.value({ unit: "g", ...standingAt(500) })).toBeCloseTo(mean.value, 6);
    expect(both?.likeliest).toEqual({ rateGPerS: 0.5, memoryS: 1 });
    const onTheLine = three.map((one, i) => ({ ...one, grams: 2000 - 500 * i }));
    expect(waterBalance(balanceInput(onTheLine), strays)?.likeliest.rateGPerS).toBeCloseTo(0.01, 9);
    expect(waterBalance(balanceInput(onTheLine), [...strays].reverse())?.likeliest.rateGPerS).toBeCloseTo(
      0.01,
      9,
    );
  });
});

describe("what the readings do not fix", () => {
  const two = [reading(0, 2000), reading(1000, 1000)];
  const effects = [rateWithin(0, 500), rateWithin(500, 1000)];

  test("is not told: two rates by two readings, though their sum is", () => {
    const balance = waterBalance(balanceInput(two, { effects }), STEADY);
    expect(balance?.estimate({ unit: "g", ...drawnBetween(0, 500) })).toBeNull();
    expect(balance?.estimate({ unit: "g", ...standingAt(500) })).toBeNull();
    near(estimated(balance, drawnBetween(0, 1000)).value, 1000, 1e-3);
    const fine = two.map((one) => ({ ...one, uGrams: 1e-4 }));
    const finely = waterBalance(balanceInput(fine, { effects }), STEADY);
    expect(finely?.estimate({ unit: "g", ...drawnBetween(0, 500) })).toBeNull();
    const hardly = [reading(0, 2000, { uGrams: 1e-3 }), reading(1000, 1999, { uGrams: 1e-3 })];
    const little = waterBalance(balanceInput(hardly, { effects }), STEADY);
    expect(little?.estimate({ unit: "g", ...drawnBetween(0, 500) })).toBeNull();
  });

  test("a rate thought to be near another is told by it, in doubt by what it may depart", () => {
    // shared rate open, departures of a tenth of the mean rate 1 g/s over 500 s: 50 g each way, half of the difference
    const departing = [rateWithin(0, 1000), rateWithin(0, 500, 0.1), rateWithin(500, 1000, 0.1)];
    const drawn = estimated(
      waterBalance(balanceInput(two, { effects: departing }), STEADY),
      drawnBetween(0, 500),
    );
    near(drawn.value, 500, 1e-3);
    near(partNamed(drawn, "few readings"), 50 / Math.SQRT2, 0.01);
  });

  // a feed in doubt by more than itself is no reason to give no figure, and 1200 g of 1500 is the figure's doubt
  test("a large error of the feed is an error, and leaves nothing open", () => {
    const moves = [move(500, 1000, { scaleRelative: 1.2 })];
    const drawn = estimated(
      waterBalance(
        balanceInput([reading(0, 2000), reading(1000, 1500)], {
          moves,
          effects: [rateWithin(0, 1000, 1000)],
        }),
        STEADY,
      ),
      drawnBetween(0, 1000),
    );
    near(drawn.value, 1500, 1e-3);
    near(standardUncertainty(drawn), 1200, 1e-3);
  });

  test("left open by little more than the reading errors make of it, it is told all the same", () => {
    const coarse = two.map((one) => ({ ...one, uGrams: 400 }));
    const balance = waterBalance(balanceInput(coarse, { effects: [rateWithin(0, 1000, 1)] }), STEADY);
    expect(balance?.estimate({ unit: "g", ...drawnBetween(0, 1000) })).not.toBeNull();
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
