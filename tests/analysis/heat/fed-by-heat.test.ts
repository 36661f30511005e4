import { expect, test } from "vitest";
import { withPumpByHeat } from "../../../src/analysis/heat/fed-by-heat.ts";
import { raisingOf } from "../../../src/analysis/heat/raising.ts";
import { waterOf } from "../../../src/analysis/water/water.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { smallEngine } from "../../support/small-logbook.ts";
import { bar, bypass, fire, level, regulator, sources } from "../water/water-log.ts";

/** A small pump, which by its size alone is thought to feed 23 g in ten minutes. */
const pumped = { ...smallEngine(), axlePump: { ramMm: 2, strokeMm: 4, strokesPerRev: 1 } };
const rise = [bar(0, 30), bar(0.5, 300), bar(1, 340), bar(2, 410), bar(3, 470)];

/** Raised in some eight minutes, then run for ten, the level fallen by so much. */
function afterFall(mm: number, more: Entry[] = [], engine = pumped) {
  const entries = [
    fire("lit", 10),
    ...rise,
    ...[0, 200, 470].map((atS) => level(40, atS)),
    regulator("open", 480),
    ...[480, 540, 600, 660, 720, 780, 840, 900, 960, 1020].map((atS) =>
      level(40 - (mm * (atS - 480)) / 600, atS),
    ),
    ...more,
    regulator("shut", 1080),
    bar(3, 1081),
    level(40 - mm, 1082),
  ];
  const from = sources(entries, engine);
  return { from, water: waterOf(from) };
}
/** Not by what the level says alone, but by the heat. */
const seemsFed = (...given: Parameters<typeof afterFall>) => {
  const { from, water } = afterFall(...given);
  expect(water.unseen).toBeUndefined();
  return withPumpByHeat(from, water).unseen !== undefined;
};

// 13 mm are some 26 g in ten minutes, 0.11 kW at 2600 J/g, where steam was raised by 0.31 kW
test("a pump nobody wrote of fed where the steam drawn takes far less heat than the fire gave before", () => {
  expect(raisingOf(afterFall(13).from, afterFall(13).water)?.power.value).toBeCloseTo(314.5, -1);
  expect(seemsFed(13)).toBe(true);
  expect(seemsFed(35)).toBe(false);
});

test("not where it has no pump, where its by-pass was written, or where she was fed otherwise", () => {
  expect(seemsFed(13, [], smallEngine() as typeof pumped)).toBe(false);
  expect(seemsFed(13, [bypass("open", 485)])).toBe(false);
  expect(seemsFed(13, [{ kind: "feed", by: "bottle", ml: 1, atS: 490 }])).toBe(false);
});
