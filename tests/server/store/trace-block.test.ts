import fc from "fast-check";
import { expect, test } from "vitest";
import { decodeBlock, encodeBlock, samplesPerBlock } from "../../../server/store/trace-block.ts";

const seed = 20_260_314;
const decimal = fc
  .tuple(fc.integer({ min: -1_000_000_000, max: 1_000_000_000 }), fc.integer({ min: 0, max: 6 }))
  .map(([multiple, decimals]) => multiple / 10 ** decimals);
const anyReading = fc.double({ min: -1e9, max: 1e9, noNaN: true });
const valuesOf = (reading: fc.Arbitrary<number>) =>
  fc.array(fc.option(reading, { freq: 5 }), { maxLength: 300 });

test.each([
  ["readings of few decimals", decimal],
  ["any readings", anyReading],
])("%s come out of a block as they went in, with what is missing", (_what, reading) => {
  fc.assert(
    fc.property(valuesOf(reading), (values) => {
      const block = encodeBlock(values);
      expect(decodeBlock(block.data, block.samples)).toEqual(values);
    }),
    { seed, numRuns: 300 },
  );
});

test("lowest and highest are those of the readings, and null where there is none", () => {
  expect(encodeBlock([null, 3, -2, null, 2.5])).toMatchObject({ samples: 5, lowest: -2, highest: 3 });
  expect(encodeBlock([null, null])).toMatchObject({ samples: 2, lowest: null, highest: null });
  expect(encodeBlock([])).toMatchObject({ samples: 0, lowest: null, highest: null });
});

test("a sensor's readings take less than two bytes a sample", () => {
  const values = Array.from(
    { length: samplesPerBlock },
    (_, i) => Math.round(2500 + 300 * Math.sin(i / 40)) / 1000,
  );
  expect(encodeBlock(values).data.length).toBeLessThan(2 * samplesPerBlock);
});

test("a block that is cut short is refused, not filled up", () => {
  const { data } = encodeBlock([1, 2, 3]);
  expect(() => decodeBlock(data, 11)).toThrow();
});
