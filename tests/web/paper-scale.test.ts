import { describe, expect, test } from "vitest";
import { inTheMargin, paper, widthOf } from "../../web/paper/frame.tsx";
import { heightsOf } from "../../web/paper/line-chart.tsx";
import { mapping, niceScale } from "../../web/paper/scale.ts";

describe("the upright scale of a chart on paper", () => {
  test("covers all values in whole steps, from nothing where that is asked for", () => {
    expect(niceScale([0.4, 2.9, 3.1], 4, true)).toEqual({ low: 0, high: 4, ticks: [0, 1, 2, 3, 4] });
    expect(niceScale([6, 18.5], 4, false)).toEqual({ low: 5, high: 20, ticks: [5, 10, 15, 20] });
  });

  test("goes below nothing only where a value truly lies there", () => {
    expect(niceScale([-1, 100], 4, true).low).toBe(0);
    expect(niceScale([-40, 100], 4, true).low).toBeLessThanOrEqual(-40);
  });

  test("has room for one value, and for none", () => {
    const one = niceScale([7], 4, false);
    expect(one.low).toBeLessThanOrEqual(7);
    expect(one.high).toBeGreaterThan(7);
    expect(niceScale([], 4, true).ticks).toEqual([0, 1]);
  });

  test("maps the ends of the scale to the ends of the paper", () => {
    const y = mapping(0, 4, 100, 20);
    expect([y(0), y(4), y(1)]).toEqual([100, 20, 80]);
  });
});

test("the scale has room for the top of a band, and starts at nothing though the band reaches below", () => {
  const line = { label: "", colour: "water", dash: [], marker: "none" as const };
  const drawn = {
    ...line,
    points: [
      [0, 0],
      [60, 95],
    ] as const,
    band: [
      [0, -30, 30],
      [60, 60, 130],
    ] as const,
  };
  expect(niceScale(heightsOf([drawn]), 4, true)).toMatchObject({ low: 0, high: 150 });
});

test("what the minutes count stands beside the number of the last of them, in the margin right of the plot", () => {
  for (const words of ["minutes since lit", "minutes since the start"]) {
    const widestNumber = widthOf("1440");
    expect(widthOf(inTheMargin(words)) + widestNumber / 2).toBeLessThan(paper.labels);
  }
});
