import { expect, test } from "vitest";
import type { LogEntry } from "../../../web/outbox/database.ts";
import { newlySaid, overdueOf } from "../../../web/pages/footplate/alerts.ts";
import { fallBarPerMin, pressureTrend } from "../../../web/pages/footplate/pressure-trend.ts";
import { alarmsOf, callsOf, standingOf, type WaterLeft } from "../../../web/pages/footplate/standing.ts";
import { footplate } from "../../../web/preferences/footplate.ts";
import { smallEngine } from "../../support/small-logbook.ts";

const engine = smallEngine();
const at = (atS: number, says: object): LogEntry => ({ id: `${atS}`, atS, ...says }) as LogEntry;
const NOT_RECKONED: WaterLeft = { likelyMin: null, leastMin: null, unreadSinceS: null };
const left = (leastMin: number, likelyMin = 2 * leastMin + 1): WaterLeft => ({
  likelyMin,
  leastMin,
  unreadSinceS: null,
});
const alarmed = (entries: LogEntry[], fallen = 0, water = NOT_RECKONED) =>
  alarmsOf(engine, standingOf(entries), fallen, water);
const names = (...given: Parameters<typeof alarmed>) =>
  alarmed(...given).map((alarm) => `${alarm.grade} ${alarm.name}`);

test("water at the lowest level is a danger, water that may be there within minutes a caution", () => {
  expect(names([at(0, { kind: "level", mm: 3 })])).toEqual(["danger low-water"]);
  expect(names([at(0, { kind: "level", mm: 10 })], 0, left(2))).toEqual(["caution water-soon-low"]);
  expect(names([at(0, { kind: "level", mm: 10 })], 0, left(20))).toEqual([]);
});

test("water that is reckoned to be at the lowest level, or below it, is a danger, until the fire is out", () => {
  const read = at(0, { kind: "level", mm: 10 });
  expect(names([read], 0, left(-1, 0.1))).toEqual(["caution water-soon-low"]);
  expect(names([read], 0, left(-1, 0))).toEqual(["danger low-water"]);
  const out = at(9, { kind: "fire", state: "out" });
  expect(names([read, out], 0, left(-1, -0.5))).toEqual([]);
  expect(names([at(0, { kind: "level", mm: 3 }), out])).toEqual(["danger low-water"]);
});

test("a danger calls anew at each reading of it, and every minute while the fire burns", () => {
  const low = (...more: LogEntry[]) => [at(0, { kind: "level", mm: 3 }), ...more];
  const calls = (entries: LogEntry[], nowS: number) => callsOf(alarmed(entries), standingOf(entries), nowS);
  expect(calls(low(), 10)).toEqual(calls(low(), 59));
  expect(calls(low(), 61)).not.toEqual(calls(low(), 59));
  expect(calls(low(at(20, { kind: "level", mm: 2 })), 21)).not.toEqual(calls(low(), 21));
  const out = low(at(5, { kind: "fire", state: "out" }));
  expect(calls(out, 10)).toEqual(calls(out, 500));
  // the clock on the page is up to a second behind a tap, and a time is settled when it is sent
  const tapped = at(20, { kind: "level", mm: 2 });
  expect(calls([tapped], 19.4)).toEqual(calls([tapped], 20.4));
  expect(calls([{ ...tapped, atS: 20.03 }], 21)).toEqual(calls([tapped], 21));
  const over = [at(0, { kind: "pressure", barG: 3.1 })];
  expect(calls(over, 10)).toEqual(calls(over, 500));
});

test("what nobody could hear yet is said as soon as somebody can, once", () => {
  const none = new Set<string>();
  const silent = newlySaid(none, ["a"], false);
  expect(silent).toBeNull();
  const said = newlySaid(none, ["a"], true);
  expect(said).toEqual(new Set(["a"]));
  expect(newlySaid(said ?? none, ["a"], true)).toBeNull();
  expect(newlySaid(said ?? none, ["a", "b"], true)).toEqual(new Set(["a", "b"]));
});

test("pressure above working is a caution, a tenth above it a danger, and the danger stands first", () => {
  expect(names([at(0, { kind: "pressure", barG: 3.1 })])).toEqual(["caution valve-should-lift"]);
  expect(names([at(0, { kind: "pressure", barG: 3.4 })], 0, left(1))).toEqual([
    "danger over-pressure",
    "caution water-soon-low",
  ]);
});

test("water of which no time is told any more is said to be not looked at, with when it was, while the fire burns", () => {
  const lit = at(0, { kind: "fire", state: "lit" });
  const level = at(1, { kind: "level", mm: 10 });
  const unread = { ...NOT_RECKONED, unreadSinceS: 83 };
  const [alarm] = alarmed([lit, level], 0, unread);
  expect(alarm).toEqual({ name: "water-unread", grade: "caution", word: "Water not looked at since 1:23" });
  expect(names([lit, level], 0, { ...left(20), unreadSinceS: 83 })).toEqual([]);
  expect(names([lit, level, at(9, { kind: "fire", state: "out" })], 0, unread)).toEqual([]);
});

test("at the very edges: working pressure and a tenth above are not beyond it, the lowest level is low", () => {
  const working = engine.workingPressureBarG;
  const pressure = (barG: number) => names([at(0, { kind: "pressure", barG })]);
  expect(pressure(working)).toEqual([]);
  expect(pressure(working + 0.01)).toEqual(["caution valve-should-lift"]);
  expect(pressure(Number((1.1 * working).toFixed(6)))).toEqual(["caution valve-should-lift"]);
  expect(pressure(1.1 * working + 0.01)).toEqual(["danger over-pressure"]);
  const lowest = engine.boiler.lowestLevelMm;
  expect(names([at(0, { kind: "level", mm: lowest + 0.1 })])).toEqual([]);
  expect(names([at(0, { kind: "level", mm: lowest })])).toEqual(["danger low-water"]);
  expect(names([], 0.1 * working)).toEqual([]);
  expect(names([], 0.1 * working + 0.01)).toEqual(["caution falling-fast"]);
  // a fire that is out makes no steam, but low water and too high a pressure stay what they are
  const out = at(9, { kind: "fire", state: "out" });
  expect(
    names([at(0, { kind: "level", mm: lowest }), at(1, { kind: "pressure", barG: 2 * working }), out]),
  ).toEqual(["danger low-water", "danger over-pressure"]);
});

test("pressure that falls fast is said while the fire is not out", () => {
  const lit = at(0, { kind: "fire", state: "lit" });
  expect(names([lit], 0.4)).toEqual(["caution falling-fast"]);
  expect(names([lit, at(9, { kind: "fire", state: "out" })], 0.4)).toEqual([]);
});

test("the trend is the slope of the last readings, and none where they are too few or too old", () => {
  const readings = [0, 60, 120].map((atS, i) => at(atS, { kind: "pressure", barG: 3 - 0.1 * i }));
  expect(pressureTrend(readings, 130)).toBeCloseTo(-0.1, 12);
  expect(pressureTrend(readings.slice(0, 2), 130)).toBeNull();
  expect(pressureTrend(readings, 1000)).toBeNull();
});

test("the fall is that of the line or of the last two readings, whichever is steeper, less what two readings may stray", () => {
  const fall = (...read: [number, number][]) =>
    fallBarPerMin(
      read.map(([atS, barG]) => at(atS, { kind: "pressure", barG })),
      (read.at(-1)?.[0] ?? 0) + 1,
      0.1,
    );
  // two readings of 0.1 bar each stray from each other by 0.14 bar, and by twice that one time in twenty
  expect(fall([0, 3], [120, 3], [240, 2])).toBeCloseTo((1 - 0.2 * Math.SQRT2) / 2, 12);
  expect(fall([0, 3], [60, 3], [120, 3], [180, 3], [240, 2])).toBeCloseTo(1 - 0.2 * Math.SQRT2, 12);
  expect(fall([0, 3], [60, 1.5])).toBeCloseTo(1.5 - 0.2 * Math.SQRT2, 12);
  // a steady fall of 0.4 bar a minute shows in the line
  expect(fall([0, 3], [30, 2.8], [60, 2.6], [90, 2.4])).toBeCloseTo(0.4, 12);
  expect(fall([0, 3], [5, 2.8])).toBe(0);
  expect(fall([0, 2], [60, 3])).toBe(0);
  expect(fall([0, 3], [0, 2])).toBe(0);
  const old = [at(0, { kind: "pressure", barG: 3 }), at(60, { kind: "pressure", barG: 1 })];
  expect(fallBarPerMin(old, 400, 0.1)).toBe(0);
});

test("which readings are the last is told by their times, not by their places in the list", () => {
  // the one of 60 s was put in last, as one that was forgotten
  const readings = [
    at(0, { kind: "pressure", barG: 3 }),
    at(120, { kind: "pressure", barG: 2 }),
    at(60, { kind: "pressure", barG: 3 }),
  ];
  const inOrder = [...readings].sort((a, b) => a.atS - b.atS);
  expect(fallBarPerMin(readings, 130, 0.1)).toBeCloseTo(1 - 0.2 * Math.SQRT2, 12);
  expect(pressureTrend(readings, 130)).toBeCloseTo(pressureTrend(inOrder, 130) ?? Number.NaN, 12);
  // 300 s after the last one there is none any more, which is not that of 60 s
  expect(pressureTrend(readings, 420)).not.toBeNull();
  expect(pressureTrend(readings, 421)).toBeNull();
  expect(readings.map(({ atS }) => atS)).toEqual([0, 120, 60]);
});

test("a stop between laps is not counted as a lap's time", () => {
  const entries = [
    at(0, { kind: "lap", count: 1 }),
    at(50, { kind: "lap", count: 1 }),
    at(60, { kind: "regulator", state: "shut" }),
    at(400, { kind: "lap", count: 1 }),
    at(452, { kind: "lap", count: 1 }),
  ];
  expect(standingOf(entries)).toMatchObject({ laps: 4, lastLapS: 52, meanLapS: 51 });
});

test("a test with cold water goes above working pressure and falls without an alarm, until the fire is lit or no test goes so far", () => {
  const cold = (entries: LogEntry[], fall = 0) =>
    alarmsOf(engine, standingOf(entries), fall, NOT_RECKONED, true).map(({ name }) => name);
  expect(cold([at(0, { kind: "pressure", barG: 4.5 })], 1)).toEqual([]);
  expect(cold([at(0, { kind: "pressure", barG: 7.6 })])).toEqual(["over-pressure"]);
  const lit = at(0, { kind: "fire", state: "lit" });
  expect(cold([lit, at(1, { kind: "pressure", barG: 4.5 })])).toEqual(["over-pressure"]);
});

test("a reading falls due where she is under pressure or under way though nobody wrote that she was lit, and not once the fire is out", () => {
  const due = (...entries: LogEntry[]) => overdueOf(standingOf(entries), 1200).pressure;
  const pressure = at(0, { kind: "pressure", barG: 3 });
  expect(due(pressure)).toBe(true);
  expect(due(at(0, { kind: "lap", count: 1 }))).toBe(true);
  expect(due(at(0, { kind: "regulator", state: "open" }))).toBe(true);
  expect(due({ ...pressure, barG: 0 } as LogEntry)).toBe(false);
  expect(due(pressure, at(9, { kind: "fire", state: "out" }))).toBe(false);
  expect(due()).toBe(false);
});

test("of what was never read a call waits until its time has passed since she was lit, or since the first entry", () => {
  const minutes = footplate.value.waterDueMin;
  const called = (nowS: number, ...entries: LogEntry[]) => {
    const standing = standingOf(entries);
    return overdueOf(standing, nowS, standing.beganS ?? nowS).water;
  };
  const lap = at(600, { kind: "lap", count: 1 });
  expect(called(600, lap)).toBe(false);
  expect(called(600 + 60 * minutes, lap)).toBe(false);
  expect(called(601 + 60 * minutes, lap)).toBe(true);
  const lit = at(300, { kind: "fire", state: "lit" });
  const note = at(0, { kind: "note", text: "cold" });
  expect(called(300 + 60 * minutes, note, lit)).toBe(false);
  expect(called(301 + 60 * minutes, note, lit)).toBe(true);
});
