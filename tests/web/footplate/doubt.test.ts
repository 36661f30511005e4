import { expect, test } from "vitest";
import type { LogEntry } from "../../../web/outbox/database.ts";
import { doubtOf } from "../../../web/pages/footplate/doubt.ts";
import { smallEngine } from "../../support/small-logbook.ts";

const engine = smallEngine();
let ids = 0;
const at = (atS: number, says: object): LogEntry => ({ id: `e${++ids}`, atS, ...says }) as LogEntry;
const bar = (atS: number, barG: number) => at(atS, { kind: "pressure", barG });
const lap = (atS: number) => at(atS, { kind: "lap", count: 1 });

test("a reading ten times the last one is asked about, and the last digit's slip is offered mended", () => {
  const doubt = doubtOf(bar(30, 27), [bar(0, 2.8)], engine);
  expect(doubt?.words).toBe("2.8 bar, then 27 bar?");
  expect(doubt?.meant).toMatchObject({ barG: 2.7 });
});

test("what an engine can do in the time is not asked about", () => {
  expect(doubtOf(bar(60, 2.9), [bar(0, 0.4)], engine)).toBeNull();
  expect(doubtOf(bar(400, 0.2), [bar(0, 2.9)], engine)).toBeNull();
  expect(doubtOf(bar(0, 3), [], engine)).toBeNull();
});

test("water that rises by more than half the range with nothing fed is asked about, and not after a feed", () => {
  const before = [at(0, { kind: "level", mm: 5 })];
  const feed = at(30, { kind: "feed", ml: 30, by: "bottle" });
  const after = at(60, { kind: "level", mm: 20 });
  expect(doubtOf(after, before, engine)?.words).toContain("with nothing fed?");
  expect(doubtOf(after, [...before, feed], engine)).toBeNull();
});

test("a lap in less than half the usual time is asked about as tapped twice", () => {
  const laps = [lap(0), lap(50), lap(100), lap(150)];
  expect(doubtOf(lap(151), laps, engine)?.words).toContain("tapped twice?");
  expect(doubtOf(lap(196), laps, engine)).toBeNull();
});

test("notes and states are never asked about", () => {
  expect(doubtOf(at(5, { kind: "regulator", state: "open" }), [], engine)).toBeNull();
});
