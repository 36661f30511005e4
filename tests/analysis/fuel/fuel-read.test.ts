import { describe, expect, test } from "vitest";
import { ALWAYS } from "../../../src/analysis/fuel/fuel-read.ts";
import { sourcesByHand, sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const { traces: _, ...byHand } = smallSteaming();
const fire = (atS: number, state: "lit" | "out"): Entry => ({ kind: "fire", state, atS });
const fuel = (atS: number, action: "added" | "remaining", g: number): Entry => ({
  kind: "fuel",
  action,
  g,
  atS,
});
const readOf = (...entries: Entry[]) => {
  const steaming = { ...byHand, entries };
  return [sourcesByHand(smallEngine(), steaming).fuel, sourcesOf(smallEngine(), steaming).fuel] as const;
};

describe("on the phone the fuel", () => {
  test("that was looked at is burnt as the sheet says", () => {
    const [phone, sheet] = readOf(
      fuel(0, "added", 40),
      fire(10, "lit"),
      fuel(300, "remaining", 24),
      fire(600, "out"),
      fuel(620, "remaining", 5),
    );
    expect(phone.fire).toEqual([[10, 600]]);
    for (const windows of [ALWAYS, [[100, 400]] as const]) {
      expect(phone.burntG(windows).value).toBeGreaterThan(0);
      expect(phone.burntG(windows)).toEqual(sheet.burntG(windows));
    }
    expect(phone.burntG(ALWAYS).value).toBeCloseTo(35, 0);
  });

  test("that nobody looked at is not thought of, but on the sheet", () => {
    const [phone, sheet] = readOf(fuel(0, "added", 40), fire(10, "lit"), fire(600, "out"));
    expect(phone.burntG(ALWAYS)).toEqual({
      value: null,
      why: "what fuel was left was not recorded: measure what is left",
    });
    expect(sheet.burntG(ALWAYS).value).toBeGreaterThan(20);
  });

  test("that cannot be told is not told for the same reason", () => {
    for (const log of [[fire(0, "lit")], [fuel(0, "added", 40), fire(0, "lit"), fire(0, "out")]]) {
      const [phone, sheet] = readOf(...log);
      expect(phone.burntG(ALWAYS).value).toBeNull();
      expect(phone.burntG(ALWAYS)).toEqual(sheet.burntG(ALWAYS));
    }
  });
});
