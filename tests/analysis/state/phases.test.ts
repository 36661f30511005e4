import { describe, expect, test } from "vitest";
import { inSteamS, meanOver } from "../../../src/analysis/pressure/pressure-over-time.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const sourcesWith = (entries: Entry[]) => sourcesOf(smallEngine(), { ...smallSteaming(), entries });
const phasesWith = (entries: Entry[]) =>
  sourcesWith(entries).phases.map(({ name, fromS, toS, inferred }) => [name, fromS, toS, inferred]);

const day: Entry[] = [
  { kind: "fire", state: "lit", atS: 0 },
  { kind: "pressure", barG: 0, atS: 0 },
  { kind: "pressure", barG: 1.5, atS: 300 },
  { kind: "pressure", barG: 3, atS: 450 },
  { kind: "regulator", state: "open", atS: 600 },
  { kind: "lap", count: 1, atS: 660 },
  { kind: "lap", count: 1, atS: 720 },
  { kind: "regulator", state: "shut", atS: 900 },
  { kind: "fire", state: "out", atS: 1000 },
  { kind: "pressure", barG: 1, atS: 1800 },
];

describe("phases", () => {
  test("are inferred from fire, pressure and regulator, and said to be inferred", () => {
    // 0.95 of 3 bar is crossed on the line from 1.5 bar at 300 s to 3 bar at 450 s: at 435 s
    expect(phasesWith(day)).toEqual([
      ["raising", 0, 435, true],
      ["standing", 435, 600, true],
      ["running", 600, 900, true],
      ["standing", 900, 1000, true],
      ["shut-in", 1000, 1800, true],
    ]);
  });

  test("that are marked win, each until the next mark", () => {
    expect(
      phasesWith([
        ...day,
        { kind: "phase", name: "running", atS: 610 },
        { kind: "phase", name: "shut-in", atS: 905 },
      ]),
    ).toEqual([
      ["raising", 0, 435, true],
      ["standing", 435, 600, true],

      ["running", 610, 905, false],
      ["shut-in", 905, 1800, false],
    ]);
  });

  test("a moment of another phase just before a mark is the marking hand's delay, and left out", () => {
    const names = phasesWith([...day, { kind: "phase", name: "running", atS: 614 }]).map(([name, fromS]) => [
      name,
      fromS,
    ]);
    expect(names).not.toContainEqual(["running", 600]);
    expect(names).toContainEqual(["running", 614]);
  });

  test("without a regulator in the log, running is told by the laps, from one lap before the first", () => {
    const laps = [660, 720, 780, 840].map((atS): Entry => ({ kind: "lap", count: 1, atS }));
    const entries = day.filter((entry) => entry.kind !== "regulator" && entry.kind !== "lap");
    expect(phasesWith([...entries, ...laps])).toContainEqual(["running", 600, 840, true]);
  });

  test("a log with nothing in it has no phases", () => {
    expect(phasesWith([])).toEqual([]);
  });
});

describe("the pressure's course", () => {
  // water boils at 100.0, 111.6 and 127.6 °C at 0, 0.5 and 1.5 bar g (steam tables)
  test("first steam lies where the first rise of the boiling point, carried back, meets zero, within the gap", () => {
    const { pressure } = sourcesWith([
      { kind: "pressure", barG: 0, atS: 200 },
      { kind: "pressure", barG: 0.5, atS: 260 },
      { kind: "pressure", barG: 1.5, atS: 320 },
    ]);
    expect(Math.abs((pressure.firstSteamS ?? Number.NaN) - (260 - (60 * 11.6) / 16))).toBeLessThan(1);
  });

  test("mean over time weighs by time, not by reading", () => {
    const { pressure } = sourcesWith([
      { kind: "pressure", barG: 1, atS: 0 },
      { kind: "pressure", barG: 3, atS: 10 },
      { kind: "pressure", barG: 3, atS: 100 },
    ]);
    expect(meanOver(pressure, 0, 100)).toBeCloseTo((2 * 10 + 3 * 90) / 100, 9);
    expect(inSteamS(pressure, 0, 100)).toBeCloseTo(100, 9);
  });

  test("working pressure never reached is null, not the end of the log", () => {
    expect(sourcesWith(day.slice(0, 3)).pressure.reaches(3, 0)).toBeNull();
  });
});
