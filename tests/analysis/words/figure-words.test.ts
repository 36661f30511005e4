import { describe, expect, test } from "vitest";
import { CAUTION_SENTENCES } from "../../../src/analysis/words/cautions.ts";
import { figureInWords } from "../../../src/analysis/words/figure-words.ts";
import { CAUTIONS, wrapped } from "../../../src/analysis/words/sheet-foot.ts";
import { clock } from "../../../src/quantity/clock.ts";

const figure = (value: number, u: number) => ({
  value,
  u,
  lo95: value - 2 * u,
  hi95: value + 2 * u,
  unit: "g",
});

describe("a figure in words", () => {
  test.each([
    [figure(7.912, 0.2), "7.9 (7.5 to 8.3) g"],
    [figure(7.912, 0.08), "7.91 (7.75 to 8.07) g"],
    [figure(1234.4, 40), "1234 (1154 to 1314) g"],
    [figure(-0.004, 0.2), "0.0 (−0.4 to 0.4) g"],
    [figure(0, 0), "0 g"],
    [figure(-12.345, 0), "−12.35 g"],
  ])("%j: with its range and no digits that mean nothing", (given, words) => {
    expect(figureInWords(given, "g")).toBe(words);
  });

  test("in per cent, and without a unit", () => {
    expect(figureInWords(figure(0.265, 0.007), "%", 100)).toBe("26.5 (25.1 to 27.9) %");
    expect(figureInWords(figure(1.2, 0.02), "")).toBe("1.20 (1.16 to 1.24)");
    expect(figureInWords(figure(0.5, 0), "%", 100)).toBe("50 %");
  });

  test("or why there is none", () => {
    expect(figureInWords({ value: null, why: "nobody looked" }, "g")).toBe("not to be had: nobody looked");
  });
});

test.each([
  [0, "0:00"],
  [59.4, "0:59"],
  [59.5, "1:00"],
  [3599, "59:59"],
  [3600, "1:00:00"],
  [3725, "1:02:05"],
  [-65, "−1:05"],
  [-0.4, "0:00"],
])("%d s on the clock is %s", (seconds, words) => {
  expect(clock(seconds)).toBe(words);
});

describe("the cautions", () => {
  test("are broken between words, no line longer than was asked, nothing lost", () => {
    const lines = wrapped(["One two three.", "Four five."], 9);
    expect(lines).toEqual(["One two", "three.", "Four", "five."]);
    expect(wrapped(["One two three."], 7)).toEqual(["One two", "three."]);
    expect(wrapped(["One two three."], 6)).toEqual(["One", "two", "three."]);
  });

  test("break between words, not between a number and its per cent or its doubt", () => {
    expect(wrapped(["It lost 10 % or 4 ± 1 W."], 10)).toEqual(["It lost", "10 % or", "4 ± 1 W."]);
  });

  test("stand whole at the foot of the sheet", () => {
    for (const sentence of CAUTION_SENTENCES) expect(CAUTIONS.join(" ")).toContain(sentence);
    expect(Math.max(...CAUTIONS.map((line) => line.length))).toBeLessThanOrEqual(108);
  });
});
