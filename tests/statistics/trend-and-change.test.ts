import { describe, expect, test } from "vitest";
import { randomOf } from "../../sample-data/simulator/random.ts";
import { chanceOfFalseAlarm, cusum, valuesToFalseAlarm } from "../../src/statistics/cusum.ts";
import { firstReaching, fitGrowth } from "../../src/statistics/growth-fit.ts";
import { kendall } from "../../src/statistics/kendall.ts";
import { lowestOfNormals } from "../../src/statistics/lowest-of-normals.ts";
import { ordinalBelief } from "../../src/statistics/ordinal-belief.ts";
import { predictionBound } from "../../src/statistics/prediction-bound.ts";
import { rankSum } from "../../src/statistics/rank-sum.ts";
import { coverageFactor } from "../../src/statistics/student-t.ts";
import { studentUpperTail } from "../../src/statistics/student-t-tail.ts";
import { theilSen } from "../../src/statistics/theil-sen.ts";
import { welch } from "../../src/statistics/welch.ts";

test("the tail of Student's t undoes its quantile", () => {
  for (const df of [1, 2.5, 7, 40, 1000]) {
    for (const level of [0.5, 0.9, 0.95, 0.999]) {
      expect(studentUpperTail(coverageFactor(level, df), df) * 2).toBeCloseTo(1 - level, 9);
    }
  }
});

describe("Kendall's test", () => {
  test("counts out ties in a short series: of six orders of 1, 1, 2 two stand in rising order", () => {
    const { exact, pUpper, s } = kendall([1, 2, 3], [1, 1, 2]);
    expect({ exact, s }).toEqual({ exact: true, s: 2 });
    expect(pUpper).toBeCloseTo(1 / 3, 12);
  });
  test("says nothing of readings that are all alike", () => {
    const { pTwoSided, tau } = kendall([1, 2, 3, 4, 5, 6, 7, 8], [2, 2, 2, 2, 2, 2, 2, 2]);
    expect({ pTwoSided, tau }).toEqual({ pTwoSided: 1, tau: 0 });
  });
  test("refuses a single point", () => {
    expect(() => kendall([1], [1])).toThrow("wanted two or more");
  });
});

test("Theil-Sen gives no interval where so few points can give none", () => {
  expect(theilSen([1, 2, 3, 4], [1, 2, 3, 4]).interval).toBeNull();
  expect(() => theilSen([1, 1], [1, 2])).toThrow("two that differ in x");
});

describe("Theil-Sen with errors of reading", () => {
  const x = [1, 2, 3, 4, 5, 6, 7, 8];
  const alike = x.map(() => 0.2);
  const u = x.map(() => 0.05);
  test("readings rounded alike have an interval as wide as the rounding makes it", () => {
    expect(theilSen(x, alike).interval).toEqual([0, 0]);
    // least squares: 0.05 / sqrt(42); of the normal 1.96, and sqrt(pi / 3) dearer
    const half = 1.959964 * Math.sqrt(Math.PI / 3) * (0.05 / Math.sqrt(42));
    const [low, high] = theilSen(x, alike, 0.95, u).interval ?? [Number.NaN, Number.NaN];
    expect(high).toBeCloseTo(half, 6);
    expect(low).toBeCloseTo(-half, 6);
  });
  test("scatter that is wider than the errors keeps its own interval", () => {
    const y = [3, 9, 4, 12, 8, 15, 9, 20];
    expect(theilSen(x, y, 0.95, u).interval).toEqual(theilSen(x, y).interval);
  });
  test("slopes of rounded readings of a growing leak hold the truth as often as they say", () => {
    const random = randomOf(3, "rounded catches");
    const seasons = 2000;
    let held = 0;
    for (let season = 0; season < seasons; season++) {
      const slope = random.between(0, 0.02);
      const level = random.between(0.1, 0.3);
      const y = x.map((at) => Math.round((level + slope * at + 0.01 * random.normal()) / 0.05) * 0.05);
      // rounding to 0.05: u = 0.05 / sqrt(12), with the scatter in quadrature
      const own = x.map(() => Math.hypot(0.05 / Math.sqrt(12), 0.01));
      const [low, high] = theilSen(x, y, 0.95, own).interval ?? [Number.NaN, Number.NaN];
      if (low <= slope && slope <= high) held += 1;
    }
    expect(held / seasons).toBeGreaterThan(0.93);
  });
});

test("one reading far out hardly moves the Theil-Sen slope", () => {
  const x = [1, 2, 3, 4, 5, 6, 7];
  expect(theilSen(x, [1, 2, 3, 4, 5, 6, 70]).slope).toBeCloseTo(1, 12);
});

describe("CUSUM", () => {
  test("raises false alarms as seldom as it says", () => {
    const random = randomOf(1, "false alarms");
    const lengths = Array.from({ length: 400 }, () => {
      const values = Array.from({ length: 3000 }, () => random.normal());
      return (cusum(values, 0, 0.5, 4).firstAbove ?? 2999) + 1;
    });
    const mean = lengths.reduce((a, b) => a + b, 0) / lengths.length;
    // the mean of 400 lengths that are spread exponentially has a standard deviation of 5 %
    expect(mean / valuesToFalseAlarm(0.5, 4)).toBeGreaterThan(0.85);
    expect(mean / valuesToFalseAlarm(0.5, 4)).toBeLessThan(1.15);
  });
  test("says how likely a false alarm is by the last of some values, as simulation shows", () => {
    const random = randomOf(2, "false alarms");
    const series = 20_000;
    const alarmed = Array.from({ length: series }, () => {
      const values = Array.from({ length: 20 }, () => random.normal());
      return cusum(values, 0, 0.5, 4.5).firstAbove === null ? 0 : 1;
    }).reduce<number>((a, b) => a + b, 0);
    const stated = chanceOfFalseAlarm(20, 0.5, 4.5);
    // four standard deviations of a share of 20 000 series
    const bound = 4 * Math.sqrt((stated * (1 - stated)) / series);
    expect(Math.abs(alarmed / series - stated)).toBeLessThan(bound);
    expect(chanceOfFalseAlarm(0, 0.5, 4.5)).toBeCloseTo(0, 12);
  });
  test("alarms in the long run as often as Siegmund's formula says", () => {
    // once settled, the chance of a first alarm at the next value is one in the mean number of values
    const [early, late] = [chanceOfFalseAlarm(60, 0.5, 4), chanceOfFalseAlarm(61, 0.5, 4)];
    expect((1 - early) / (late - early) / valuesToFalseAlarm(0.5, 4)).toBeCloseTo(1, 1);
  });
  test("refuses a limit of 0", () => {
    expect(() => cusum([1], 0, 0.5, 0)).toThrow("wanted both above 0");
  });
});

describe("the lowest of some normal values", () => {
  // order statistics of the normal distribution as tabled by Teichroew 1956 and Sarhan & Greenberg 1956 (from memory);
  // of two: 1 / sqrt(pi) and sqrt(1 - 1 / pi) by calculation
  test.each([
    [1, 0, 1],
    [2, -1 / Math.sqrt(Math.PI), Math.sqrt(1 - 1 / Math.PI)],
    [5, -1.16296, Math.sqrt(0.44753)],
    [10, -1.53875, Math.sqrt(0.34434)],
  ])("of %i", (count, mean, sd) => {
    expect(lowestOfNormals(count).mean).toBeCloseTo(mean, 4);
    expect(lowestOfNormals(count).sd).toBeCloseTo(sd, 4);
  });
  test("of none is refused", () => {
    expect(() => lowestOfNormals(0)).toThrow("permitted 1 or more");
  });
});

describe("groups", () => {
  test("two on either side are never told apart by ranks", () => {
    expect(rankSum([1, 2], [8, 9]).pTwoSided).toBeCloseTo(1 / 3, 12);
  });
  test("ties count as halves, and dealing them out stays exact", () => {
    const { w, pUpper, pLower, exact } = rankSum([1, 2, 2], [2, 3]);
    expect({ w, exact }).toEqual({ w: 1, exact: true });
    expect(pUpper).toBeCloseTo(1, 12);
    expect(pLower).toBeCloseTo(0.3, 12);
  });
  test("nothing to compare is refused", () => {
    expect(() => welch([1, 1], [2, 2])).toThrow("neither group has any spread");
    expect(() => rankSum([], [1])).toThrow("wanted one or more in each");
    expect(() => predictionBound([1])).toThrow("wanted two or more");
  });
});

describe("growth", () => {
  test("a level that does not rise never reaches the limit for sure", () => {
    const flat = [1, 2, 3, 4, 5, 6].map((x) => ({ x, y: 1 + 0.01 * (-1) ** x, sd: 0.01 }));
    const fit = fitGrowth(flat);
    expect(firstReaching((x) => fit.chanceAbove(x, 5), 0.9, 6, 1000)).toBeNull();
  });
  test("the course that fits the points is found among several", () => {
    const points = [1, 2, 3, 4, 5, 6, 8].map((x) => ({ x, y: 0.1 + 0.05 * x ** 2, sd: 0.01 }));
    const fit = fitGrowth(points, {
      courses: [
        { power: 1, weight: 1 },
        { power: 2, weight: 1 },
      ],
      trustInSd: 3,
      start: null,
    });
    expect(fit.at(10)).toBeCloseTo(5.1, 2);
  });
  test("points at one place are refused", () => {
    expect(() => fitGrowth([1, 2, 3].map((y) => ({ x: 2, y, sd: 1 })))).toThrow("all points stand at one x");
  });
});

describe("graded looks", () => {
  const model = {
    grades: 3,
    start: [0.6, 0.3, 0.1],
    seen: [
      [0.8, 0.2, 0],
      [0.1, 0.8, 0.1],
      [0, 0.2, 0.8],
    ],
    upPerHour: [{ rate: 0.05, weight: 1 }],
    downPerHour: 0.01,
  };
  test("one look out of line does not overturn many", () => {
    const looks = [0, 0, 0, 1, 0].map((grade, i) => ({ hours: i, grade }));
    expect(ordinalBelief(looks, model).grades[0]).toBeGreaterThan(0.8);
  });
  test("chances add up to one, now and later, and drift upwards with time", () => {
    const belief = ordinalBelief([{ hours: 1, grade: 1 }], model);
    const total = (list: readonly number[]) => list.reduce((a, b) => a + b, 0);
    expect(total(belief.grades)).toBeCloseTo(1, 12);
    expect(total(belief.after(10))).toBeCloseTo(1, 12);
    expect(belief.after(10)[2] ?? 0).toBeGreaterThan(belief.grades[2] ?? 1);
  });
  test("holds the true grade as often as it says", () => {
    const random = randomOf(7, "looks");
    const draw = (chances: readonly number[]) => {
      let left = random.uniform();
      const place = chances.findIndex((chance) => {
        left -= chance;
        return left < 0;
      });
      return place < 0 ? chances.length - 1 : place;
    };
    let [said, was] = [0, 0];
    for (let season = 0; season < 2000; season++) {
      let grade = draw(model.start);
      const looks: { hours: number; grade: number }[] = [];
      for (let hours = 1; hours <= 6; hours++) {
        if (grade < 2 && random.chance(1 - Math.exp(-0.05))) grade += 1;
        else if (grade > 0 && random.chance(1 - Math.exp(-0.01))) grade -= 1;
        looks.push({ hours, grade: draw(model.seen[grade] ?? []) });
      }
      said += ordinalBelief(looks, model).grades[2] ?? 0;
      was += grade === 2 ? 1 : 0;
    }
    expect(was / said).toBeGreaterThan(0.9);
    expect(was / said).toBeLessThan(1.1);
  });
  test("a grade that is none is refused", () => {
    expect(() => ordinalBelief([{ hours: 0, grade: 3 }], model)).toThrow("permitted 0 to 2");
  });
});
