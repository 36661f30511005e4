import { expect, test } from "vitest";
import { beginReading, computed, effect, endReading, type Reader, signal } from "../../web/signals/signal.ts";

test("an effect runs at once, again at each change of what it read last, and no more once it is ended", () => {
  const side = signal("left");
  const left = signal(1);
  const right = signal(10);
  const seen: number[] = [];
  const end = effect(() => {
    seen.push(side.value === "left" ? left.value : right.value);
  });
  right.value = 11;
  left.value = 2;
  side.value = "right";
  left.value = 3;
  right.value = 12;
  right.value = 12;
  end();
  right.value = 13;
  expect(seen).toEqual([1, 2, 11, 12]);
});

test("what is peeked at is not followed", () => {
  const pressure = signal(1);
  let runs = 0;
  effect(() => {
    runs += pressure.peek();
  });
  pressure.value = 2;
  expect(runs).toBe(1);
});

test("what is computed is worked out once for all who read it, and again only after a change", () => {
  const laps = signal(2);
  let reckoned = 0;
  const metres = computed(() => {
    reckoned++;
    return 40 * laps.value;
  });
  const seen: number[] = [];
  effect(() => void seen.push(metres.value));
  effect(() => void seen.push(metres.value + 1));
  expect(reckoned).toBe(1);
  laps.value = 3;
  expect(seen).toEqual([80, 81, 120, 121]);
  expect(reckoned).toBe(2);
});

test("nobody sees half of a change, whichever was read first", () => {
  const level = signal(1);
  const twice = computed(() => 2 * level.value);
  const seen: string[] = [];
  effect(() => void seen.push(`${level.value} ${twice.value}`));
  effect(() => void seen.push(`${twice.value} ${level.value}`));
  level.value = 2;
  expect(seen).toEqual(["1 2", "2 1", "2 4", "4 2"]);
});

test("what is computed and read by nobody is true all the same, and follows nothing", () => {
  const laps = signal(1);
  let reckoned = 0;
  const next = computed(() => {
    reckoned++;
    return laps.value + 1;
  });
  expect(next.value).toBe(2);
  laps.value = 2;
  expect(reckoned).toBe(1);
  expect(next.peek()).toBe(3);
  const end = effect(() => void next.value);
  end();
  const before = reckoned;
  laps.value = 3;
  expect(reckoned).toBe(before);
  expect(next.value).toBe(4);
});

test("a reckoning that failed is tried again after the change that mends it", () => {
  const text = signal("{");
  const read = computed(() => JSON.parse(text.value) as unknown);
  const seen: unknown[] = [];
  effect(() => {
    try {
      seen.push(read.value);
    } catch {
      seen.push("cannot be read");
    }
  });
  text.value = "[1]";
  expect(seen).toEqual(["cannot be read", [1]]);
});

test("a reader is told once of a change, and an ended one is not", () => {
  const laps = signal(1);
  const more = computed(() => laps.value + 1);
  const told: string[] = [];
  const tell = () => void told.push("changed");
  const reader: Reader = { read: new Set(), outdated: (due) => due.add(tell) };
  const end = beginReading(reader);
  expect(laps.value + more.value).toBe(3);
  end();
  expect(laps.value).toBe(1);
  laps.value = 2;
  expect(told).toEqual(["changed"]);
  endReading(reader);
  laps.value = 3;
  expect(told).toEqual(["changed"]);
});
