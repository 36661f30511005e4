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

test.each([-HOUR_MS, HOUR_MS])(
  "a jump of %d ms while the page was hidden begins a stretch in which nothing is known for sure",
  (jumpMs) => {
    const { clock, set } = phone();
    clock.learn(500, 10, clock.epoch().id);
    expect(offsetIn(clock.epochs, clock.epoch().id)).toEqual({ offsetMs: 500, sure: true });
    set(jumpMs);
    expect(clock.look(true)).toBe(jumpMs);
    expect(clock.epochs.length).toBe(2);
    expect(clock.epoch().offsetMs).toBeNull();
    expect(offsetIn(clock.epochs, clock.epoch().id)?.sure).toBe(false);
  },
);

test("after a jump ahead while hidden the old offset is the guess, as most phones slept and were not set; nobody's steady clock runs ahead", () => {
  const slept = phone();
  slept.clock.learn(500, 10, slept.clock.epoch().id);
  slept.set(HOUR_MS);
  slept.clock.look(true);
  expect(offsetIn(slept.clock.epochs, slept.clock.epoch().id)).toEqual({ offsetMs: 500, sure: false });
  const setBack = phone();
  setBack.clock.learn(500, 10, setBack.clock.epoch().id);
  setBack.set(-HOUR_MS);
  setBack.clock.look(true);
  expect(offsetIn(setBack.clock.epochs, setBack.clock.epoch().id)).toEqual({
    offsetMs: 500 + HOUR_MS,
    sure: false,
  });
});

test("an offset measured after a jump while hidden is sure from there on and a guess before it", () => {
  const { clock, set } = phone();
  const before = clock.now().epoch;
  set(HOUR_MS);
  clock.look(true);
  clock.learn(-HOUR_MS, 10, clock.epoch().id);
  expect(offsetIn(clock.epochs, clock.epoch().id)).toEqual({ offsetMs: -HOUR_MS, sure: true });
  expect(offsetIn(clock.epochs, before)?.sure).toBe(false);
});

test("an offset that was measured while the clock was set is dropped", () => {
  const { clock, set } = phone();
  const asked = clock.epoch().id;
  set(HOUR_MS);
  clock.look(false);
  expect(clock.learn(0, 10, asked)).toBe(false);
  expect(clock.epoch().offsetMs).toBeNull();
  expect(clock.learn(-HOUR_MS, 10, clock.epoch().id)).toBe(true);
  expect(clock.epoch().offsetMs).toBe(-HOUR_MS);
});

test("an answer that departs from the known offset by more than half its way and half a second begins a stretch, and what was tapped before keeps its own", () => {
  const { clock } = phone();
  const before = clock.epoch().id;
  clock.learn(1000, 10, before);
  expect(clock.departs(1000 + 500 + 20, 40)).toBe(false);
  expect(clock.epoch().id).toBe(before);
  expect(clock.departs(1000 - 500 - 21, 40)).toBe(true);
  expect(clock.epoch().id).not.toBe(before);
  expect(clock.epoch().offsetMs).toBeNull();
  clock.learn(400, 10, clock.epoch().id);
  expect(offsetIn(clock.epochs, before)).toEqual({ offsetMs: 1000, sure: true });
  expect(offsetIn(clock.epochs, clock.epoch().id)).toEqual({ offsetMs: 400, sure: true });
});

test.each([-20 * 60_000, HOUR_MS])(
  "a server whose clock was set by %d ms sets nobody else's: the stretch goes on as it was measured, until a new start",
  (byMs) => {
    const { clock, pass, set } = phone();
    const before = clock.epoch().id;
    clock.learn(1000, 10, before);
    pass(60_000);
    expect(clock.departs(1000 + byMs, 40)).toBe(false);
    expect(clock.movedMs()).toBe(byMs);
    expect(clock.epoch().id).toBe(before);
    expect(offsetIn(clock.epochs, before)).toEqual({ offsetMs: 1000, sure: true });
    // and set right again
    expect(clock.departs(1000, 40)).toBe(false);
    expect(clock.movedMs()).toBe(0);
    clock.departs(1000 + byMs, 40);
    clock.measureAnew();
    expect(clock.movedMs()).toBe(0);
    expect(offsetIn(clock.epochs, clock.epoch().id)).toEqual({ offsetMs: 1000 + byMs, sure: true });
    clock.learn(1000 + byMs, 10, clock.epoch().id);
    expect(offsetIn(clock.epochs, before)).toEqual({ offsetMs: 1000, sure: true });
    // this phone's own clock that was set is seen by its steady one, and the server's is then what tells the time
    set(HOUR_MS);
    expect(clock.look(false)).toBe(HOUR_MS);
    clock.learn(byMs - HOUR_MS, 10, clock.epoch().id);
    expect(clock.movedMs()).toBe(0);
  },
);

test("nothing departs from an offset that is not known", () => {
  const { clock } = phone();
  expect(clock.departs(1e9, 10)).toBe(false);
  expect(clock.epochs.length).toBe(1);
});

test.each([-HOUR_MS, HOUR_MS])("an offset measured after a jump of %d ms holds before it too", (jumpMs) => {
  const { clock, pass, set, wrong, trueNow } = phone();
  const before = clock.now();
  const beforeTrue = trueNow();
  pass(5000);
  set(jumpMs);
  clock.look(false);
  clock.learn(-wrong(), 10, clock.epoch().id);
  const offset = offsetIn(clock.epochs, before.epoch);
  expect(offset?.sure).toBe(true);
  expect(before.phoneMs + (offset?.offsetMs ?? Number.NaN)).toBe(beforeTrue);
});

test("an offset measured before a jump is carried over it until another is measured", () => {
  const { clock, set, trueNow } = phone();
  clock.learn(0, 10, clock.epoch().id);
  set(HOUR_MS);
  const after = clock.now();
  const offset = offsetIn(clock.epochs, after.epoch);
  expect(after.phoneMs + (offset?.offsetMs ?? Number.NaN)).toBe(trueNow());
});

test("a sitting in which nothing was measured takes the offset of the next one that was, and none where there is none", () => {
  const [first, second] = [phone().clock, phone().clock];
  const { epoch } = first.now();
  expect(offsetIn(first.epochs, epoch)).toBeNull();
  second.learn(-1234, 8, second.epoch().id);
  const later = second.epochs.map((each) => ({ ...each, id: "later", sitting: "later", beganMs: 9e9 }));
  expect(offsetIn([...first.epochs, ...later], epoch)).toEqual({ offsetMs: -1234, sure: false });
});

test("a tab that measured nothing takes the offset of another across the jump that both saw", () => {
  const [sender, other] = [phone(), phone()];
  const before = other.clock.now().epoch;
  for (const each of [sender, other]) {
    each.pass(60_000);
    each.set(-HOUR_MS);
    each.clock.look(false);
  }
  sender.clock.learn(HOUR_MS, 10, sender.clock.epoch().id);
  const named = other.clock.epochs.map((each) => ({ ...each, id: `other ${each.id}`, sitting: "other" }));
  expect(offsetIn([...sender.clock.epochs, ...named], `other ${before}`)?.offsetMs).toBe(0);
});
