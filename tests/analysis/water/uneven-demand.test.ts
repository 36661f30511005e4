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
