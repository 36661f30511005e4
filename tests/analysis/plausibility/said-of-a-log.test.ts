import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { dial, laps, warned } from "./logs.ts";

const lit: Entry = { kind: "fire", state: "lit", atS: 0 };
const out: Entry = { kind: "fire", state: "out", atS: 600 };
const added: Entry = { id: "f1", kind: "fuel", action: "added", g: 20, atS: 0 };
const left: Entry = { id: "f2", kind: "fuel", action: "remaining", g: 12, atS: 600 };
const opened: Entry = { kind: "regulator", state: "open", atS: 0 };

describe("what is said of a log as a whole", () => {
  test("nothing of one with nothing amiss in it", () => {
    const entries = [lit, added, ...dial([3, 3], 600), out, left];
    expect(analyse(smallEngine(), { ...smallSteaming(), entries }).warnings).toEqual([]);
  });

  test("entries that stood after later ones are named", () => {
    const log = [...dial([2, 2.2], 60), { id: "late", kind: "note", text: "wind", atS: 30 } as Entry];
    expect(warned("out-of-order", log).map(({ entries }) => entries)).toEqual([["late"]]);
    expect(warned("out-of-order", dial([2, 2.2], 60))).toEqual([]);
  });

  test("laps, or turns, that were written as a running count are named, each kind by itself", () => {
    const running = (kind: "lap" | "revolutions"): Entry[] =>
      [1, 2, 3, 4, 5].map((count) => ({ id: `${kind} ${count}`, kind, count, atS: 60 * count }));
    const [ofLaps, ...none] = warned("running-count", running("lap"));
    expect(none).toEqual([]);
    expect(ofLaps?.text).toContain("counts of laps");
    expect(ofLaps?.entries).toEqual(["lap 1", "lap 2", "lap 3", "lap 4", "lap 5"]);
    const [ofTurns] = warned("running-count", running("revolutions"));
    expect(ofTurns?.text).toContain("counts of revolutions");
    expect(ofTurns?.entries).toHaveLength(5);
    expect(warned("running-count", laps([60, 120, 180, 240, 300]))).toEqual([]);
  });

  test("what was taken as usual for want of a word is said", () => {
    const { conditions: _, ...unsaid } = smallSteaming();
    const assumed = (steaming: Steaming) =>
      analyse(smallEngine(), { ...steaming, entries: dial([2, 2.2], 60) })
        .warnings.filter(({ code }) => code === "assumed-conditions")
        .map(({ text, entries }) => [text, entries]);
    expect(assumed(unsaid)).toEqual([["Not recorded, so taken as usual: air 15 °C, feed water 15 °C.", []]]);
    expect(assumed(smallSteaming())).toEqual([]);
  });

  test("fuel without a word of the fire", () => {
    const code = "fire-not-recorded";
    expect(warned(code, [added, ...dial([3, 3], 600), left])[0]?.text).toContain("lit throughout");
    expect(warned(code, [added, lit, ...dial([3, 3], 600), left])).toEqual([]);
    expect(warned(code, dial([3, 3], 600))).toEqual([]);
    const putOut = warned(code, [added, ...dial([3, 3], 600), out, left]);
    expect(putOut.map(({ text }) => text)).toEqual([expect.stringContaining("lit from the first entry on")]);
  });

  test("fuel of which nobody looked what was left", () => {
    const code = "fuel-left-not-recorded";
    const [warning] = warned(code, [added, lit, ...dial([3, 3], 600), out]);
    expect(warning?.entries).toEqual(["f1"]);
    expect(warning?.text).toContain("thought of");
    expect(warned(code, [added, lit, ...dial([3, 3], 600), out, left])).toEqual([]);
  });

  test("a lap perhaps forgotten, and two", () => {
    const regular = [40, 80, 120, 160, 240, 280, 320, 360, 400];
    const toTheSecond: Entry = { kind: "note", text: "", atS: 7 };
    const [one] = warned("lap-perhaps-missed", [opened, toTheSecond, ...laps(regular)]);
    expect(one?.text).toBe(
      "The lap before 4:00 took as long as 2 laps; 1 is counted as run but not recorded.",
    );
    expect(one?.entries).toEqual(["lap5"]);
    const [two] = warned("lap-perhaps-missed", [
      opened,
      toTheSecond,
      ...laps(regular.map((atS) => (atS > 200 ? atS + 40 : atS))),
    ]);
    expect(two?.text).toBe(
      "The lap before 4:40 took as long as 3 laps; 2 are counted as run but not recorded.",
    );
  });
});

describe("an axle pump of which nothing was written down", () => {
  const engine = { axlePump: { ramMm: 4, strokeMm: 10, strokesPerRev: 1 } };
  const code = "pump-not-recorded";
  const run = [opened, ...laps([60, 120, 180]), ...dial([3, 3], 200)];
  const feed = (by: "axle-pump" | "bottle"): Entry => ({ kind: "feed", by, ml: 10, atS: 190 });
  const bypass: Entry = { kind: "bypass", state: "open", atS: 0 };

  // pi/4 x 16 mm2 x 10 mm, 0.85 of it, 4.5 turns a second, 180 s under way: 86.5 g
  test("is said with what it could have fed", () => {
    const entries = [...run, { kind: "regulator", state: "shut", atS: 180 } as const];
    expect(warned(code, entries, { engine })[0]?.text).toContain("it could have fed 87 g");
  });

  test("is said, once she ran, also where she was fed by hand", () => {
    expect(warned(code, run, { engine })[0]?.text).toContain("taken as not feeding");
    expect(warned(code, [...run, feed("bottle")], { engine })).toHaveLength(1);
  });

  test.each<[string, Entry[], object]>([
    ["she has none", run, {}],
    ["its feed was measured", [...run, feed("axle-pump")], engine],
    ["its by-pass was noted", [bypass, ...run], engine],
    ["she did not run", dial([3, 3], 200), engine],
  ])("is not where %s", (_, entries, with_) => {
    expect(warned(code, entries, { engine: with_ })).toEqual([]);
  });
});

// working pressure 3 bar: a tenth above it is 3.3 bar
describe("pressure above working pressure", () => {
  const code = "above-working-pressure";

  test("by more than a tenth is said, with the readings that show it", () => {
    expect(warned(code, dial([3, 3.31, 3.3, 3.4])).map(({ entries }) => entries)).toEqual([["p2", "p4"]]);
    expect(warned(code, dial([3, 3.3, 3.2]))).toEqual([]);
    // 1.1 x 2.5 bar is 2.75 bar to the last digit
    const engine = { workingPressureBarG: 2.5 };
    expect(warned(code, dial([2.5, 2.75]), { engine })).toEqual([]);
    expect(warned(code, dial([2.75, 2.8]), { engine })[0]?.entries).toEqual(["p2"]);
  });

  test("by samples alone is said without names", () => {
    const steaming = {
      traces: [{ channel: "pressureBarG" as const, startS: 0, everyS: 10, values: [3, 3.5, 3.6, 3.5, 3] }],
    };
    expect(warned(code, [], { steaming }).map(({ entries }) => entries)).toEqual([[]]);
  });

  test("is what a hydraulic hold is for, unless a fire was lit", () => {
    const steaming = { purpose: "cold-hold" as const };
    expect(warned(code, dial([6, 6, 5.9]), { steaming })).toEqual([]);
    expect(warned(code, [lit, ...dial([6, 6, 5.9])], { steaming })).toHaveLength(1);
  });
});
