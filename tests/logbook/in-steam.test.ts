import { expect, test } from "vitest";
import { begunLately, isInSteam } from "../../src/logbook/in-steam.ts";

const startedAt = "2026-06-03T14:00:00+01:00";
const after = (minutes: number) => Date.parse(startedAt) + minutes * 60_000;

test("begun with nothing written down, she is in steam for half an hour, and not from then on", () => {
  expect(isInSteam(startedAt, 0, after(29))).toBe(true);
  expect(isInSteam(startedAt, 0, after(31))).toBe(false);
  expect(isInSteam(startedAt, 0, after(24 * 60))).toBe(false);
});

test("what was written down last counts, and a weighing before the start no less than the start", () => {
  expect(isInSteam(startedAt, 7200, after(149))).toBe(true);
  expect(isInSteam(startedAt, 7200, after(151))).toBe(false);
  expect(isInSteam(startedAt, -3600, after(29))).toBe(true);
});

test("one that was begun a day ago is not looked at, nor one that will be begun tomorrow", () => {
  expect([after(60), after(24 * 60), after(-24 * 60)].map((nowMs) => begunLately(startedAt, nowMs))).toEqual([
    true,
    false,
    false,
  ]);
});
