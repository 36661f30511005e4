import { describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import { reportOf } from "../../src/analysis/report.ts";
import { testSheetText } from "../../src/analysis/words/test-sheet-text.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import type { Steaming } from "../../src/logbook/steaming.ts";
import { smallEngine, smallSteaming } from "../support/small-logbook.ts";
import { dial, warned } from "./plausibility/logs.ts";

const report = (entries: Entry[], head: Partial<Steaming> = {}) =>
  reportOf(analyse(smallEngine(), { ...smallSteaming(), ...head, entries }));
const level = (mm: number, atS: number): Entry => ({ kind: "level", mm, atS });
const why = (text: string) => ({ value: null, why: expect.stringContaining(text) });

describe("a hot hold", () => {
  const hold = { purpose: "hot-hold" } as const;

  test("whose pressure rose to the end did not want for readings", () => {
    const rising = [1, 1.2, 1.4, 1.6, 1.8];
    const loss = (bars: number[]) =>
      report([level(15, 0), ...dial(bars, 120), level(15, 490)], hold).cooling?.lossAtWorkingPressure;
    expect(loss(rising)).toMatchObject(why("the pressure rose to the end of the log"));
    expect(loss([1, 1.2, 1.1])).toMatchObject(why("too few pressures"));
  });

  test("read by the boiler's thermometer alone wants enough of it, above boiling", () => {
    const warm = (celsius: number): Entry[] =>
      [0, 300, 600].map((atS) => ({ kind: "temperature", of: "boiler", celsius: celsius - atS / 60, atS }));
    const loss = (entries: Entry[], more: Partial<Steaming> = {}) =>
      report([level(15, 0), ...entries, level(15, 600)], { ...hold, ...more }).cooling?.lossAtWorkingPressure;
    expect(loss(warm(140))).toMatchObject(why("too few pressures"));
    expect(loss(warm(95))).toMatchObject(why("never above boiling"));
    const values = Array.from({ length: 60 }, (_, i) => 90 - i / 6);
    const traces = [{ channel: "temperatureC" as const, startS: 0, everyS: 10, values }];
    expect(loss([], { traces })).toMatchObject(why("never above boiling"));
    expect(loss([])).toMatchObject(why("nothing was written down after all was shut"));
  });
});

test("all written down at one moment: no water drawn without a doubt, and no fire that was never lit", () => {
  const once: Entry[] = [
    { kind: "fire", state: "lit", atS: 100 },
    { kind: "fuel", action: "added", g: 20, atS: 100 },
    ...dial([3, 3], 0),
    level(15, 100),
    level(14, 100),
    { kind: "fire", state: "out", atS: 100 },
  ];
  const { totals, heat } = report(once.map((entry) => ({ ...entry, atS: 100 })));
  expect(totals?.waterDrawn).toMatchObject(why("read at one moment only"));
  expect(totals?.fuelBurnt).toMatchObject(why("put out at the very moment it was lit"));
  expect(heat?.efficiency).toMatchObject(why("put out at the very moment it was lit"));
});

test("no strokes that raised the pressure of a cold hold are no water for a bar", () => {
  const strokes = (barG: number, count: number): Entry => ({ kind: "strokes", count, barG, atS: barG });
  const hold = (count: number) =>
    reportOf(
      analyse(
        { ...smallEngine(), handPump: { mlPerStroke: 1 } },
        {
          ...smallSteaming(),
          purpose: "cold-hold",
          entries: [strokes(0, 0), strokes(5, count), { kind: "pressure", barG: 4.9, atS: 600 }],
        },
      ),
    ).coldHold;
  expect(hold(0)?.compliance).toMatchObject(why("no pressure was reached by counted strokes"));
  expect(hold(0)?.leak).toMatchObject(why("no pressure was reached by counted strokes"));
  expect(hold(4)?.compliance.value).toBeGreaterThan(0);
});

test("fuel alone, at one moment, is not burnt by a fire lit throughout", () => {
  const fuel: Entry = { kind: "fuel", action: "added", g: 20, atS: 100 };
  expect(report([fuel]).totals?.fuelBurnt).toMatchObject(why("all was written down at one moment"));
  expect(warned("fire-not-recorded", [fuel])).toEqual([]);
  expect(warned("fire-not-recorded", [fuel, ...dial([3, 3], 200)])).toHaveLength(1);
});

test("what was in steam from the first and only stood was not raised", () => {
  const names = (purpose: "standing" | "trial", bars: number[]) =>
    report(dial(bars, 300), { purpose }).phases.map(({ name }) => name);
  expect(names("standing", [2, 2])).toEqual(["standing"]);
  expect(names("standing", [0, 2])).toEqual(["raising"]);
  expect(names("trial", [2, 2])).toEqual(["raising"]);
});

// a barrel of 50 x 120 mm holds 235.6 ml
test("a filling that the boiler cannot hold is named", () => {
  const filled = (ml: number) => warned("filled-beyond-boiler", [{ id: "f", kind: "fill", ml, atS: 0 }]);
  expect(filled(248)[0]).toMatchObject({
    text: expect.stringContaining("248 ml is more than the 236 ml"),
    entries: ["f"],
  });
  expect(filled(247)).toEqual([]);
});

test("a stretch that no reading tells has its line all the same, with the reason but not what would mend it", () => {
  const entries: Entry[] = [
    { kind: "fire", state: "lit", atS: 0 },
    ...dial([0, 3], 600),
    level(15, 10),
    level(14, 560),
    { kind: "regulator", state: "open", atS: 620 },
    level(11, 1190),
    { kind: "regulator", state: "shut", atS: 1200 },
  ];
  const told = report(entries);
  const standing = told.phases.find((phase) => phase.name === "standing");
  const { why = "" } = (standing?.steamingRate ?? {}) as { why?: string };
  expect(why).toContain(": ");
  const text = testSheetText(told, { ...smallSteaming() }, smallEngine());
  const line = text.split("\n").find((each) => each.includes("standing"));
  expect(line).toContain(`no rate: ${why.split(": ")[0]}`);
  expect(line).not.toContain(why);
});

describe("one reading of the glass", () => {
  const above = (lastS: number) => report([level(15, 10), ...dial([3, 3], lastS)]).forecast?.waterAboveLowest;

  test("tells the water above the lowest level by itself while it is fresh", () => {
    const [now, later] = [above(10), above(70)];
    if (now?.value == null || later?.value == null) throw new Error("no figure");
    const twice = report([level(15, 10), level(15, 11), ...dial([3, 3], 11)]).forecast?.waterAboveLowest;
    expect(now.value / (twice?.value ?? 0)).toBeCloseTo(1, 2);
    expect(later.u).toBeGreaterThan(now.u);
  });

  test("does not once it is more than a minute old", () => {
    expect(above(71)).toMatchObject(why("read once only"));
  });
});
