import fc from "fast-check";
import { expect, test } from "vitest";
import { onUniformGrid } from "../../../server/exchange/uniform-grid.ts";

const samplesAt = (times: readonly number[]) => times.map((atS, i) => ({ atS, value: i }));

test("a missing sample leaves a null in its place", () => {
  expect(onUniformGrid(samplesAt([10, 12, 14, 20]))).toEqual({
    startS: 10,
    everyS: 2,
    values: [0, 1, 2, null, null, 3],
  });
});

test("a trembling clock is put right by at most a quarter of a step", () => {
  const grid = onUniformGrid(samplesAt([0, 1.1, 1.9, 3, 4.1, 5]));
  expect(grid).toEqual({ startS: 0, everyS: 1, values: [0, 1, 2, 3, 4, 5] });
});

test("any even spacing keeps every sample at its place, though many are missing", () => {
  const gaps = fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 4, maxLength: 40 });
  const step = fc.constantFrom(0.02, 0.1, 0.5, 1, 2, 60);
  fc.assert(
    fc.property(gaps, step, (counts, everyS) => {
      // at least once two samples follow each other without a gap: else the step cannot be known
      const places = [0, 1];
      for (const count of counts) places.push((places.at(-1) ?? 0) + count);
      const grid = onUniformGrid(samplesAt(places.map((place) => 100 + place * everyS)));
      expect(grid?.everyS).toBe(everyS);
      expect(grid?.startS).toBe(100);
      expect(places.map((place) => grid?.values[place])).toEqual(places.map((_, i) => i));
    }),
    { seed: 20_260_314, numRuns: 200 },
  );
});

test("samples that fit a known grid are put on it, even a single one", () => {
  const known = [{ startS: 0.5, everyS: 1 }];
  expect(onUniformGrid(samplesAt([7.6]), known)).toEqual({ startS: 7.5, everyS: 1, values: [0] });
});

test.each([
  ["a single sample", [5]],
  ["two samples at one moment", [5, 5]],
  ["times of no even spacing", [0, 1, 2.6, 3, 4.4, 5.1, 5.7, 8]],
  ["a gap of more than a thousand places a sample", [0, 1, 5000]],
])("%s makes no grid", (_what, times) => {
  expect(onUniformGrid(samplesAt(times))).toBeNull();
});
