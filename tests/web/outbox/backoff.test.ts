import { expect, test } from "vitest";
import { waitMs } from "../../../web/outbox/backoff.ts";

test("each failure in a row waits about twice as long as the one before, up to five seconds", () => {
  expect([1, 2, 3, 4].map((failures) => waitMs(failures, 0.5))).toEqual([400, 800, 1600, 3200]);
  expect(waitMs(40, 0.5)).toBe(5000);
});

test("chance moves a wait by a quarter either way, so that phones do not ask in step", () => {
  expect(waitMs(3, 0)).toBe(1200);
  expect(waitMs(3, 1)).toBe(2000);
});

test("where it is said how long, a wait grows up to that", () => {
  expect(waitMs(7, 0.5, 60_000)).toBe(25_600);
  expect(waitMs(40, 0.5, 60_000)).toBe(60_000);
});
