import { expect, test } from "vitest";
import type { Sizing } from "../../src/sizing/sizing-schema.ts";
import { answerSentence } from "../../web/pages/tank-bench/answer-sentence.ts";
import { fromShown, showing, toShown } from "../../web/preferences/shown.ts";
import { type ChosenUnits, units } from "../../web/preferences/units.ts";
import { figureShown } from "../../web/words/figure-shown.ts";
import { figureText } from "../../web/words/figure-text.ts";

const british: ChosenUnits = { pressure: "psi", volume: "fl oz", length: "in", temperature: "°F" };

test.each([
  ["bar", 4, "psi", 58.0151],
  ["ml", 100, "fl oz", 3.51951],
  ["mm", 11, "in", 0.433071],
  ["°C", 20, "°F", 68],
  ["ml/bar", 2, "fl oz/psi", 0.00485318],
  ["g/min", 7.9, "g/min", 7.9],
  ["g/rev", 0.0029, "mg a turn", 2.9],
])("%s: %d is shown as %s %d", (unit, value, shownUnit, shown) => {
  const as = showing(unit, british);
  expect(as.unit).toBe(shownUnit);
  expect(toShown(value, as)).toBeCloseTo(shown, 4);
});

test("what is typed in the reader's unit is stored without digits that the conversion alone brings", () => {
  expect(fromShown(68, showing("°C", british))).toBe(20);
  expect(fromShown(toShown(3.6, showing("bar", british)), showing("bar", british))).toBe(3.6);
});

test("the bench tells a demand in ml whatever unit is chosen, with what it is compared to", () => {
  const before = units.value;
  units.value = { ...before, volume: "fl oz" };
  const figure = { value: 122.4, u: 4, lo95: 114.6, hi95: 130.2, unit: "ml" };
  expect(figureText(figure)).toMatchObject({ unit: "fl oz" });
  expect(figureText(figure, "own-unit")).toMatchObject({ value: "122", unit: "ml", interval: "115 to 130" });
  const sizing = { demand: figure, bound: { ...figure, value: 149 }, fit: null, probability: 0.95 };
  expect(answerSentence(sizing as unknown as Sizing, "30 laps")).toContain("draw 122 ml; 149 ml suffice");
  units.value = before;
});

test("an interval is converted at both ends, and a doubt without the zero of the scale", () => {
  const shown = figureShown({ value: 20, u: 1, lo95: 18, hi95: 22, unit: "°C" }, showing("°C", british));
  expect(shown).toEqual({ value: 68, u: 1.8, lo95: 64.4, hi95: 71.6, unit: "°F" });
});

test("a figure is printed with its interval, and the shares of its doubt add to the whole", () => {
  const text = figureText(
    {
      value: 0.2715,
      u: 0.006,
      lo95: 0.2597,
      hi95: 0.2833,
      unit: "1",
      parts: [
        { name: "feed", u: 0.0036 },
        { name: "glass", u: 0.0048 },
      ],
    },
    "per-cent",
  );
  expect(text).toMatchObject({ value: "27.2", unit: "%", interval: "26.0 to 28.3" });
  if (text.value === null) throw new Error(text.why);
  expect(text.parts.map((part) => part.name)).toEqual(["glass", "feed"]);
  expect(text.parts.reduce((sum, part) => sum + part.share, 0)).toBeCloseTo(1, 12);
});
