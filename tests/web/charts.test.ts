import { expect, test } from "vitest";
import { type EndLabel, movedApart } from "../../web/charts/end-labels.ts";
import { thinForDrawing } from "../../web/charts/thin.ts";
import { timeTicks } from "../../web/charts/ticks.ts";
import { valueOn } from "../../web/charts/value-on.ts";

const label = (words: string, y: number, left = 0): EndLabel => ({
  words,
  colour: "ink",
  bold: true,
  left,
  width: 40,
  y,
});

test("labels that would touch are moved apart in their order, and stay within the plot", () => {
  const placed = movedApart([label("A", 95), label("B", 96), label("C", 97)], 0, 100);
  const byHeight = [...placed].sort((a, b) => a.y - b.y);
  expect(byHeight.map((each) => each.words)).toEqual(["A", "B", "C"]);
  expect(byHeight.at(-1)?.y).toBeLessThanOrEqual(100);
  byHeight.slice(1).forEach((each, i) => {
    expect(each.y - (byHeight[i]?.y ?? 0)).toBeGreaterThanOrEqual(17);
  });
});

test("labels that stand beside one another stay where they are", () => {
  const placed = movedApart([label("A", 50), label("B", 50, 200)], 0, 100);
  expect(placed.map((each) => each.y)).toEqual([50, 50]);
});

test("a long trace keeps its lowest and its highest when it is thinned for drawing", () => {
  const trace = Array.from({ length: 50_000 }, (_, i) => [i, Math.sin(i / 900)] as const);
  const spiked = trace.map(([x, y]) => [x, x === 31_417 ? 9 : x === 7_001 ? -9 : y] as const);
  const thin = thinForDrawing(spiked, 500);
  expect(thin.length).toBeLessThanOrEqual(1000);
  expect(thin).toContainEqual([31_417, 9]);
  expect(thin).toContainEqual([7_001, -9]);
  expect(thin.map(([x]) => x)).toEqual([...thin.map(([x]) => x)].sort((a, b) => a - b));
});

test("a short line is drawn as it is", () => {
  const line = [
    [0, 1],
    [60, 2],
  ] as const;
  expect(thinForDrawing(line, 500)).toBe(line);
});

test("the time axis has whole minutes, few enough to be read", () => {
  expect(timeTicks(-30, 2400, 6).map((tick) => tick.value / 60)).toEqual([0, 10, 20, 30, 40]);
  expect(timeTicks(0, 36_000, 6).map((tick) => tick.value / 3600)).toEqual([0, 2, 4, 6, 8, 10]);
});

test("a line is read between its points and nowhere else", () => {
  const line = [
    [0, 10],
    [100, 20],
  ] as const;
  expect(valueOn(line, 25)).toBe(12.5);
  expect(valueOn(line, 100)).toBe(20);
  expect(valueOn(line, -1)).toBeNull();
  expect(valueOn(line, 101)).toBeNull();
});
