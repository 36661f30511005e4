import { describe, expect, test } from "vitest";
import { ratio } from "../../../src/analysis/ratio.ts";
import {
  balanceInputOf,
  drawnInAll,
  drawnWithin,
  feedTotal,
  notTold,
  rateWithin,
} from "../../../src/analysis/water/water.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { absent, exact, isMeasured, measured, standardUncertainty } from "../../../src/quantity/measured.ts";
import { smallEngine } from "../../support/small-logbook.ts";
import { bar, bypass, level, phase, run, sources, waterWith } from "./water-log.ts";

describe("the clock by which the demand strays", () => {
  test("runs three tenths as fast while she does not run", () => {
    const { livelyS } = balanceInputOf(sources(run));
    expect(livelyS(300) - livelyS(0)).toBeCloseTo(90, 9);
    expect(livelyS(500) - livelyS(300)).toBeCloseTo(200, 9);
    expect(livelyS(1200) - livelyS(0)).toBeCloseTo(90 + 600 + 90, 9);
  });

  test("is the watch's where she never ran", () => {
    const { livelyS } = balanceInputOf(
      sources(run.filter((entry) => entry.kind !== "phase" || entry.name !== "running")),
    );
    expect(livelyS(700)).toBe(700);
  });
});

describe("an axle pump with its by-pass shut", () => {
  const pumped = { ...smallEngine(), axlePump: { ramMm: 5, strokeMm: 8, strokesPerRev: 1 } };
  const shut = (purpose: Steaming["purpose"], entries: Entry[]) =>
    balanceInputOf(sources([bypass("shut", 0), ...entries], pumped, { purpose })).pumpingS;
  const stood = run.filter((entry) => entry.kind !== "phase" || entry.name !== "running");

  test("feeds nothing in a standing test, in which her wheels do not turn", () => {
    expect(shut("standing", stood)).toBeNull();
    expect(shut("other", stood)?.(1200)).toBeGreaterThan(0);
    expect(shut("standing", run)?.(1200)).toBeGreaterThan(0);
  });
});

describe("what was drawn", () => {
  const fell = waterWith(run);

  test("in windows together is the sum of them, and a rate is it by the minute", () => {
    const all = drawnWithin(fell, [[0, 1200]]);
    if (!isMeasured(all)) throw new Error(all.why);
    const two = drawnWithin(fell, [
      [0, 600],
      [600, 1200],
    ]);
    expect(two.value).toBeCloseTo(all.value, 6);
    const rate = rateWithin(fell, 0, 1200);
    expect(rate).toMatchObject({ value: expect.closeTo(all.value / 20, 9), unit: "g/min" });
    expect(isMeasured(rate) ? standardUncertainty(rate) : 0).toBeCloseTo(standardUncertainty(all) / 20, 9);
  });

  test("is not to be had without two readings, and says which were missing", () => {
    expect(waterWith(run.filter(({ kind }) => kind !== "level")).why).toMatch(
      /^nothing was read that tells the water/,
    );
    const once = waterWith(run.slice(0, -1));
    expect(once.why).toBe("the water in the boiler was read once only: read it again");
    expect(rateWithin(once, 0, 600)).toEqual({ value: null, why: once.why });
  });

  test("of a part that the readings do not tell says how often the water was read", () => {
    expect(rateWithin(fell, 300, 900)).toEqual({ value: null, why: notTold(fell) });
    expect(notTold(fell)).toMatch(/^the water was read twice only/);
    expect(notTold(waterWith([...run.slice(0, -1), level(12, 1190), level(12, 1200)]))).toMatch(
      /^the readings of water do not tell/,
    );
  });
});

describe("what cannot be told of the water at all", () => {
  const nothing = /^nothing was read that tells the water/;
  const scale: Pick<Steaming, "traces"> = {
    traces: [{ channel: "massG", startS: 0, everyS: 60, values: [3000, 2990, 2980, 2970, 2960] }],
  };
  const fired: Entry[] = [{ kind: "fire", state: "lit", atS: 0 }, bar(3, 0), bar(3, 240)];

  test("is none at all, of no time", () => {
    const none = waterWith(fired);
    expect(none.why).toMatch(nothing);
    expect(drawnInAll(none)).toEqual({ fromS: null, toS: null, drawn: { value: null, why: none.why } });
    expect(rateWithin(none, 0, 60)).toEqual({ value: null, why: none.why });
    expect(feedTotal(none)).toEqual({ value: 0, unit: "g", parts: [] });
  });

  test("by a logger at the scale, for want of the fuel that went with it", () => {
    expect(waterWith(fired, smallEngine(), scale).why).toMatch(
      /^the engine was weighed, but what her fire burnt/,
    );
    const levels = {
      traces: [{ channel: "temperatureC" as const, startS: 0, everyS: 60, values: [20, 20] }],
    };
    expect(waterWith(fired, smallEngine(), levels).why).toMatch(nothing);
    // with no fire nothing burnt
    const cold = waterWith([bar(0, 0), bar(0, 240)], smallEngine(), scale);
    const all = drawnInAll(cold);
    expect([all.fromS, all.toS]).toEqual([0, 240]);
    expect(all.drawn.value).toBeCloseTo(40, 1);
  });
});

describe("readings that tell what was drawn", () => {
  const weight = (g: number, atS: number): Entry => ({ kind: "weight", g, atS });

  test("are two of a kind: one look at the glass and one weighing tell nothing of each other", () => {
    const all = drawnInAll(waterWith([bar(0, 0), level(20, 100), weight(3000, 500)]));
    expect([all.fromS, all.toS, all.drawn.value]).toEqual([100, 500, null]);
    const beside = drawnInAll(waterWith([bar(0, 0), level(20, 100), weight(3000, 500), weight(2990, 900)]));
    expect([beside.fromS, beside.toS]).toEqual([500, 900]);
  });

  // a hydraulic hold has no phases: 10 g in 100 s and 70 g in 700 s, 6 g/min throughout
  test("tell one rate throughout where nothing tells one part of the time from another", () => {
    const cold: Entry[] = [weight(3000, 100), weight(2990, 200), weight(2920, 900)];
    const water = waterWith(cold, smallEngine(), { purpose: "cold-hold" });
    expect(rateWithin(water, 300, 900).value).toBeCloseTo(6, 2);
    expect(rateWithin(water, 100, 200).value).toBeCloseTo(6, 2);
  });

  test("what was fed up to the last of them is fed", () => {
    const bottle = (atS: number): Entry => ({ kind: "feed", by: "bottle", ml: 20, atS });
    const entries = [
      bar(3, 0),
      bottle(0),
      level(20, 10),
      bottle(100),
      level(19, 200),
      bottle(300),
      level(18, 400),
      bottle(500),
      bar(3, 500),
    ];
    expect(feedTotal(waterWith(entries)).value).toBeCloseTo(40 * 0.9991, 2);
  });
});

describe("weighings beside an unknown fire", () => {
  const weight = (g: number, atS: number): Entry => ({ kind: "weight", g, atS });
  const kept = (entries: Entry[]) => balanceInputOf(sources(entries)).readings.map(({ atS }) => atS);
  const fire = (state: "lit" | "out", atS: number): Entry => ({ kind: "fire", state, atS });

  test("tell the water only with no fire between them", () => {
    expect(
      kept([weight(3000, 0), weight(2995, 50), fire("lit", 100), weight(2900, 500), fire("out", 600)]),
    ).toEqual([0, 50]);
    expect(
      kept([weight(3000, 0), fire("lit", 100), fire("out", 600), weight(2900, 700), weight(2890, 900)]),
    ).toEqual([700, 900]);
    expect(kept([weight(3000, 0), fire("lit", 100), weight(2900, 500), fire("out", 600)])).toEqual([]);
  });

  test("a pressure or a run says that there was a fire, though none was written down", () => {
    const pair = [weight(3000, 0), weight(2900, 500)];
    expect(kept(pair)).toEqual([0, 500]);
    expect(kept([...pair, bar(0.05, 500)])).toEqual([0, 500]);
    expect(kept([pair[0] as Entry, bar(2, 100), pair[1] as Entry])).toEqual([]);
    expect(kept([pair[0] as Entry, phase("running", 100), pair[1] as Entry])).toEqual([]);
    expect(kept([pair[0] as Entry, phase("standing", 100), pair[1] as Entry])).toEqual([0, 500]);
  });

  test("beside a glass the glass stays", () => {
    expect(
      kept([weight(3000, 0), level(20, 1), fire("lit", 100), bar(2, 400), level(15, 450), weight(2900, 500)]),
    ).toEqual([1, 450]);
  });
});

describe("a ratio of figures", () => {
  const [a, b] = [measured(10, 1, "g", "a"), measured(4, 0.1, "g", "b")];
  test("divides, and hands on what cannot be had", () => {
    expect(ratio(a, b, "1")).toMatchObject({ value: 2.5, unit: "1" });
    expect(ratio(absent("first"), absent("second"), "1")).toEqual({ value: null, why: "first" });
    expect(ratio(a, absent("second"), "1")).toEqual({ value: null, why: "second" });
    expect(ratio(a, exact(0, "laps"), "1")).toEqual({
      value: null,
      why: "what it is reckoned by came to 0 laps",
    });
  });

  // 1.96 x 0.05 is 0.098
  test("by what may as well be none is none", () => {
    const weighed = (g: number) => ratio(a, measured(g, 0.05, "g", "b"), "1");
    expect(weighed(0.05)).toEqual({
      value: null,
      why: "what it is reckoned by, 0.05 g, is lost in its own errors: was it written down in its right unit?",
    });
    expect(weighed(-0.05).value).toBeNull();
    expect(weighed(0.0975).value).toBeNull();
    expect(weighed(0.0985).value).toBeCloseTo(10 / 0.0985, 9);
  });
});

describe("a filling", () => {
  test("of an empty boiler is where the water begins; a later one was put in", () => {
    const filled: Entry[] = [
      { kind: "fill", ml: 150, atS: 0 },
      { kind: "fill", ml: 30, atS: 10 },
      bar(0, 20),
      level(20, 30),
      level(20, 1200),
    ];
    const input = balanceInputOf(sources(filled));
    expect(input.moves.map(({ grams }) => grams)).toEqual([expect.closeTo(30 * 0.9991, 2)]);
    expect(input.readings[0]?.grams).toBeCloseTo(150 * 0.9991, 1);
    expect(balanceInputOf(sources(filled.slice(2))).moves).toEqual([]);
    // without a reading of the contents no filling is a move
    const weighed: Entry[] = [
      { kind: "weight", g: 3000, atS: 0 },
      { kind: "weight", g: 2900, atS: 900 },
    ];
    expect(balanceInputOf(sources(weighed)).readings.map(({ of }) => of)).toEqual([
      "whole engine",
      "whole engine",
    ]);
  });

  test("a hand still feeding blurs the reading before it", () => {
    const feeding: Entry[] = [
      bar(3, 0),
      level(20, 0),
      level(18, 590),
      { kind: "feed", by: "bottle", ml: 40, atS: 600 },
      level(20, 700),
      bar(3, 700),
    ];
    const [, during, after] = balanceInputOf(sources(feeding)).readings;
    // 10 s before: three quarters of it may be in, so half of 30 g beside the glass's own error
    const own =
      balanceInputOf(sources(feeding.filter(({ kind }) => kind !== "feed"))).readings[1]?.uGrams ?? 0;
    expect(during?.uGrams).toBeCloseTo(Math.hypot(own, 0.5 * 40 * 0.9991 * 0.75), 2);
    expect(after?.uGrams).toBeLessThan(1.1 * own);
  });
});
