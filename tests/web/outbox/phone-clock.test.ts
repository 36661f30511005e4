import { describe, expect, test } from "vitest";
import { unneeded } from "../../../web/outbox/forget-clocks.ts";
import { type Epoch, goneBy, offsetIn, phoneClock } from "../../../web/outbox/phone-clock.ts";
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

const MINUTE_MS = 60_000;
/** A stretch of a sitting of its own, measured where an offset is given. */
const stretch = (sitting: string, beganMs: number, more: Partial<Epoch> = {}): Epoch => ({
  id: `${sitting} ${more.place ?? 0}`,
  sitting,
  place: 0,
  beganMs,
  jumpMs: 0,
  offsetMs: null,
  roundTripMs: null,
  ...more,
});
const measured = (offsetMs: number) => ({ offsetMs, roundTripMs: 40 });

describe("an offset measured anew while a steaming goes on", () => {
  /** Before the reload the offset was 1000 and the page was last seen at 0; it came back after `awayMs`. */
  const after = (awayMs: number, byMs: number) => {
    const epochs = [stretch("before", -HOUR_MS, { ...measured(1000), seenMs: 0 }), stretch("now", awayMs)];
    return goneBy(epochs, "now 0", measured(1000 + byMs), awayMs + 100).offsetMs - 1000;
  };

  test.each([
    [3000, -20 * MINUTE_MS],
    [3000, HOUR_MS],
    [10 * MINUTE_MS, -20 * MINUTE_MS],
    [40 * MINUTE_MS, -20 * MINUTE_MS],
    [40 * MINUTE_MS, HOUR_MS],
    [3000, 2000],
  ])(
    "after %d ms away, departing by %d ms, is of a server that was set: times go on as before",
    (awayMs, byMs) => expect(after(awayMs, byMs)).toBe(0),
  );

  test.each([
    // the phone's clock runs backwards from one page to the next
    [MINUTE_MS - HOUR_MS, HOUR_MS],
    // set ahead by an hour, all of which the page seems to have been away
    [HOUR_MS + MINUTE_MS, -HOUR_MS],
    [HOUR_MS, -HOUR_MS],
  ])(
    "after %d ms away by the phone's clock, departing by %d ms, is of a phone that was set",
    (awayMs, byMs) => expect(after(awayMs, byMs)).toBe(byMs),
  );

  test.each([-1400, 1400])(
    "departing by %d ms is a clock that drifts, and the measured one is gone by",
    (byMs) => expect(after(3000, byMs)).toBe(byMs),
  );

  test("is held to the last sitting that was seen, across the jumps that it saw, and told by how much the server was set", () => {
    const epochs = [
      stretch("long ago", 0, { ...measured(7), seenMs: 10 }),
      stretch("before", 100, measured(1000)),
      stretch("before", 200, { place: 1, jumpMs: HOUR_MS, seenMs: HOUR_MS }),
      stretch("now", HOUR_MS + 1000),
    ];
    expect(goneBy(epochs, "now 0", measured(0), HOUR_MS + 2000)).toEqual({
      offsetMs: 1000 - HOUR_MS,
      movedMs: HOUR_MS - 1000,
    });
  });

  test("is what is gone by where the phone may have slept or was never measured before", () => {
    const slept = stretch("now", 2000, { place: 1, jumpMs: HOUR_MS, unsure: true });
    const before = stretch("before", 0, { ...measured(1000), seenMs: 900 });
    const anew = { offsetMs: -HOUR_MS, movedMs: 0 };
    expect(goneBy([before, stretch("now", 1000), slept], "now 1", measured(-HOUR_MS), HOUR_MS)).toEqual(anew);
    expect(goneBy([stretch("now", 1000)], "now 0", measured(-HOUR_MS), HOUR_MS)).toEqual(anew);
  });

  test("in one sitting across a jump that it saw itself, only the server can have been set besides", () => {
    const { clock, set } = phone();
    clock.learn(1000, 10, clock.epoch().id);
    set(HOUR_MS);
    clock.look(false);
    const { id } = clock.epoch();
    const byServer = goneBy(clock.epochs, id, measured(1000 - HOUR_MS + 20 * MINUTE_MS), 0);
    expect(byServer).toEqual({ offsetMs: 1000 - HOUR_MS, movedMs: 20 * MINUTE_MS });
    expect(goneBy(clock.epochs, id, measured(900 - HOUR_MS), 0)).toEqual({
      offsetMs: 900 - HOUR_MS,
      movedMs: 0,
    });
  });
});

test("of the sittings only the last twenty seen are needed, and older ones by whose clock something is still to be settled, whole", () => {
  const sittings = Array.from({ length: 30 }, (_, i) => [
    stretch(`s${i}`, i * HOUR_MS, measured(0)),
    stretch(`s${i}`, i * HOUR_MS + 1, { place: 1, jumpMs: 5000, seenMs: i * HOUR_MS + 2 }),
  ]).flat();
  // written by an older form of the program, which did not say when it was last seen
  const old = stretch("old", 31 * HOUR_MS);
  expect(unneeded([old, ...sittings], new Set()).map(({ id }) => id)).toEqual(
    Array.from({ length: 11 }, (_, i) => [`s${i} 0`, `s${i} 1`]).flat(),
  );
  const needed = unneeded([old, ...sittings], new Set(["s3 1"]));
  expect(needed.length).toBe(20);
  expect(needed.some(({ sitting }) => sitting === "s3")).toBe(false);
});
