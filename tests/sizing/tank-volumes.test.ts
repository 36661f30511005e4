import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { buildUpOf } from "../../src/sizing/build-up.ts";
import { sidePieces } from "../../src/sizing/tank-pieces.ts";
import { type TankShape, tankShapeOf } from "../../src/sizing/tank-shape.ts";
import { floorMm, insideLengthMm, roofMm, roomMl, tankWaterOf } from "../../src/sizing/tank-water.ts";
import type { Tank } from "../../src/sizing/tanks-schema.ts";
import { space } from "./usual-space.ts";

const up = buildUpOf(space, 1, undefined);
const side = (more: Partial<Extract<Tank, { kind: "side-pair" }>> = {}): Tank => ({
  kind: "side-pair",
  length: 101.4,
  height: 31.4,
  base: -10,
  plate: 0.7,
  ...more,
});
const shape = (tank: Tank): TankShape => {
  const made = tankShapeOf(tank, up, 1);
  if (typeof made === "string") throw new Error(made);
  return made;
};

describe("volumes by closed forms", () => {
  test("a flat side tank is length x width x height inside, twice", () => {
    // cleading 25 + 1 + 0.3 + 0.2 = 26.5; face 27.5; inside from 28.2 to 45 - 0.7 = 44.3: 16.1 wide, 30 high, 100 long
    const water = tankWaterOf(shape(side()), 1);
    expect(water).toMatchObject({ wholeMl: expect.closeTo(2 * 100 * 16.1 * 30 * 1e-3, 9) });
  });

  test("a tank above the boiler's middle may come as near as the round of the cleading lets it", () => {
    const tank = shape(side({ base: 12 }));
    expect(tank.section.innerMm(20)).toBeCloseTo(Math.sqrt(27.5 ** 2 - 12 ** 2) + 0.7, 9);
  });

  test("a curved face over half the round holds the rectangle less a quarter circle", () => {
    // outer inside face at x = 44.3; arc radius 28.2 about height 0; floor at 0; roof at 28.2; nearest 0
    const tank = shape(side({ base: -0.7, height: 28.2 + 1.4, innerFace: "curved", nearest: 0 }));
    const nearestInside = 0.7;
    const end = Math.sqrt(28.2 ** 2 - nearestInside ** 2);
    const arc = (end * nearestInside + 28.2 ** 2 * Math.asin(end / 28.2)) / 2;
    const byHand = 100 * (44.3 * 28.2 - arc - nearestInside * (28.2 - end));
    expect(roomMl(tank, 0, 28.2)).toBeCloseTo(byHand / 1000, 9);
    expect(roomMl(tank, 0, 28.2)).toBeCloseTo((100 * (44.3 * 28.2 - (Math.PI / 4) * 28.2 ** 2)) / 1000, 1);
  });

  test("a curved tank comes no nearer to the middle than its owner lets it, though the cleading leaves more", () => {
    // outer inside face at 44.3; kept 35 from the middle its inside begins at 35.7: 8.6 wide, 30 high, 100 long
    const tank = shape(side({ innerFace: "curved", nearest: 35 }));
    expect(tank.widthMm).toBeCloseTo(45 - 35, 9);
    expect(tankWaterOf(tank, 1)).toMatchObject({ wholeMl: expect.closeTo((2 * 100 * 8.6 * 30) / 1000, 9) });
    expect(sidePieces(tank, 0.4)[1]?.note).toBeNull();
  });

  test("a balance pipe that is wider than the tank is high is refused", () => {
    expect(tankWaterOf(shape(side({ balancePipe: 30.1 })), 1)).toMatch(/^a balance pipe of 30.1 mm bore/);
    expect(tankWaterOf(shape(side({ balancePipe: 30 })), 1)).toHaveProperty("wholeMl");
  });

  test("corner radius, cut-outs, pump, pipes, freeboard and dead depth are taken away by their own sizes", () => {
    const tank = shape(
      side({
        cornerRadius: 4,
        freeboard: 3,
        deadDepth: 2,
        pumpBodyMl: 5,
        pipes: [{ diameter: 3, length: 60, count: 2 }],
        cutOuts: [{ along: 20, length: 25, up: 0, height: 10 }],
      }),
    );
    const corners = 2 * (1 - Math.PI / 4) * 16;
    const pipes = 2 * (Math.PI / 4) * 9 * 60;
    const byHand = (100 * 16.1 - corners) * 25 - 25 * 16.1 * 8 - pipes - 5000;
    expect(tankWaterOf(tank, 0.1)).toMatchObject({ usableMl: expect.closeTo((2 * byHand) / 1000, 9) });
  });

  test("without freeboard and dead depth the usable fraction applies", () => {
    const whole = 2 * 100 * 16.1 * 30 * 1e-3;
    expect(tankWaterOf(shape(side()), 0.87)).toMatchObject({ usableMl: expect.closeTo(0.87 * whole, 9) });
  });

  test("a box with rounded corners is its rectangle less four corners", () => {
    const box = shape({ kind: "well", length: 61.4, width: 31.4, height: 21.4, plate: 0.7, cornerRadius: 5 });
    const byHand = (60 * 30 - 4 * (1 - Math.PI / 4) * 25) * 20;
    expect(tankWaterOf(box, 1)).toMatchObject({ wholeMl: expect.closeTo(byHand / 1000, 9) });
  });
});

describe("the pipe that joins a pair", () => {
  test("adds its bore between the inner faces to what is held, and nothing to what can be drawn", () => {
    const water = (more: object) => {
      const held = tankWaterOf(shape(side({ deadDepth: 1, ...more })), 1);
      if (typeof held === "string") throw new Error(held);
      return held;
    };
    const [without, joined] = [water({}), water({ balancePipe: 4 })];
    // inside to inside across the flat faces: 2 x 28.2
    expect(joined.wholeMl - without.wholeMl).toBeCloseTo((Math.PI * 4 * 56.4) / 1000, 9);
    expect(joined.usableMl).toBeCloseTo(without.usableMl, 9);
    // a curved tank whose floor stands 9.3 under the middle: the arc of 28.2 there
    const curved = { innerFace: "curved", nearest: 10 } as const;
    const across = 2 * Math.sqrt(28.2 ** 2 - 9.3 ** 2);
    expect(water({ ...curved, balancePipe: 4 }).wholeMl - water(curved).wholeMl).toBeCloseTo(
      (Math.PI * 4 * across) / 1000,
      9,
    );
  });
});

/** Whether a point of a box's inside holds water, from its front left lower outside corner. */
function wetBox(tank: Box, x: number, y: number, z: number): boolean {
  const { length, width, height, plate, cornerRadius: radius } = tank;
  if (z < plate + tank.deadDepth || z > height - plate - tank.freeboard) return false;
  if (x < plate || x > width - plate || y < plate || y > length - plate) return false;
  const [fromSide, fromEnd] = [Math.min(x, width - x) - plate, Math.min(y, length - y) - plate];
  if (fromSide < radius && fromEnd < radius && Math.hypot(radius - fromSide, radius - fromEnd) > radius)
    return false;
  return !tank.cutOuts.some(
    ({ along, length: long, up: above, height: high, width: deep }) =>
      y > plate + along &&
      y < plate + along + long &&
      z > plate + above &&
      z < plate + above + high &&
      (deep === undefined || x > width - plate - deep),
  );
}

interface Box {
  length: number;
  width: number;
  height: number;
  plate: number;
  cornerRadius: number;
  freeboard: number;
  deadDepth: number;
  cutOuts: { along: number; length: number; up: number; height: number; width?: number }[];
}

/** Whether a point of one tank's inside holds water, told point by point and by nothing that the volumes use. */
function wet(tank: Tank, x: number, y: number, z: number): boolean {
  if (tank.kind !== "side-pair") throw new Error("the count is of side tanks");
  const [length, height, base] = [tank.length, tank.height, tank.base].map(Number) as [
    number,
    number,
    number,
  ];
  const [plate, radius] = [Number(tank.plate), Number(tank.cornerRadius ?? 0)];
  const outer = 45 - plate;
  const dead = Number(tank.deadDepth ?? 0);
  const free = Number(tank.freeboard ?? 0);
  if (z < base + plate + dead || z > base + height - plate - free) return false;
  if (y < plate || y > length - plate || x > outer) return false;
  if (tank.innerFace === "curved") {
    if (x < Number(tank.nearest) + plate || Math.hypot(x, z) < 27.5 + plate) return false;
  } else {
    const low = Math.min(Math.abs(base), Math.abs(base + height));
    const closest = base <= 0 && base + height >= 0 ? 0 : low;
    if (x < Math.sqrt(Math.max(0, 27.5 ** 2 - closest ** 2)) + plate) return false;
  }
  for (const end of [plate + radius, length - plate - radius]) {
    const beyond = end < length / 2 ? y < end : y > end;
    if (beyond && x > outer - radius && Math.hypot(y - end, x - (outer - radius)) > radius) return false;
  }
  return !(tank.cutOuts ?? []).some((cut) => {
    const [along, long, upwards, high] = [cut.along, cut.length, cut.up, cut.height].map(Number) as [
      number,
      number,
      number,
      number,
    ];
    const inLength = y > plate + along && y < plate + along + long;
    const inHeight = z > base + plate + upwards && z < base + plate + upwards + high;
    return inLength && inHeight && (cut.width === undefined || x > outer - Number(cut.width));
  });
}

/**
 * A count over small boxes with one point at random in each (from a fixed seed): unbiased, its own error far below
 * 0.1 % at a million boxes. ml of both tanks.
 */
const counted = (tank: Tank, made: TankShape): number =>
  2 * countedIn([45, made.lengthMm, made.heightMm], (x, y, z) => wet(tank, x, y, made.undersideMm + z));

function countedIn(
  [wide, long, high]: readonly [number, number, number],
  isWet: (x: number, y: number, z: number) => boolean,
): number {
  let state = 12345;
  const random = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  const [nx, ny, nz] = [110, 90, 110];
  const [dx, dy, dz] = [wide / nx, long / ny, high / nz];
  let count = 0;
  for (let i = 0; i < nx; i++) {
    for (let j = 0; j < ny; j++) {
      for (let k = 0; k < nz; k++) {
        const z = (k + random()) * dz;
        if (isWet((i + random()) * dx, (j + random()) * dy, z)) count += 1;
      }
    }
  }
  return (count * dx * dy * dz) / 1000;
}

describe("volumes by counting", () => {
  const cases: Record<string, Partial<Extract<Tank, { kind: "side-pair" }>>> = {
    flat: {},
    "curved, about the middle": { innerFace: "curved", nearest: 12, base: -12 },
    "curved, with the top over the boiler": { innerFace: "curved", nearest: 10, base: -4, height: 36 },
    "curved, all above the middle": { innerFace: "curved", nearest: 14, base: 3 },
    "everything at once": {
      innerFace: "curved",
      nearest: 12,
      base: -8,
      cornerRadius: 5,
      freeboard: 3,
      deadDepth: 2,
      cutOuts: [
        { along: 15, length: 20, up: 0, height: 9 },
        { along: 50, length: 30, up: 12, height: 10, width: 8 },
      ],
    },
  };
  test.each(Object.keys(cases))("%s: the count and the volume agree within a thousandth", (name) => {
    const tank = side({ freeboard: 0, ...cases[name] });
    const made = shape(tank);
    const water = tankWaterOf(made, 1);
    if (typeof water === "string") throw new Error(water);
    expect(Math.abs(counted(tank, made) / water.usableMl - 1)).toBeLessThan(1e-3);
  });
});

describe("volumes of boxes by counting", () => {
  const plain: Box = {
    length: 72,
    width: 41,
    height: 33,
    plate: 0.8,
    cornerRadius: 0,
    freeboard: 0,
    deadDepth: 0,
    cutOuts: [],
  };
  const cases: Record<string, Partial<Box>> = {
    plain: {},
    "rounded corners": { cornerRadius: 7 },
    "a cut-out from the outer face and one right through": {
      cutOuts: [
        { along: 8, length: 18, up: 4, height: 11, width: 13 },
        { along: 35, length: 20, up: 9, height: 8 },
      ],
    },
    "everything at once": {
      cornerRadius: 5,
      freeboard: 4,
      deadDepth: 3,
      cutOuts: [
        { along: 6, length: 18, up: 0, height: 11, width: 13 },
        { along: 35, length: 20, up: 20, height: 10 },
      ],
    },
  };
  const kinds = ["well", "bunker", "tender"] as const;
  test.each(Object.keys(cases).flatMap((name) => kinds.map((kind) => [name, kind] as const)))(
    "%s, as a %s tank: the count and the volume agree within a thousandth",
    (name, kind) => {
      const box: Box = { ...plain, ...cases[name] };
      // where a well tank stands changes nothing of what it holds
      const water = tankWaterOf(
        shape({ kind, ...box, ...(kind === "well" ? { base: -70 } : {}) } as Tank),
        1,
      );
      if (typeof water === "string") throw new Error(water);
      const count = countedIn([box.width, box.length, box.height], (x, y, z) => wetBox(box, x, y, z));
      expect(Math.abs(count / water.usableMl - 1)).toBeLessThan(1e-3);
    },
  );
});

describe("properties", () => {
  const anySide = fc.record({
    length: fc.double({ min: 30, max: 250, noNaN: true }),
    height: fc.double({ min: 8, max: 60, noNaN: true }),
    base: fc.double({ min: -25, max: 20, noNaN: true }),
    innerFace: fc.constantFrom("flat" as const, "curved" as const),
    freeboard: fc.double({ min: 0, max: 3, noNaN: true }),
  });

  test("room adds up: two parts of the height hold what the whole does", () => {
    fc.assert(
      fc.property(anySide, fc.double({ min: 0, max: 1, noNaN: true }), (more, share) => {
        const tank = shape(side(more));
        const [low, high] = [floorMm(tank), roofMm(tank)];
        const middle = low + share * (high - low);
        const parts = roomMl(tank, low, middle) + roomMl(tank, middle, high);
        expect(parts).toBeCloseTo(roomMl(tank, low, high), 6);
      }),
    );
  });

  test("a longer tank never holds less, and nothing is ever held that is not above 0", () => {
    fc.assert(
      fc.property(anySide, fc.double({ min: 0.1, max: 20, noNaN: true }), (more, extra) => {
        const [short, long] = [shape(side(more)), shape(side({ ...more, length: more.length + extra }))];
        const [a, b] = [tankWaterOf(short, 1), tankWaterOf(long, 1)];
        if (typeof a === "string" || typeof b === "string") return;
        expect(a.usableMl).toBeGreaterThan(0);
        expect(b.usableMl).toBeGreaterThan(a.usableMl);
        expect(a.usableMl).toBeLessThanOrEqual(a.wholeMl + 1e-9);
      }),
    );
  });

  test("a curved face never holds less than a flat one in the same place", () => {
    fc.assert(
      fc.property(anySide, (more) => {
        const flat = shape(side({ ...more, innerFace: "flat" }));
        const curved = shape(side({ ...more, innerFace: "curved" }));
        const room = (tank: TankShape) => roomMl(tank, floorMm(tank), roofMm(tank)) / insideLengthMm(tank);
        expect(room(curved)).toBeGreaterThanOrEqual(room(flat) - 1e-9);
      }),
    );
  });
});

describe("what cannot be made is said in words and never as a negative number", () => {
  test.each([
    [{ height: 1.2 }, "no height"],
    [{ length: 1 }, "no length"],
    [{ freeboard: 20, deadDepth: 15 }, "take 35.0 mm of 30.0 mm"],
    [{ cornerRadius: 30 }, "does not go into"],
    [{ cutOuts: [{ along: 90, length: 30, up: 0, height: 5 }] }, "reaches out of the inside"],
    [{ cutOuts: [{ along: 10, length: 30, up: 0, height: 5, width: 40 }] }, "goes right through"],
    [{ cornerRadius: 4, cutOuts: [{ along: 1, length: 30, up: 0, height: 5 }] }, "rounded corner"],
    [
      {
        cutOuts: [
          { along: 10, length: 30, up: 0, height: 5 },
          { along: 20, length: 30, up: 2, height: 5 },
        ],
      },
      "overlap",
    ],
    [{ pumpBodyMl: 500 }, "pump and pipes take up 500.0 ml, and there is room for 48.3 ml"],
  ] satisfies [Partial<Extract<Tank, { kind: "side-pair" }>>, string][])("%j", (more, words) => {
    expect(tankWaterOf(shape(side(more)), 0.87)).toContain(words);
  });

  test("a loading gauge that the lagged boiler fills", () => {
    const narrow = buildUpOf({ ...space, loadingGauge: 54 }, 1, undefined);
    const tank = tankShapeOf(side(), narrow, 1);
    // 27 - 0.7 outside, 27.5 + 0.7 inside: 1.9 mm too little
    expect(typeof tank === "string" ? tank : tankWaterOf(tank, 1)).toContain("1.9 mm too little");
  });

  test("a boiler or a gauge that nobody gave", () => {
    expect(tankShapeOf(side(), { ...up, gaugeMm: null }, 1)).toContain("give the loading gauge");
    expect(tankShapeOf(side(), { ...up, boilerRadiusMm: null }, 1)).toContain(
      "give the boiler's outside diameter",
    );
  });
});
