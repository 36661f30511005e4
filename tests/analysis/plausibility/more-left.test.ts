import { describe, expect, test } from "vitest";
import type { Entry } from "../../../src/logbook/entry.ts";
import { dial, levels, warned } from "./logs.ts";

const fuel = (atS: number, action: "added" | "remaining", amount: { g: number } | { ml: number }): Entry => ({
  id: `f${atS}`,
  kind: "fuel",
  atS,
  action,
  ...amount,
});
const burning: Entry[] = [
  { kind: "fire", atS: 100, state: "lit" },
  { kind: "fire", atS: 900, state: "out" },
];

describe("more fuel left than was put in", () => {
  const left = (...entries: Entry[]) =>
    warned(
      "fuel-left-more",
      [...burning, ...entries].sort((a, b) => a.atS - b.atS),
    );

  test("is named with all that was put in, both amounts and when", () => {
    const [warning, ...others] = left(
      fuel(0, "added", { g: 12 }),
      fuel(500, "added", { g: 8 }),
      fuel(950, "remaining", { g: 30 }),
    );
    expect(others).toEqual([]);
    expect(warning?.entries).toEqual(["f0", "f500", "f950"]);
    expect(warning?.text).toContain("at 15:50, 30 g, than there had been, 20 g");
  });

  // scales good to 1 g: three weighings, 3 x root 3 = 5.2 g
  test("is not, where the errors of weighing may have done it", () => {
    const weighed = (g: number) =>
      left(fuel(0, "added", { g: 12 }), fuel(500, "added", { g: 8 }), fuel(950, "remaining", { g }));
    expect(weighed(25)).toEqual([]);
    expect(weighed(25.5)).toHaveLength(1);
  });

  test("is told from the look before, and what was added since", () => {
    const looked = (g: number) =>
      left(
        fuel(0, "added", { g: 40 }),
        fuel(300, "remaining", { g: 20 }),
        fuel(500, "added", { g: 5 }),
        fuel(950, "remaining", { g }),
      );
    expect(looked(24)).toEqual([]);
    expect(looked(35)[0]?.entries).toEqual(["f300", "f500", "f950"]);
  });

  test("the first look tells what there was", () => {
    expect(left(fuel(50, "remaining", { g: 30 }), fuel(950, "remaining", { g: 10 }))).toEqual([]);
    expect(left(fuel(50, "remaining", { g: 10 }), fuel(950, "remaining", { g: 30 }))).toHaveLength(1);
  });

  test("in millilitres it is said in millilitres; beside grams it is weighed by its density", () => {
    const [warning] = left(fuel(0, "added", { ml: 20 }), fuel(950, "remaining", { ml: 45 }));
    expect(warning?.text).toContain("45 ml, than there had been, 20 ml");
    // spirit of 0.8 g/ml (our engine's): 20 ml are 16 g
    const mixed = (g: number) => left(fuel(0, "added", { ml: 20 }), fuel(950, "remaining", { g }));
    expect(mixed(19)).toEqual([]);
    expect(mixed(21)[0]?.text).toContain("21 g, than there had been, 1");
  });

  // 2 ml of 0.8 g/ml are in doubt by 1.6 g: three times that beyond 16 g is 20.8 g
  test("a volume beside a weight is in doubt by its weight", () => {
    const engine = {
      fuel: { kind: "spirit" as const, densityGPerMl: 0.8 },
      instruments: { volumeReadingMl: 2, massReadingG: 0.01 },
    };
    const named = (g: number) =>
      warned(
        "fuel-left-more",
        [...burning, fuel(0, "added", { ml: 20 }), fuel(950, "remaining", { g })].sort(
          (a, b) => a.atS - b.atS,
        ),
        { engine },
      );
    expect(named(20.7)).toEqual([]);
    expect(named(20.9)).toHaveLength(1);
  });

  test("nothing is said where nothing can be compared: a fuel of unknown density, by volume and by weight", () => {
    const unknown = { engine: { fuel: { kind: "other" as const } } };
    const log = [...burning, fuel(0, "added", { ml: 20 }), fuel(950, "remaining", { g: 40 })];
    expect(warned("fuel-left-more", log, unknown)).toEqual([]);
    const alike = [...burning, fuel(0, "added", { ml: 20 }), fuel(950, "remaining", { ml: 40 })];
    expect(warned("fuel-left-more", alike, unknown)).toHaveLength(1);
    const weighed = [...burning, fuel(0, "added", { g: 20 }), fuel(950, "remaining", { g: 40 })];
    expect(warned("fuel-left-more", weighed, unknown)).toHaveLength(1);
  });
});

describe("more water left than was there and was put in", () => {
  const weight = (atS: number, g: number): Entry => ({ id: `w${atS}`, kind: "weight", atS, g });

  // balance good to 1 g each time: root 2, three of them 4.2 g
  test("is named where the engine came back heavier than she went out", () => {
    const [warning, ...others] = warned("water-left-more", [weight(0, 2000), weight(900, 2030)]);
    expect(others).toEqual([]);
    expect(warning?.entries).toEqual(["w0", "w900"]);
    expect(warning?.text).toContain("About 30 g more water was left at 15:00 than was there at 0:00");
    expect(warned("water-left-more", [weight(0, 2000), weight(900, 2004)])).toEqual([]);
    expect(warned("water-left-more", [weight(0, 2000), weight(900, 2005)])).toHaveLength(1);
    const fed: Entry = { kind: "feed", atS: 500, ml: 40, by: "bottle" };
    expect(warned("water-left-more", [weight(0, 2000), fed, weight(900, 2030)])).toEqual([]);
  });

  test("is said once where a rise of the level says it already", () => {
    const log: Entry[] = [...dial([3, 3, 3, 3]), ...levels([8, 20], 150)];
    expect(warned("level-rising", log)).toHaveLength(1);
    expect(warned("water-left-more", log)).toEqual([]);
  });

  test("is named where more was let out in the end than was filled in", () => {
    const log = (ml: number): Entry[] => [
      { id: "fill", kind: "fill", atS: -10, ml: 100 },
      ...dial([0, 1, 2, 3, 3, 3], 150),
      ...levels([12, 10], 200, 600),
      { id: "drained", kind: "drained", atS: 4000, ml },
    ];
    expect(warned("water-left-more", log(130))[0]?.entries).toEqual(["fill", "drained"]);
    expect(warned("water-left-more", log(60))).toEqual([]);
  });
});

test("water that a level logger saw grow names no entry that happened to be written then", () => {
  const values = Array.from({ length: 120 }, (_, i) => (i < 60 ? 8 : 20));
  const [warning] = warned("level-rising", [...dial([3, 3, 3, 3])], {
    steaming: { traces: [{ channel: "levelMm", startS: 0, everyS: 2, values }] },
  });
  expect(warning?.entries).toEqual([]);
});
