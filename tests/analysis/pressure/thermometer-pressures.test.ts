import { describe, expect, test } from "vitest";
import { thermometerPressures } from "../../../src/analysis/pressure/thermometer-pressures.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Trace } from "../../../src/logbook/steaming.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/** Saturation, bar absolute (steam tables on IAPWS-IF97): 1.9867 at 120 °C, 2.7028 at 130 °C. */
const conditions = { ambientC: 15, feedC: 15, atmosphereHPa: 1000 };
const boiler = (atS: number, celsius: number): Entry => ({ kind: "temperature", of: "boiler", atS, celsius });
const sources = (entries: Entry[], traces: Trace[] = []) =>
  sourcesOf(smallEngine(), { ...smallSteaming(), purpose: "hot-hold", conditions, entries, traces });
const told = (entries: Entry[], traces: Trace[] = []) => {
  const { timeline, around } = sources(entries, traces);
  return thermometerPressures(timeline, around);
};

describe("the boiler's thermometer of a boiler that is shut", () => {
  test("tells the pressure of saturation, as doubtful as a kelvin makes it", () => {
    const [read, ...others] = told([boiler(60, 120)]);
    expect(others).toEqual([]);
    expect(read).toMatchObject({ atS: 60, by: "thermometer" });
    expect(read?.barG).toBeCloseTo(1.9867 - 1, 3);
    // Clapeyron, of 2202.1 kJ/kg and 0.8902 m3/kg at 393.15 K: bar a kelvin
    expect(read?.uBar).toBeCloseTo(2.2021e6 / 0.8902 / 393.15 / 1e5, 4);
  });

  // at 1000 hPa water boils at 99.61 °C; 600 K are 326.85 °C
  test("tells none below boiling, none of other thermometers, and none that no boiler has", () => {
    const flue: Entry = { kind: "temperature", of: "flue", atS: 60, celsius: 120 };
    expect(told([flue, boiler(70, 99.5), boiler(80, 330)])).toEqual([]);
    expect(told([boiler(70, 99.7), boiler(80, 320)])).toHaveLength(2);
  });

  test("by hand and by logger in order of time", () => {
    const trace: Trace = { channel: "temperatureC", startS: 0, everyS: 100, values: [130, null, 120] };
    const both = told([boiler(50, 125), boiler(250, 119)], [trace]);
    expect(both.map(({ atS }) => atS)).toEqual([0, 50, 200, 250]);
    expect(both[0]?.barG).toBeCloseTo(2.7028 - 1, 3);
  });

  test("is asked only where neither dial nor logger was read", () => {
    const by = (entries: Entry[], traces: Trace[] = []) =>
      new Set(sources([boiler(60, 120), ...entries], traces).pressures.all.map((one) => one.by));
    expect(by([])).toEqual(new Set(["thermometer"]));
    expect(by([{ kind: "pressure", atS: 90, barG: 1 }])).toEqual(new Set(["dial"]));
    expect(by([], [{ channel: "pressureBarG", startS: 0, everyS: 10, values: [1, 1, 1] }])).toEqual(
      new Set(["logger"]),
    );
  });
});
