import { expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { interval, isMeasured } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/** Ram of 5 mm, stroke of 8 mm: 0.157 ml a turn, of which 0.85 is thought the most. */
const axlePump = { ramMm: 5, strokeMm: 8, strokesPerRev: 1 };
const MOST_G_A_TURN = 0.85 * (Math.PI / 4) * 0.2;

/** On a rolling road, cylinders unknown: regulator and turns written down, no lap, nothing of the pump. */
const rolled = (fallMmAMinute: number, turnsAMinute: number, kinds = ["regulator", "revolutions"]) => {
  const minutes = Array.from({ length: 10 }, (_, i) => i + 1);
  const entries: Entry[] = [
    { kind: "pressure", barG: 3, atS: 0 },
    { kind: "level", mm: 20, atS: 0 },
    { kind: "regulator", state: "open", atS: 0 },
    ...minutes.flatMap((minute): Entry[] => [
      { kind: "revolutions", count: turnsAMinute, atS: 60 * minute },
      { kind: "pressure", barG: 3, atS: 60 * minute },
      { kind: "level", mm: 20 - fallMmAMinute * minute, atS: 60 * minute },
    ]),
  ];
  const kept = entries.filter(({ kind }) => kind === "pressure" || kind === "level" || kinds.includes(kind));
  const sheet = analyse({ ...smallEngine(), axlePump }, { ...smallSteaming(), entries: kept });
  return {
    said: sheet.warnings.find(({ code }) => code === "pump-not-recorded")?.text,
    drawn: sheet.totals?.waterDrawn,
    feed: sheet.totals?.feed,
  };
};

test("of an engine without cylinders' sizes whose water hardly fell, the pump may have fed all that it can", () => {
  const { said, drawn, feed } = rolled(0.1, 100);
  if (!drawn || !isMeasured(drawn) || !feed || !isMeasured(feed)) throw new Error("no figure");
  const most = 1000 * MOST_G_A_TURN;
  expect(interval(feed)[0]).toBeCloseTo(0, 6);
  expect(interval(feed)[1]).toBeCloseTo(most, 0);
  expect(interval(drawn)[1]).toBeGreaterThan(most);
  expect(said).toContain(`from nothing to ${Math.round(most)} g`);
});

test("where the water fell by more than it feeds it is taken as not feeding, and no feed is told", () => {
  const { said, drawn, feed } = rolled(1.4, 20);
  if (!drawn || !isMeasured(drawn)) throw new Error("no figure");
  expect(said).toContain("taken as not feeding");
  expect(feed).toEqual({ value: null, why: expect.stringContaining("whether the axle pump fed") });
});

test.each([["regulator"], ["revolutions"]])("that she ran is known by the %s alone", (kind) => {
  const { said, feed } = rolled(1.4, 20, [kind]);
  expect(said).toContain("neither its feed nor its by-pass was recorded");
  expect(feed?.value).not.toBe(0);
});

test("a note that no lap was run yet, or no turn made, does not make her run", () => {
  for (const kind of ["lap", "revolutions"] as const) {
    const entries: Entry[] = [
      { kind: "pressure", barG: 3, atS: 0 },
      { kind: "level", mm: 20, atS: 0 },
      { kind, count: 0, atS: 300 },
      { kind: "level", mm: 19.5, atS: 600 },
      { kind: "pressure", barG: 3, atS: 600 },
    ];
    const sheet = analyse({ ...smallEngine(), axlePump }, { ...smallSteaming(), entries });
    expect(sheet.warnings.map(({ code }) => code)).not.toContain("pump-not-recorded");
  }
});

test("of an engine that never ran nothing is said of her pump, and nothing was fed", () => {
  const { said, feed } = rolled(0.1, 100, []);
  expect(said).toBeUndefined();
  expect(feed?.value).toBe(0);
});
