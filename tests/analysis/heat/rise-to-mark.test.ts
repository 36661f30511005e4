import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { riseToMark } from "../../../src/analysis/heat/rise-to-mark.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { saturationPressurePa } from "../../../src/steam/saturation.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/**
 * A boiler that warms by 0.1 K a second from 100 °C at 300 s. Boiling temperatures at bar gauge are the printed ones of
 * Spirax Sarco, Dry Saturated Steam Tables, TI-GCM-01 issue 6: 0.5: 111.6; 1.5: 127.6; 2.6: 140.0 °C. So 2.6 bar is met
 * 400 s after boiling, 1.5 bar 276 s, 0.5 bar 116 s after it.
 */
const engine = () => ({
  ...smallEngine(),
  workingPressureBarG: 2.6,
  instruments: { pressureReadingBar: 0.02, pressureBiasBar: 0.05 },
});
const at = (atS: number, barG: number): Entry => ({ kind: "pressure", atS, barG });
const lit: Entry = { kind: "fire", atS: 0, state: "lit" };
const rise = [at(280, 0), at(416, 0.5), at(576, 1.5)];
/** further on the same rise, by the program's own saturation line (IAPWS R7-97, checked elsewhere) */
const risen = (atS: number) => at(atS, (saturationPressurePa(373.15 + 0.1 * (atS - 300)) - 101_325) / 1e5);
const passing = [...rise, risen(680), risen(720)];
const metIn = (entries: Entry[]) =>
  riseToMark(sourcesOf(engine(), { ...smallSteaming(), entries: [lit, ...entries] }), 2.6, 0, 2000);

describe("the moment of a pressure", () => {
  test("lies between two readings of a steady rise, by boiling temperature", () => {
    const met = metIn(passing);
    expect(met?.atS).toBeGreaterThan(695);
    expect(met?.atS).toBeLessThan(705);
  });

  test("is told by the rise where a valve stopped it and let the pressure sink before the next reading", () => {
    const met = metIn([...rise, at(900, 2.4)]);
    expect(met?.atS).toBeGreaterThan(690);
    expect(met?.atS).toBeLessThan(710);
    expect(met?.uS).toBeGreaterThan(10);
  });

  test("is held by the valve's lift, if that was written down", () => {
    const met = metIn([...rise, { kind: "valve", atS: 715, state: "lifts" }, at(900, 2.4)]);
    expect(met?.atS).toBeGreaterThan(685);
    expect(met?.atS).toBeLessThan(715);
  });

  test("is not told by a pace from before the blower was shut off", () => {
    const met = metIn([
      ...rise,
      at(660, 2.26),
      { kind: "blower", atS: 662, state: "off" },
      at(760, 2.4),
      at(900, 2.6),
    ]);
    expect(met?.atS).toBeGreaterThan(840);
  });

  const off = (atS: number): Entry => ({ kind: "blower", atS, state: "off" });

  test("was met where the blower was shut off just short of it and the next reading stands lower", () => {
    // 0.8 K short at 692 s: 8 s at the pace until then, 24 at a third of it
    const met = metIn([...rise, risen(650), risen(690), off(692), at(780, 2.45)]);
    expect(met?.atS).toBeGreaterThan(698);
    expect(met?.atS).toBeLessThan(718);
    // a dial that rises on has not met it, nor has one that never came near
    expect(metIn([...rise, risen(690), off(692), at(780, 2.55)])?.atS ?? 999).toBeGreaterThan(780);
    expect(metIn([...rise, risen(690), off(692), at(780, 1.8)])).toBeNull();
    expect(metIn([...rise, off(580), at(640, 1.45)])).toBeNull();
  });

  test("is told by the pace from a reading taken just after the blower was shut off", () => {
    const bar = (celsius: number) => (saturationPressurePa(celsius + 273.15) - 101_325) / 1e5;
    // 0.1 K a second until 575 s, 0.07 after it: met at 753 s, and shown after a wide gap in which a valve may have held it
    const slower = [580, 640].map((s) => at(s, bar(127.6 + 0.07 * (s - 576))));
    const met = metIn([at(280, 0), at(416, 0.5), off(575), at(576, 1.5), ...slower, at(840, 2.602)]);
    expect(Math.abs((met?.atS ?? 0) - (753 + 839) / 2)).toBeLessThan(5);
  });

  test("after the blower was shut off lies anywhere from the pace before to the straight line", () => {
    // at the old pace from 136 °C at 660 s it is met at 700 s
    const met = metIn([...rise, risen(630), risen(660), off(661), at(900, 2.602)]);
    expect(Math.abs((met?.atS ?? 0) - (700 + 899) / 2)).toBeLessThan(8);
    expect(met?.uS).toBeGreaterThan(100 / Math.sqrt(3));
  });

  test("is none where the rise ended well below it", () => {
    expect(metIn([...rise, at(700, 1.6), at(800, 1.5)])).toBeNull();
  });

  test("comes earlier on a dial that reads high, by its bias over the pace", () => {
    // 0.05 bar at 2.6 bar, about 10 K a bar there: 0.5 K, 5 s
    const met = metIn(passing);
    expect(met?.dialS).toBeLessThan(-4);
    expect(met?.dialS).toBeGreaterThan(-6);
  });
});

test("steam raised short of working pressure is reckoned to the highest before it was used", () => {
  const entries: Entry[] = [
    lit,
    { kind: "level", atS: 0, mm: 20 },
    ...rise,
    { kind: "regulator", atS: 600, state: "open" },
    at(700, 1.2),
    { kind: "level", atS: 700, mm: 18 },
  ];
  const { raising } = analyse(engine(), { ...smallSteaming(), entries });
  expect(raising?.window).toEqual([0, 576]);
  expect(raising?.toWorkingPressureS).toBeNull();
});
