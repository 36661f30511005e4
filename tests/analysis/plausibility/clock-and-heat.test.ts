import { describe, expect, test } from "vitest";
import type { Entry } from "../../../src/logbook/entry.ts";
import { dial, levels, warned } from "./logs.ts";

const lit: Entry = { kind: "fire", atS: 0, state: "lit" };

describe("a clock that was set while the log ran", () => {
  test("put back: the order of writing falls once and then goes on", () => {
    const log = [
      ...dial([1, 1.4, 1.8, 2.2, 2.6], 100, 0),
      ...levels([18, 17, 16], 50, 150),
      { id: "p6", kind: "pressure", atS: 350, barG: 2.7 } as const,
    ];
    const [warning, ...others] = warned("clock-stepped", log);
    expect(others).toEqual([]);
    expect(warning?.entries).toEqual(["p5", "l1"]);
    expect(warning?.text).toContain("250 s");
  });

  // a reading a minute, and after the fifth the clock is put back by 100 s: two more stand before the fifth in time
  test("put back by little more than the time between two entries", () => {
    const log = [...dial([2, 2.2, 2.4, 2.6, 2.8], 60), ...dial([2.9, 3, 3, 3], 60, 140)].map((entry, i) => ({
      ...entry,
      id: `p${i + 1}`,
    }));
    const [warning, ...others] = warned("clock-stepped", log);
    expect(others).toEqual([]);
    expect(warning?.entries).toEqual(["p5", "p6"]);
    expect(warning?.text).toContain("about 100 s after 4:00");
  });

  test("two readings of one moment written late are no step", () => {
    const late: Entry[] = [
      { id: "late1", kind: "pressure", atS: 130, barG: 2.4 },
      { id: "late2", kind: "pressure", atS: 136, barG: 2.4 },
    ];
    const log = [...dial([2, 2.2, 2.4, 2.6, 2.8], 60), ...late, ...dial([2.9, 3, 3], 60, 300)];
    expect(warned("clock-stepped", log)).toEqual([]);
    expect(warned("out-of-order", log)[0]?.entries).toEqual(["late1", "late2"]);
  });

  test("a file that lists the dial first and then the glass has no clock that stepped", () => {
    expect(
      warned("clock-stepped", [...dial([1, 1.4, 1.8, 2.2, 2.6], 100), ...levels([18, 17, 16, 15, 14], 100)]),
    ).toEqual([]);
  });

  test("one entry written late is no step of the clock", () => {
    const log = [
      ...dial([1, 1.4, 1.8, 2.2, 2.6], 100, 0),
      ...levels([18], 100, 150),
      ...dial([2.8, 3], 100, 500),
    ];
    expect(warned("clock-stepped", log)).toEqual([]);
    expect(warned("out-of-order", log)[0]?.entries).toEqual(["l1"]);
  });

  const before = [lit, ...dial([2.9, 3, 3, 3, 3], 60), ...levels([18, 18, 17, 17, 17], 60)];

  test("put forward: a long gap, fire lit, over which nothing changed", () => {
    const after: Entry[] = [
      { id: "next", kind: "pressure", atS: 3900, barG: 3 },
      { kind: "level", atS: 3901, mm: 17 },
    ];
    const [warning] = warned("clock-stepped", [...before, ...after]);
    expect(warning?.entries).toContain("next");
    expect(warning?.text).toContain("put forward");
  });

  // written every two minutes: twelve of those are 24
  test("a gap is long by what is usual in the log", () => {
    const stepped = (gapS: number) =>
      warned("clock-stepped", [
        lit,
        ...dial([3, 3, 3, 3], 120),
        { kind: "level", atS: 360, mm: 17 },
        { kind: "pressure", atS: 360 + gapS, barG: 3 },
        { kind: "level", atS: 361 + gapS, mm: 17 },
        { kind: "pressure", atS: 480 + gapS, barG: 3 },
      ]);
    expect(stepped(1430)).toEqual([]);
    expect(stepped(1450)).toHaveLength(1);
  });

  // read to 0.7 mm: twice that is as before
  test("water stands as before within two reading errors", () => {
    const stepped = (mm: number) =>
      warned(
        "clock-stepped",
        [...before, { kind: "pressure", atS: 3900, barG: 3 }, { kind: "level", atS: 3901, mm }],
        { engine: { instruments: { levelReadingMm: 0.7 } } },
      );
    for (const sign of [-1, 1]) {
      expect(stepped(17 + 1.3 * sign)).toHaveLength(1);
      expect(stepped(17 + 1.5 * sign)).toEqual([]);
    }
  });

  test("a pause in which water was used, or the fire was out, is a pause", () => {
    const used: Entry[] = [
      { kind: "pressure", atS: 3900, barG: 3 },
      { kind: "level", atS: 3901, mm: 9 },
    ];
    expect(warned("clock-stepped", [...before, ...used])).toEqual([]);
    const cold: Entry[] = [
      { kind: "fire", atS: 250, state: "out" },
      { kind: "pressure", atS: 3900, barG: 3 },
      { kind: "level", atS: 3901, mm: 17 },
    ];
    expect(warned("clock-stepped", [...before, ...cold])).toEqual([]);
  });

  describe("put forward while she ran", () => {
    const open = (atS: number): Entry => ({ kind: "regulator", atS, state: "open" });
    const shut = (atS: number): Entry => ({ kind: "regulator", atS, state: "shut" });
    const level = (atS: number, mm: number): Entry => ({ kind: "level", atS, mm });
    const laps = (fromS: number, count: number): Entry[] =>
      Array.from(
        { length: count },
        (_, i): Entry => ({ id: `${fromS + 36 * i}`, kind: "lap", atS: fromS + 36 * i, count: 1 }),
      );
    /** ten laps of 36 s until 660 s, 6 mm of water gone in the last five minutes */
    const run = [lit, open(300), ...laps(336, 10), ...dial([3, 3.1], 300), level(310, 20), level(610, 14)];
    /** laps again, `stepS` later than the next would be, the water and the pressure at the first of them */
    const on = (stepS: number, mm: number, barG = 3.2): Entry[] => [
      ...laps(696 + stepS, 5),
      { kind: "pressure", atS: 710 + stepS, barG },
      level(730 + stepS, mm),
    ];
    const stepped = (entries: Entry[]) => warned("clock-stepped", entries);

    test("a lap of an hour and 36 s where 36 s are usual, whatever was fed", () => {
      const [warning] = stepped([...run, { kind: "feed", atS: 640, ml: 100, by: "bottle" }, ...on(3600, 22)]);
      expect(warning?.entries).toEqual(["660", "4296"]);
      expect(warning?.text).toContain("put forward");
    });

    test("a run of half an hour that took no more water than a few laps take", () => {
      expect(stepped([...run, ...on(1800, 12)])).toHaveLength(1);
      expect(stepped([...run, ...on(1800, 2)])).toEqual([]);
    });

    test("what was fed meanwhile may be why the water did not fall", () => {
      const fed: Entry = { kind: "feed", atS: 2500, ml: 100, by: "bottle" };
      expect(stepped([...run, ...on(1800, 12), fed])).toEqual([]);
    });

    test("a rest between two runs is a rest", () => {
      expect(stepped([...run, ...on(3600, 10)])).toHaveLength(1);
      expect(stepped([...run, shut(665), open(4280), ...on(3600, 10)])).toEqual([]);
      expect(stepped([...run, open(4280), ...on(3600, 10)])).toEqual([]);
      expect(stepped([...run, shut(665), ...on(3600, 10)])).toEqual([]);
      expect(stepped([...run, ...on(2400, 10, 1.5)])).toEqual([]);
      expect(stepped([...run, { kind: "fire", atS: 661, state: "out" }, ...on(3600, 10)])).toEqual([]);
    });
  });
});

describe("evaporation above what the fuel holds", () => {
  const burnt: Entry[] = [
    { id: "fuel", kind: "fuel", atS: 0, action: "added", g: 4 },
    { kind: "fuel", atS: 900, action: "remaining", g: 0 },
  ];
  const fire: Entry[] = [lit, { kind: "fire", atS: 900, state: "out" }];
  const glass = levels([24, 20, 16, 12, 8, 4], 180);

  test("is told by the heat where pressure was read", () => {
    const [warning] = warned("heat-ceiling", [...burnt, ...fire, ...glass, ...dial([3, 3, 3, 3, 3, 3], 180)]);
    expect(warning?.entries).toContain("fuel");
  });

  test("is told by the water alone where it was not", () => {
    const bare: Entry[] = [
      { kind: "fill", atS: 0, ml: 150 },
      ...burnt,
      ...fire,
      { kind: "drained", atS: 901, ml: 30 },
    ];
    const [warning] = warned("evaporation-ceiling", bare);
    expect(warning?.entries).toContain("fuel");
    expect(warning?.text).toContain("at the most");
    const enough = bare.map((entry) =>
      entry.kind === "fuel" && entry.action === "added" ? { ...entry, g: 40 } : entry,
    );
    expect(warned("evaporation-ceiling", enough)).toEqual([]);
  });
});
