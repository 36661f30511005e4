import { expect, test } from "vitest";
import type { LogEntry } from "../../../web/outbox/database.ts";
import { pressureTrend } from "../../../web/pages/footplate/pressure-trend.ts";
import { alarmsOf, standingOf } from "../../../web/pages/footplate/standing.ts";
import { smallEngine } from "../../support/small-logbook.ts";

const engine = smallEngine();
const at = (atS: number, says: object): LogEntry => ({ id: `${atS}`, atS, ...says }) as LogEntry;
const names = (entries: LogEntry[], trend: number | null = null, minutes: number | null = null) =>
  alarmsOf(engine, standingOf(entries), trend, minutes).map((alarm) => `${alarm.grade} ${alarm.name}`);

test("water at the lowest level is a danger, water that may be there within minutes a caution", () => {
  expect(names([at(0, { kind: "level", mm: 3 })])).toEqual(["danger low-water"]);
  expect(names([at(0, { kind: "level", mm: 10 })], null, 2)).toEqual(["caution water-soon-low"]);
  expect(names([at(0, { kind: "level", mm: 10 })], null, 20)).toEqual([]);
});

test("pressure above working is a caution, a tenth above it a danger, and the danger stands first", () => {
  expect(names([at(0, { kind: "pressure", barG: 3.1 })])).toEqual(["caution valve-should-lift"]);
  expect(names([at(0, { kind: "pressure", barG: 3.4 })], null, 1)).toEqual([
    "danger over-pressure",
    "caution water-soon-low",
  ]);
});

test("pressure that falls fast is said while the fire is not out", () => {
  const lit = at(0, { kind: "fire", state: "lit" });
  expect(names([lit], -0.4)).toEqual(["caution falling-fast"]);
  expect(names([lit, at(9, { kind: "fire", state: "out" })], -0.4)).toEqual([]);
});

test("the trend is the slope of the last readings, and none where they are too few or too old", () => {
  const readings = [0, 60, 120].map((atS, i) => at(atS, { kind: "pressure", barG: 3 - 0.1 * i }));
  expect(pressureTrend(readings, 130)).toBeCloseTo(-0.1, 12);
  expect(pressureTrend(readings.slice(0, 2), 130)).toBeNull();
  expect(pressureTrend(readings, 1000)).toBeNull();
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
