import { expect, test } from "vitest";
import { momentFromField } from "../../web/words/moment-from-field.ts";
import { clockOf, clockTime, dateInWords, spanInWords, typedTime } from "../../web/words/time.ts";

test.each([
  [1421, "23:41"],
  [4821, "1:20:21"],
  [0, "0:00"],
  [-65, "\u22121:05"],
])("%d s are written %s", (seconds, text) => {
  expect(clockOf(seconds)).toBe(text);
});

test.each([
  ["23:41", 1421],
  ["1:20:21", 4821],
  ["12.5", 750],
  ["-1:05", -65],
])("%j is typed for %d s", (text, seconds) => {
  expect(typedTime(text)).toBe(seconds);
});

test.each(["", "12:75", "noon", "1:2:3:4"])("%j is no time", (text) => {
  expect(typedTime(text)).toBeNull();
});

test("a steaming's date and clock are those of the place where it was written down", () => {
  const moment = "2026-03-14T23:50:00+09:00";
  expect(dateInWords(moment)).toBe("14 Mar 2026");
  expect(clockTime(moment)).toBe("23:50");
  expect(clockTime(moment, 15 * 60)).toBe("00:05");
});

test("a date-and-time field becomes a moment that bears this machine's offset at that date", () => {
  const moment = momentFromField("2026-07-01T10:14");
  expect(moment).toMatch(/^2026-07-01T10:14:00[+-]\d\d:\d\d$/);
  expect(new Date(moment ?? "").getTime()).toBe(new Date("2026-07-01T10:14").getTime());
  expect(momentFromField("")).toBeNull();
});

test("spans are said in the unit that a person would use", () => {
  expect([52, 1560, 6000, 7200].map(spanInWords)).toEqual(["52 s", "26 min", "1 h 40 min", "2 h"]);
});
