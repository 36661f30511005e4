import { expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { exact, interval, isMeasured, scaled, standardUncertainty } from "../../../src/quantity/measured.ts";
import { evenBoiler, smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const opened: Entry = { kind: "regulator", state: "open", atS: 0, id: "opened" };
const shut = (atS: number): Entry => ({ kind: "regulator", state: "shut", atS });
const toTheSecond: Entry = { kind: "note", text: "", atS: 7 };
const gapsOf = (...gaps: number[]): Entry[] =>
  gaps.map((_, i) => {
    const atS = gaps.slice(0, i + 1).reduce((a, b) => a + b);
    return { kind: "lap", count: 1, atS, id: `at ${atS}` };
  });
const logOf = (...entries: Entry[]) => ({
  ...smallSteaming(),
  entries: [opened, toTheSecond, ...entries].sort((a, b) => a.atS - b.atS),
});
const lapsIn = (...entries: Entry[]) => sourcesOf(smallEngine(), logOf(...entries)).laps;
const rangeOf = (...entries: Entry[]) => interval(lapsIn(...entries).runIn(-1, 1e6));

// four laps of 40 s, 240 s, four of 40 s: eight written down and, had she run on, five more. The six laps that the gap
// would be are in doubt by 0.3: 1.96 x 0.3 is 0.588
const gap = gapsOf(40, 40, 40, 40, 240, 40, 40, 40);

test("four or more laps not tapped with the regulator open are counted as run, and the range takes in that she stood", () => {
  const laps = lapsIn(...gap, shut(520));
  expect(laps.wholeIn(-1, 1e6)).toBe(13);
  expect(laps.distanceM(-1, 1e6)).toBeCloseTo(13 * 20, 9);
  expect(laps.runIn(-1, 1e6).value).toBe(13);
  expect(laps.otherwiseIn(-1, 1e6)).toMatchObject({ value: 8, parts: [] });
  expect(laps.otherwiseIn(400, 1e6)).toBeNull();
  const [low, high] = rangeOf(...gap, shut(520));
  expect(low).toBeCloseTo(8, 9);
  expect(high).toBeCloseTo(13.588, 9);
});

test("with a hand on her in between she is taken to have stood, and the range takes in that she ran", () => {
  const fed: Entry = { kind: "feed", by: "hand-pump", ml: 10, atS: 250 };
  expect(lapsIn(...gap, fed).wholeIn(-1, 1e6)).toBe(8);
  expect(lapsIn(...gap, fed).otherwiseIn(-1, 1e6)).toMatchObject({ value: 13, parts: [] });
  const [low, high] = rangeOf(...gap, fed);
  expect(low).toBeCloseTo(8, 9);
  expect(high).toBeCloseTo(13.588, 9);
});

test.each([
  [139, 8],
  [141, 11],
  [400, 17],
])("a gap of %d s among laps of 40 s makes %d run", (gapS, run) => {
  expect(lapsIn(...gapsOf(40, 40, 40, 40, gapS, 40, 40, 40)).wholeIn(-1, 1e6)).toBe(run);
});

test("two other laps are enough to tell it, one is not, and it may be the first", () => {
  expect(lapsIn(...gapsOf(40, 42, 200)).wholeIn(-1, 1e6)).toBe(7);
  expect(lapsIn(...gapsOf(40, 200)).wholeIn(-1, 1e6)).toBe(2);
  expect(lapsIn(...gapsOf(200, 40, 40, 40)).missed).toMatchObject([{ sinceId: "opened", entryId: "at 200" }]);
});

// the others stray by 8 s or 12 s of 40 s about their median: by 0.2 or 0.3
test.each([
  [8, 1],
  [12, 0],
])("among laps that stray by %d s it tells or does not", (straysS, told) => {
  const [early, late] = [40 - straysS, 40 + straysS];
  const laps = lapsIn(...gapsOf(early, late, early, late, 240, early, late, early, late));
  expect(laps.missed.filter(({ eitherWay }) => eitherWay !== null)).toHaveLength(told);
});

test("a stop for which the regulator was shut is none, and no doubt is left", () => {
  const laps = lapsIn(...gap, shut(170), { kind: "regulator", state: "open", atS: 370 });
  expect(laps.missed).toEqual([]);
  expect(laps.runIn(-1, 1e6)).toMatchObject({ value: 8, parts: [] });
});

test("who ran on with nobody at the book is not thought to forget laps besides", () => {
  const uneven = gapsOf(36, 44, 36, 44, 240, 36, 44, 36, 44);
  expect(lapsIn(...uneven).runIn(-1, 1e6).value).toBe(14);
});

test("read the other way it keeps the laps to be expected besides, and the doubt of those found singly", () => {
  // 1.7 s to either side is too uneven for a gap to show each lap lost, and even enough for those of two laps
  const pair = [38.3, 41.7];
  const laps = lapsIn(...gapsOf(...pair, ...pair, 80, ...pair, ...pair, 240, ...pair, ...pair));
  expect(laps.missed.map(({ count }) => count)).toEqual([1, 5]);
  const [run, otherwise] = [laps.runIn(-1, 1e6), laps.otherwiseIn(-1, 1e6)];
  if (otherwise === null) throw new Error("no other way");
  expect(run.value).toBeGreaterThan(laps.wholeIn(-1, 1e6));
  expect(run.value - otherwise.value).toBeCloseTo(5, 9);
  // that of the long gap is half of its five, and 0.3 of the short one's adds to it as it stands
  const besides = standardUncertainty(run) ** 2 - 2.8 ** 2;
  expect(besides).toBeGreaterThan(0);
  expect(standardUncertainty(otherwise) ** 2).toBeCloseTo(besides + 0.3 ** 2, 9);
});

// an even boiler loses 5 ml a millimetre: about 87 g in all of the way, whatever is counted
test("water a lap lies between what eight laps and thirteen would make of it, and the warning names both laps", () => {
  const entries = logOf(
    { kind: "pressure", barG: 3, atS: 0 },
    { kind: "level", mm: 50, atS: 0 },
    ...gap,
    shut(520),
    { kind: "pressure", barG: 3, atS: 520 },
    { kind: "level", mm: 30, atS: 520 },
  );
  const worked = analyse({ ...smallEngine(), boiler: evenBoiler }, entries);
  const { water } = worked.perLap ?? {};
  if (water === undefined || !isMeasured(water)) throw new Error("no water a lap");
  const [low, high] = interval(water);
  const drawn = 13 * water.value;
  expect(low).toBeLessThan(drawn / 13);
  expect(high).toBeGreaterThan(drawn / 8);
  // at the end of eight laps the water's own doubt is whole
  const [, mostDrawn] = interval(
    worked.phases.flatMap(({ name, steamingRate: rate, fromS, toS }) =>
      name === "running" && isMeasured(rate) ? [scaled(rate, (toS - fromS) / 60, "g")] : [],
    )[0] ?? exact(0, "g"),
  );
  expect(high).toBeCloseTo(mostDrawn / 8, 6);
  expect(worked.totals).toMatchObject({ laps: 13, distanceM: expect.closeTo(260, 9) });
  expect(worked.phases.map(({ laps }) => laps)).toContain(13);
  expect(worked.warnings.filter(({ code }) => code === "lap-perhaps-missed")).toEqual([
    {
      code: "lap-perhaps-missed",
      text: "The lap before 6:40 took as long as 6 laps with the regulator open; 5 are counted as run but not recorded. If she stood, they were not run. The range of what was used a lap takes in both. Write down when the regulator is shut.",
      entries: ["at 160", "at 400"],
    },
  ]);
});

test("of her who was taken to have stood it says what she may have run", () => {
  const added: Entry = { kind: "fuel", action: "added", g: 5, atS: 200 };
  const { warnings } = analyse(smallEngine(), logOf(...gap, added));
  expect(warnings.find(({ code }) => code === "lap-perhaps-missed")?.text).toBe(
    "The lap before 6:40 took as long as 6 laps with the regulator open; as there was a hand on her, she is taken to have stood. If she ran on, 5 laps were not recorded. The range of what was used a lap takes in both. Write down when the regulator is shut.",
  );
});
