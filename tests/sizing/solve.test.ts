import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { heldBy, type Layout, layoutOf, usableMl, withDimension } from "../../src/sizing/layout.ts";
import { dimensionFor, firstEnough } from "../../src/sizing/solve.ts";
import type { Tank } from "../../src/sizing/tanks-schema.ts";
import { space } from "./usual-space.ts";

const layout = (...water: Tank[]): Layout => layoutOf({ space, water }, undefined, undefined);
const side = (more: object): Tank => ({
  kind: "side-pair",
  length: 100,
  height: 30,
  base: -10,
  plate: 0.7,
  ...more,
});

/** Every tenth of a millimetre tried in turn. */
function oneByOne(
  from: Layout,
  dimension: "length" | "height" | "width",
  neededMl: number,
  atMostMm: number,
): number | null {
  for (let step = 1; step <= Math.floor(atMostMm * 10 + 1e-6); step++) {
    const tried = withDimension(from, 0, dimension, step / 10);
    const [own] = tried.tanks;
    if (own !== undefined && heldBy(tried, own).water !== null && usableMl(tried) >= neededMl - 1e-9)
      return step / 10;
  }
  return null;
}

describe("the least dimension", () => {
  test("a tank under the boiler's middle holds most at some height and less above it: the height is found", () => {
    // a flat face: the nearer the roof comes to the middle, the farther out the whole tank stands
    const low = layoutOf(
      { space: { ...space, loadingGauge: 64 }, water: [side({ base: -40, height: 10 })] },
      undefined,
      undefined,
    );
    const at = (mm: number) => usableMl(withDimension(low, 0, "height", mm));
    expect(at(38)).toBeLessThan(at(25));
    const neededMl = at(25) - 0.01;
    expect(neededMl).toBeGreaterThan(at(38));
    const { mm } = dimensionFor(low, 0, "height", neededMl, 38);
    expect(mm).toBe(oneByOne(low, "height", neededMl, 38));
    expect(mm).not.toBeNull();
  });

  test("a curved tank that runs out of room as it grows up to the middle is solved below that", () => {
    const narrow = { ...space, loadingGauge: 57 };
    const low = layoutOf(
      { space: narrow, water: [side({ base: -40, height: 10, innerFace: "curved", nearest: 5 })] },
      undefined,
      undefined,
    );
    const [at60] = withDimension(low, 0, "height", 60).tanks;
    if (at60 === undefined) throw new Error("there is no tank");
    expect(heldBy(low, at60).water).toBeNull();
    const { mm } = dimensionFor(low, 0, "height", 20, 60);
    expect(mm).toBe(oneByOne(low, "height", 20, 60));
    expect(mm).not.toBeNull();
  });

  test("is the first tenth that serves, as trying each in turn finds it, for any tank", () => {
    const any = fc.record({
      length: fc.double({ min: 20, max: 150, noNaN: true }),
      height: fc.double({ min: 8, max: 60, noNaN: true }),
      base: fc.double({ min: -45, max: 20, noNaN: true }),
      innerFace: fc.constantFrom("flat" as const, "curved" as const),
      nearest: fc.double({ min: 2, max: 25, noNaN: true }),
    });
    const share = fc.double({ min: 0.05, max: 1.1, noNaN: true });
    fc.assert(
      fc.property(
        any,
        fc.constantFrom("length" as const, "height" as const),
        share,
        (more, dimension, part) => {
          const from = layout(side(more));
          const atMostMm = 70;
          const all = Array.from({ length: 70 }, (_, i) =>
            usableMl(withDimension(from, 0, dimension, i + 1)),
          );
          const neededMl = part * Math.max(1, ...all);
          const { mm } = dimensionFor(from, 0, dimension, neededMl, atMostMm);
          expect(mm).toBe(oneByOne(from, dimension, neededMl, atMostMm));
        },
      ),
      { numRuns: 150 },
    );
  });

  test("is found within a tenth far beyond any boiler too", () => {
    const well: Tank = { kind: "well", length: 10, width: 20, height: 12, plate: 1, freeboard: 0 };
    const from = layout(well);
    // 18 x 10 inside: 180 mm2, 900 ml are 5000 mm inside and 5002 outside
    expect(dimensionFor(from, 0, "length", 900, 100_000).mm).toBeCloseTo(5002, 6);
    expect(dimensionFor(from, 0, "length", 900, 5001.9)).toEqual({ mm: null, bestMm: 5001.9 });
  });
});

test("a crest between two of the sizes looked at first is found, going up or down", () => {
  const peak = (mm: number) => 10 - Math.abs(mm - 7.3);
  expect(firstEnough(peak, 9.95, 0.1, 20).mm).toBe(7.3);
  expect(firstEnough(peak, 9.95, 20, 0).mm).toBe(7.3);
  expect(firstEnough(peak, 10.05, 0.1, 20)).toMatchObject({ mm: null });
});
