import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { interval, isMeasured, standardUncertainty } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const fine: Locomotive = {
  ...smallEngine(),
  instruments: {
    levelReadingMm: 0.01,
    feedRelative: 0,
    pressureReadingBar: 0.01,
    pressureBiasBar: 0,
    volumeReadingMl: 0.01,
  },
};

function drawnWith(change: (entries: Entry[]) => void, engine = fine): number {
  const steaming: Steaming = smallSteaming();
  change(steaming.entries);
  const drawn = analyse(engine, steaming).totals?.waterDrawn;
  if (drawn === undefined || !isMeasured(drawn)) throw new Error("no figure");
  return drawn.value;
}

const insert = (entries: Entry[], entry: Entry) => entries.splice(4, 0, entry);

/** 2 ml for each millimetre of the glass. */
const linear: Locomotive = {
  ...fine,
  boiler: {
    ...fine.boiler,
    shape: {
      kind: "table",
      totalMl: 200,
      points: [
        { levelMm: 0, waterMl: 0 },
        { levelMm: 100, waterMl: 200 },
      ],
    },
  },
};

describe("water drawn", () => {
  test("rises by what was fed, gram for gram, when the glass reads the same", () => {
    const without = drawnWith(() => {});
    fc.assert(
      fc.property(fc.double({ min: 1, max: 500, noNaN: true }), (ml) => {
        const gained =
          drawnWith((entries) => insert(entries, { kind: "feed", ml, by: "bottle", atS: 200 })) - without;
        // 0.9991 g/ml at 15 °C; never more than the feed itself
        expect(gained).toBeLessThanOrEqual(ml);
        expect(gained).toBeGreaterThan(0.998 * ml);
      }),
      { numRuns: 30 },
    );
  });

  test("falls by what was blown down", () => {
    const blown = drawnWith((entries) => insert(entries, { kind: "blowdown", ml: 20, atS: 200 }));
    expect(drawnWith(() => {}) - blown).toBeCloseTo(20 * 0.9991, 1);
  });

  test("of a boiler that only got hotter is nothing, though the level rose by the swelling", () => {
    // 100 ml of water at 15 °C (0.9991 g/ml) weigh 99.91 g; at 3 bar g (143.7 °C, 1.0836 ml/g) 108.3 ml
    const drawn = drawnWith((entries) => {
      entries.length = 0;
      entries.push(
        { kind: "level", mm: 50, atS: 0 },
        { kind: "pressure", barG: 0, atS: 0 },
        { kind: "fire", state: "lit", atS: 10 },
        { kind: "pressure", barG: 3, atS: 600 },
        { kind: "level", mm: 54.03, atS: 600 },
      );
    }, linear);
    expect(Math.abs(drawn)).toBeLessThan(0.2);
  });

  // 31.4 mm x 120 mm of the glass hold 37.7 ml: between 34.9 g in steam at 3 bar and 37.7 g cold
  test("by the glass with no pressure read: as wide as it may have swollen, never the cold water's figure alone", () => {
    const drawnFrom = (more: Entry[]) => {
      const entries: Entry[] = [
        { kind: "level", mm: 60, atS: 100 },
        ...more,
        { kind: "level", mm: 30, atS: 900 },
      ];
      const drawn = analyse(linear, { ...smallSteaming(), entries }).totals?.waterDrawn;
      if (drawn === undefined || !isMeasured(drawn)) throw new Error("no figure");
      return interval(drawn);
    };
    // 60 ml less: at 3 bar g water of 1.0836 ml/g and steam of 0.4622 l/g in its place, 55.2 g
    const inSteam = 60 / 1.0836 - 60 / 462.2;
    const running: Entry[] = [
      { kind: "regulator", state: "open", atS: 100 },
      { kind: "lap", count: 10, atS: 900 },
    ];
    const [low, high] = drawnFrom(running);
    expect(low).toBeLessThan(inSteam);
    expect(high).toBeGreaterThan(inSteam);
    expect(high - low).toBeLessThan(20);
    // nothing says whether she was warm at either end: 120 ml of cold water may stand where hot water does at the end
    const [least, most] = drawnFrom([]);
    expect(least).toBeLessThan(120 / 1.0836 - 60);
    expect(most).toBeGreaterThan(120 - 60 / 1.0836);
  });

  test("closes: phases from the first reading to the last add up to the total", () => {
    const steaming = smallSteaming();
    insert(steaming.entries, { kind: "level", mm: 19.9, atS: 59 });
    const { phases, totals } = analyse(fine, steaming);
    const sum = phases.reduce(
      (total, phase) => total + ((phase.steamingRate.value ?? Number.NaN) * (phase.toS - phase.fromS)) / 60,
      0,
    );
    expect(sum).toBeCloseTo(totals?.waterDrawn.value ?? Number.NaN, 1);
  });

  test("never owes less than two readings of the glass", () => {
    const coarse: Locomotive = { ...fine, instruments: { ...fine.instruments, levelReadingMm: 1 } };
    const drawn = analyse(coarse, smallSteaming()).totals?.waterDrawn;
    if (drawn === undefined || !isMeasured(drawn)) throw new Error("no figure");
    const [low, high] = interval(drawn);
    // 1 mm on the glass is at least 40 mm x 120 mm x 0.92 g/ml = 4.4 g
    expect(standardUncertainty(drawn)).toBeGreaterThan(Math.SQRT2 * 4.4);
    expect(high - low).toBeGreaterThan(2 * 1.95 * Math.SQRT2 * 4.4);
  });

  test("without any reading of water is null and says why", () => {
    const steaming = {
      ...smallSteaming(),
      entries: smallSteaming().entries.filter((entry) => entry.kind !== "level"),
    };
    const drawn = analyse(fine, steaming).totals?.waterDrawn;
    expect(drawn).toEqual({
      value: null,
      why: expect.stringContaining("nothing was read that tells the water"),
    });
  });

  test("from a filling and a draining alone: the total, and no rate of a phase that they cannot tell", () => {
    const entries: Entry[] = [
      { kind: "fill", ml: 150, atS: 0 },
      { kind: "fire", state: "lit", atS: 5 },
      { kind: "regulator", state: "open", atS: 600 },
      { kind: "regulator", state: "shut", atS: 900 },
      { kind: "fire", state: "out", atS: 1800 },
      { kind: "drained", ml: 50, atS: 3600 },
    ];
    const { totals, phases, perMinuteRunning } = analyse(fine, { ...smallSteaming(), entries });
    expect(totals?.waterDrawn.value).toBeCloseTo(100 * 0.9991, 0);
    const why = { value: null, why: expect.stringContaining("no rate") };
    expect(phases.map(({ name }) => name)).toEqual(["raising", "running", "standing", "shut-in"]);
    expect(phases.map(({ steamingRate }) => steamingRate)).toEqual([why, why, why, why]);
    expect(perMinuteRunning?.water).toEqual(why);
    // one look at the glass between the two, and there are rates
    const seen: Entry[] = [...entries.slice(0, 4), { kind: "level", mm: 10, atS: 900 }, ...entries.slice(4)];
    const { phases: told } = analyse(fine, { ...smallSteaming(), entries: seen });
    expect(told.some(({ steamingRate }) => steamingRate.value !== null)).toBe(true);
  });

  test("from a filling and a draining with nothing else: the total, and neither phases nor heat are made up", () => {
    const entries: Entry[] = [
      { kind: "fill", ml: 150, atS: 0 },
      { kind: "drained", ml: 50, atS: 3600 },
    ];
    // measured to 1 ml: the doubt is of two measures, and draws the figure no nearer to nothing
    const { totals, phases, heat } = analyse(smallEngine(), { ...smallSteaming(), entries });
    const drawn = totals?.waterDrawn;
    if (drawn === undefined || !isMeasured(drawn)) throw new Error("no figure");
    expect(drawn.value).toBeCloseTo(100 * 0.9991, 1);
    expect(standardUncertainty(drawn)).toBeCloseTo(Math.SQRT2 * 0.9991, 1);
    expect(totals).toMatchObject({ fromS: 0, toS: 3600 });
    expect(phases).toEqual([]);
    expect(heat).toBeNull();
    const lit: Entry[] = [
      ...entries.slice(0, 1),
      { kind: "fire", state: "lit", atS: 5 },
      ...entries.slice(1),
    ];
    expect(analyse(fine, { ...smallSteaming(), entries: lit }).heat).not.toBeNull();
  });

  test("by weighing the whole engine: loss of weight less the fuel burnt", () => {
    const entries: Entry[] = [
      { kind: "fuel", action: "added", g: 30, atS: 0 },
      { kind: "weight", g: 3000, atS: 1 },
      { kind: "fire", state: "lit", atS: 5 },
      { kind: "pressure", barG: 3, atS: 300 },
      { kind: "regulator", state: "open", atS: 300 },
      { kind: "regulator", state: "shut", atS: 900 },
      { kind: "fire", state: "out", atS: 900 },
      { kind: "fuel", action: "remaining", g: 10, atS: 900 },
      { kind: "weight", g: 2900, atS: 900 },
    ];
    const drawn = analyse(fine, { ...smallSteaming(), entries }).totals?.waterDrawn;
    expect(drawn?.value).toBeCloseTo(80, 0);
  });

  const weighings = (...more: Entry[]): Entry[] =>
    [
      { kind: "fire", state: "lit", atS: 5 } as const,
      { kind: "pressure", barG: 3, atS: 300 } as const,
      { kind: "regulator", state: "open", atS: 300 } as const,
      { kind: "regulator", state: "shut", atS: 900 } as const,
      { kind: "fire", state: "out", atS: 900 } as const,
      ...more,
    ].sort((a, b) => a.atS - b.atS);
  const burnt: Entry[] = [
    { kind: "fuel", action: "added", g: 30, atS: 0 },
    { kind: "fuel", action: "remaining", g: 10, atS: 900 },
  ];
  const weigh = (g: number, atS: number): Entry => ({ kind: "weight", g, atS });
  const weighed = (entries: Entry[]) => analyse(fine, { ...smallSteaming(), entries }).totals;

  test("weighed only once she has long stood in steam, after a filling: drawn from the first weighing to the last", () => {
    // 70 g lighter from 900 to 1500 s; 600 of 1495 s of fire in which 20 g burnt, 8.0 g
    const entries: Entry[] = [
      { kind: "fuel", action: "added", g: 30, atS: 0 },
      { kind: "fill", ml: 150, atS: 0 },
      { kind: "fire", state: "lit", atS: 5 },
      { kind: "pressure", barG: 3, atS: 300 },
      { kind: "phase", name: "standing", atS: 300 },
      { kind: "phase", name: "running", atS: 900 },
      weigh(3000, 900),
      weigh(2930, 1500),
      { kind: "fire", state: "out", atS: 1500 },
      { kind: "fuel", action: "remaining", g: 10, atS: 1500 },
    ];
    const totals = weighed(entries);
    expect(totals).toMatchObject({ fromS: 900, toS: 1500 });
    expect(totals?.waterDrawn.value).toBeCloseTo(70 - (20 * 600) / 1495, 0);
  });

  test("weighed before and after the filling: what was poured in is not taken for water that came by itself", () => {
    const filled: Entry = { kind: "fill", ml: 150, atS: 10 };
    const totals = weighed(
      weighings(...burnt, weigh(2850, 1), filled, weigh(2850 + 150 * 0.9991, 20), weigh(2930, 900)),
    );
    // 69.9 g lighter from 20 s on, of which 20 g of spirit
    expect(totals?.waterDrawn.value).toBeCloseTo(150 * 0.9991 - 80 - 20, 0);
    expect(totals).toMatchObject({ fromS: 1, toS: 900 });
  });

  test("weighed with a fire of which the fuel is not known: no figure, and why; with the fire out all the same", () => {
    expect(weighed(weighings(weigh(3000, 1), weigh(2920, 900)))?.waterDrawn).toEqual({
      value: null,
      why: expect.stringContaining("what her fire burnt"),
    });
    const out = weighed(weighings(weigh(3000, 1), weigh(2920, 900), weigh(2900, 1500)));
    expect(out?.waterDrawn.value).toBeCloseTo(20, 0);
    expect(out).toMatchObject({ fromS: 900, toS: 1500 });
  });

  test("by weighing with spirit poured in by ml between: the spirit is not taken for water", () => {
    const entries: Entry[] = [
      { kind: "fuel", action: "added", ml: 40, atS: 0 },
      { kind: "weight", g: 3000, atS: 1 },
      { kind: "fire", state: "lit", atS: 5 },
      { kind: "pressure", barG: 3, atS: 300 },
      { kind: "regulator", state: "open", atS: 300 },
      { kind: "fuel", action: "added", ml: 50, atS: 500 },
      { kind: "regulator", state: "shut", atS: 900 },
      { kind: "fire", state: "out", atS: 900 },
      { kind: "fuel", action: "remaining", ml: 40, atS: 900 },
      // 50 ml x 0.81 g/ml in and as much burnt: the weight falls by the water alone
      { kind: "weight", g: 2940, atS: 900 },
    ];
    const drawn = analyse(fine, { ...smallSteaming(), entries }).totals?.waterDrawn;
    expect(drawn?.value).toBeCloseTo(60, 0);
  });

  test("until a moment uses nothing that was logged later", () => {
    const early = analyse(fine, smallSteaming(), { untilS: 499 });
    expect(early.totals?.waterDrawn.value).toBeNull();
    expect(early.totals?.laps).toBe(0);
  });
});
