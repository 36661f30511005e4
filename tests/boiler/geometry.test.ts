import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { BoilerShape, ShapedBoiler } from "../../src/boiler/boiler-shape.ts";
import { boilerGeometry } from "../../src/boiler/geometry.ts";

fc.configureGlobal({ seed: 1829, numRuns: 200 });

const size = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const horizontal = fc
  .record({ diameter: size(20, 200), length: size(50, 600), tube: size(0.05, 0.25), centre: size(0.3, 0.7) })
  .map(
    ({ diameter, length, tube, centre }): BoilerShape => ({
      kind: "horizontal",
      innerDiameterMm: diameter,
      innerLengthMm: length,
      tubes: [{ outerDiameterMm: tube * diameter, count: 2, centreHeightMm: centre * diameter }],
    }),
  );
const vertical = fc.record({ diameter: size(20, 200), height: size(50, 600), tube: size(0.05, 0.25) }).map(
  ({ diameter, height, tube }): BoilerShape => ({
    kind: "vertical",
    innerDiameterMm: diameter,
    innerHeightMm: height,
    tubes: [{ outerDiameterMm: tube * diameter, count: 3 }],
  }),
);
const table = fc
  .record({
    start: size(-5, 5),
    first: size(0, 50),
    steps: fc.array(fc.record({ mm: size(1, 10), ml: size(1, 60) }), { minLength: 1, maxLength: 8 }),
    room: size(1, 100),
  })
  .map(({ start, first, steps, room }): BoilerShape => {
    const points = [{ levelMm: start, waterMl: first }];
    let [levelMm, waterMl] = [start, first];
    for (const step of steps) {
      levelMm += step.mm;
      waterMl += step.ml;
      points.push({ levelMm, waterMl });
    }
    return { kind: "table", points, totalMl: waterMl + room };
  });
const boiler = fc.record({ shape: fc.oneof(horizontal, vertical, table), glassZeroMm: size(-10, 30) });
const anyLevel = size(-50, 700);
const share = size(0, 1);

describe("any boiler", () => {
  test("the water rises with the level, from nothing to the whole", () => {
    fc.assert(
      fc.property(boiler, anyLevel, size(0, 50), (one, levelMm, riseMm) => {
        const geometry = boilerGeometry(one);
        const [low, high] = [geometry.waterM3AtLevelMm(levelMm), geometry.waterM3AtLevelMm(levelMm + riseMm)];
        // 1e-15 of the whole is rounding
        expect(high - low).toBeGreaterThanOrEqual(-1e-15 * geometry.totalM3);
        expect(low).toBeGreaterThanOrEqual(0);
        expect(high).toBeLessThanOrEqual(geometry.totalM3);
      }),
    );
  });

  test("the level found for a volume holds that volume", () => {
    fc.assert(
      fc.property(boiler, share, (one, part) => {
        const geometry = boilerGeometry(one);
        const waterM3 = part * geometry.totalM3;
        const back = geometry.waterM3AtLevelMm(geometry.levelMmAtWaterM3(waterM3));
        expect(Math.abs(back - waterM3)).toBeLessThan(1e-12 * geometry.totalM3);
      }),
    );
  });

  test("less than nothing and more than the whole stand at the ends of the water space", () => {
    fc.assert(
      fc.property(boiler, (one) => {
        const geometry = boilerGeometry(one);
        expect(geometry.levelMmAtWaterM3(-1)).toBe(geometry.levelMmAtWaterM3(0));
        expect(geometry.levelMmAtWaterM3(1)).toBe(geometry.levelMmAtWaterM3(geometry.totalM3));
        expect(geometry.waterM3AtLevelMm(1e6)).toBe(geometry.totalM3);
        expect(geometry.waterM3AtLevelMm(-1e6)).toBe(0);
      }),
    );
  });

  test("the millimetre's worth, summed up over the level, is the volume", () => {
    fc.assert(
      fc.property(boiler, share, share, (one, a, b) => {
        const geometry = boilerGeometry(one);
        const [from, to] = [a, b]
          .map((part) => geometry.levelMmAtWaterM3(part * geometry.totalM3))
          .sort((x, y) => x - y);
        if (from === undefined || to === undefined) throw new Error("two levels were made");
        const summed = integral(geometry.m3PerMm, from, to);
        const wanted = geometry.waterM3AtLevelMm(to) - geometry.waterM3AtLevelMm(from);
        // midpoints in 4000 steps: the root at the ends of a chord leaves some 1e-6 of the whole
        expect(Math.abs(summed - wanted)).toBeLessThan(1e-5 * geometry.totalM3);
      }),
      { numRuns: 60 },
    );
  });
});

function integral(height: (x: number) => number, from: number, to: number): number {
  const steps = 4000;
  const width = (to - from) / steps;
  let sum = 0;
  for (let i = 0; i < steps; i++) sum += height(from + (i + 0.5) * width);
  return sum * width;
}

describe("horizontal boiler", () => {
  const shell: ShapedBoiler = {
    shape: { kind: "horizontal", innerDiameterMm: 50, innerLengthMm: 150 },
    glassZeroMm: 20,
  };
  const cylinderM3 = (diameterMm: number, lengthMm: number): number =>
    (Math.PI / 4) * diameterMm ** 2 * lengthMm * 1e-9;

  test("full, it holds its cylinder less its tubes", () => {
    fc.assert(
      fc.property(horizontal, (shape) => {
        if (shape.kind !== "horizontal") throw new Error("a horizontal boiler was made");
        const tubes = (shape.tubes ?? []).map(
          (tube) => tube.count * cylinderM3(tube.outerDiameterMm, shape.innerLengthMm),
        );
        const wanted = tubes.reduce(
          (left, tube) => left - tube,
          cylinderM3(shape.innerDiameterMm, shape.innerLengthMm),
        );
        const geometry = boilerGeometry({ shape });
        expect(geometry.totalM3 / wanted).toBeCloseTo(1, 12);
        expect(geometry.waterM3AtLevelMm(shape.innerDiameterMm)).toBe(geometry.totalM3);
      }),
    );
  });

  test("to the middle, 5 mm above the glass's zero of 20 mm, it holds half", () => {
    expect(boilerGeometry(shell).waterM3AtLevelMm(5) / cylinderM3(50, 150)).toBeCloseTo(0.5, 12);
    expect(boilerGeometry(shell).m3PerMm(5)).toBeCloseTo(50 * 150 * 1e-9, 15);
  });

  test("a quarter of the diameter holds (1/3 - sqrt(3)/(4 pi)) of it", () => {
    const share = boilerGeometry(shell).waterM3AtLevelMm(12.5 - 20) / cylinderM3(50, 150);
    expect(share).toBeCloseTo(1 / 3 - Math.sqrt(3) / (4 * Math.PI), 12);
  });

  test("a tube takes room only as far as it is under water", () => {
    const tubes = [{ outerDiameterMm: 10, count: 2, centreHeightMm: 25 }];
    const tubed = boilerGeometry({ shape: { ...shell.shape, tubes } as BoilerShape, glassZeroMm: 20 });
    const plain = boilerGeometry(shell);
    const taken = (heightMm: number): number =>
      (plain.waterM3AtLevelMm(heightMm - 20) - tubed.waterM3AtLevelMm(heightMm - 20)) / cylinderM3(10, 150);
    expect([20, 25, 30, 50].map((height) => taken(height))).toEqual(
      [0, 1, 2, 2].map((count) => expect.closeTo(count, 9)),
    );
  });

  test("tubes that leave no room are refused", () => {
    const tubes = [{ outerDiameterMm: 30, count: 3, centreHeightMm: 25 }];
    const shape: BoilerShape = { kind: "horizontal", innerDiameterMm: 50, innerLengthMm: 150, tubes };
    expect(() => boilerGeometry({ shape })).toThrow(
      /boilerGeometry: the boiler holds -.* m3, permitted more than 0/,
    );
  });
});

describe("vertical boiler", () => {
  test("it holds (shell - tubes) x height", () => {
    const shape: BoilerShape = {
      kind: "vertical",
      innerDiameterMm: 80,
      innerHeightMm: 120,
      tubes: [{ outerDiameterMm: 8, count: 5 }],
    };
    const geometry = boilerGeometry({ shape, glassZeroMm: 30 });
    const areaMm2 = (Math.PI / 4) * (80 ** 2 - 5 * 8 ** 2);
    expect(geometry.totalM3 / (areaMm2 * 120 * 1e-9)).toBeCloseTo(1, 12);
    expect(geometry.waterM3AtLevelMm(10) / (areaMm2 * 40 * 1e-9)).toBeCloseTo(1, 12);
  });

  test("without tubes it is a plain cylinder, and a millimetre is worth its circle only where water can stand", () => {
    const shape: BoilerShape = { kind: "vertical", innerDiameterMm: 80, innerHeightMm: 120 };
    const geometry = boilerGeometry({ shape });
    const circleM3PerMm = (Math.PI / 4) * 80 ** 2 * 1e-9;
    expect(geometry.totalM3 / (circleM3PerMm * 120)).toBeCloseTo(1, 12);
    expect(geometry.m3PerMm(60) / circleM3PerMm).toBeCloseTo(1, 12);
    expect([-5, 0, 120, 130].map((levelMm) => geometry.m3PerMm(levelMm))).toEqual([0, 0, 0, 0]);
  });

  test("a tube as wide as the shell leaves no room and is refused", () => {
    const tubes = [{ outerDiameterMm: 80, count: 1 }];
    const shape: BoilerShape = { kind: "vertical", innerDiameterMm: 80, innerHeightMm: 120, tubes };
    expect(() => boilerGeometry({ shape })).toThrow(/the boiler holds 0 m3, permitted more than 0 m3/);
  });
});

describe("boiler measured by a table", () => {
  const points = [
    { levelMm: 0, waterMl: 100 },
    { levelMm: 10, waterMl: 150 },
    { levelMm: 20, waterMl: 190 },
  ];
  const geometry = boilerGeometry({ shape: { kind: "table", points, totalMl: 250 }, glassZeroMm: 7 });

  test.each(points)(
    "at a reading of $levelMm it holds the $waterMl ml measured, whatever the glass's zero",
    (point) => {
      expect(geometry.waterM3AtLevelMm(point.levelMm) * 1e6).toBeCloseTo(point.waterMl, 9);
    },
  );

  test("beyond the ends it goes on at the end slope, to nothing and to the whole", () => {
    const slope = geometry.m3PerMm(20);
    expect(geometry.waterM3AtLevelMm(25)).toBeCloseTo(190e-6 + 5 * slope, 15);
    expect(geometry.waterM3AtLevelMm(60)).toBe(geometry.totalM3);
    expect(geometry.m3PerMm(60)).toBe(0);
    expect(geometry.m3PerMm(-60)).toBe(0);
  });

  test("two points make a straight line", () => {
    const line = boilerGeometry({ shape: { kind: "table", points: points.slice(0, 2), totalMl: 250 } });
    expect(line.waterM3AtLevelMm(4) * 1e6).toBeCloseTo(120, 9);
  });

  test("one point is a constant volume", () => {
    const one = boilerGeometry({ shape: { kind: "table", points: points.slice(1, 2), totalMl: 250 } });
    expect([-100, 10, 100].map((levelMm) => one.waterM3AtLevelMm(levelMm))).toEqual([150e-6, 150e-6, 150e-6]);
    expect(one.m3PerMm(10)).toBe(0);
    expect(one.levelMmAtWaterM3(120e-6)).toBe(10);
  });

  test("no water between two points stays level between them", () => {
    const level = [...points, { levelMm: 30, waterMl: 190 }];
    const flat = boilerGeometry({ shape: { kind: "table", points: level, totalMl: 250 } });
    expect(flat.waterM3AtLevelMm(25) * 1e6).toBeCloseTo(190, 9);
    expect(flat.levelMmAtWaterM3(250e-6)).toBeCloseTo(30, 9);
  });

  test("points every 5 mm of a round boiler give its volume between them to 0.2 % of the whole", () => {
    const round = boilerGeometry({ shape: { kind: "horizontal", innerDiameterMm: 50, innerLengthMm: 150 } });
    const measured = Array.from({ length: 7 }, (_, i) => {
      const levelMm = 10 + 5 * i;
      return { levelMm, waterMl: round.waterM3AtLevelMm(levelMm) * 1e6 };
    });
    const shape: BoilerShape = { kind: "table", points: measured, totalMl: round.totalM3 * 1e6 };
    const tabled = boilerGeometry({ shape });
    for (let levelMm = 10; levelMm <= 40; levelMm += 0.5) {
      const difference = tabled.waterM3AtLevelMm(levelMm) - round.waterM3AtLevelMm(levelMm);
      expect(Math.abs(difference)).toBeLessThan(0.002 * round.totalM3);
    }
  });
});
