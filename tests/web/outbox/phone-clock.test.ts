import { expect, test } from "vitest";
import { offsetIn, phoneClock } from "../../../web/outbox/phone-clock.ts";
import { offsetOf } from "../../../web/outbox/server-clock.ts";

const HOUR_MS = 3_600_000;

/** A phone with a true time of its own and a wall clock that can be set. */
function phone() {
  let trueMs = 1_000_000;
  let wrongMs = 0;
  let ids = 0;
  const clock = phoneClock(
    () => trueMs + wrongMs,
    () => trueMs - 1_000_000,
    () => `id ${++ids}`,
  );
  return {
    clock,
    pass: (ms: number) => {
      trueMs += ms;
    },
    set: (byMs: number) => {
      wrongMs += byMs;
    },
    wrong: () => wrongMs,
    trueNow: () => trueMs,
  };
}

test("the offset is that of the quickest answer, less half its round trip", () => {
  const slow = { askedMs: 0, answeredMs: 400, phoneMs: 10_400, serverMs: 14_000 };
  const quick = { askedMs: 500, answeredMs: 520, phoneMs: 10_520, serverMs: 14_510 };
  expect(offsetOf([slow, quick, slow])).toEqual({ offsetMs: 4000, roundTripMs: 20 });
  expect(offsetOf([])).toBeNull();
});

test("a clock that is set begins a stretch of its own; one that runs on does not", () => {
  const { clock, pass, set } = phone();
  pass(60_000);
  expect(clock.look(false)).toBe(0);
  set(-HOUR_MS);
  expect(clock.look(false)).toBe(-HOUR_MS);
  expect(clock.epochs.map((epoch) => epoch.jumpMs)).toEqual([0, -HOUR_MS]);
});

test("a phone that slept, with a steady clock that stood still, was not set", () => {
  const { clock, set } = phone();
  set(HOUR_MS);
  expect(clock.look(true)).toBe(0);
  expect(clock.epochs.length).toBe(1);
});

test.each([-HOUR_MS, HOUR_MS])("an offset measured after a jump of %d ms holds before it too", (jumpMs) => {
  const { clock, pass, set, wrong, trueNow } = phone();
  const before = clock.now();
  const beforeTrue = trueNow();
  pass(5000);
  set(jumpMs);
  clock.look(false);
  clock.learn(-wrong(), 10);
  const offset = offsetIn(clock.epochs, before.epoch);
  expect(before.phoneMs + (offset ?? Number.NaN)).toBe(beforeTrue);
});

test("an offset measured before a jump is carried over it until another is measured", () => {
  const { clock, set, trueNow } = phone();
  clock.learn(0, 10);
  set(HOUR_MS);
  const after = clock.now();
  expect(after.phoneMs + (offsetIn(clock.epochs, after.epoch) ?? Number.NaN)).toBe(trueNow());
});

test("a sitting in which nothing was measured takes the offset of the next one that was, and none where there is none", () => {
  const [first, second] = [phone().clock, phone().clock];
  const { epoch } = first.now();
  expect(offsetIn(first.epochs, epoch)).toBeNull();
  second.learn(-1234, 8);
  const later = second.epochs.map((each) => ({ ...each, id: "later", sitting: "later", beganMs: 9e9 }));
  expect(offsetIn([...first.epochs, ...later], epoch)).toBe(-1234);
});
