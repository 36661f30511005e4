import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { sourcesWithThermometer } from "../../../src/analysis/pressure/thermometer-between.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { isMeasured } from "../../../src/quantity/measured.ts";
import { saturationPressurePa, saturationTemperatureK } from "../../../src/steam/saturation.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/** Lit at 30 s at 15 °C, warmed by 0.2 K a second to 3 bar g, put out, and cooled from there. */
const OUT_S = 30 + (saturationTemperatureK(4e5) - 288.15) / 0.2;
const kelvinAt = (atS: number): number =>
  atS < OUT_S
    ? 288.15 + 0.2 * Math.max(0, atS - 30)
    : 288.15 + (saturationTemperatureK(4e5) - 288.15) * Math.exp(-(atS - OUT_S) / 4000);
const barAt = (atS: number): number => Math.max(0, saturationPressurePa(kelvinAt(atS)) / 1e5 - 1);
const dial = (atS: number): Entry => ({ kind: "pressure", barG: barAt(atS), atS });
const warm = (atS: number, offK = 0): Entry => ({
  kind: "temperature",
  of: "boiler",
  celsius: kelvinAt(atS) - 273.15 + offK,
  atS,
});
const minutes = Array.from({ length: 30 }, (_, i) => 60 * (i + 1));
const twice = [dial(0), dial(1797)];
const around: Entry[] = [
  { kind: "level", mm: 20, atS: 1 },
  { kind: "fire", state: "lit", atS: 30 },
  { kind: "fire", state: "out", atS: OUT_S },
  { kind: "level", mm: 20, atS: 1798 },
];
const steaming = (entries: Entry[], head: Partial<Steaming> = {}): Steaming => ({
  ...smallSteaming(),
  purpose: "hot-hold",
  conditions: { ambientC: 15, feedC: 15, atmosphereHPa: 1000 },
  ...head,
  entries: [...around, ...entries].sort((a, b) => a.atS - b.atS),
});
const toldAt = (entries: Entry[], head: Partial<Steaming> = {}): number[] =>
  sourcesWithThermometer(smallEngine(), steaming(entries, head)).pressures.all.flatMap(({ by, atS }) =>
    by === "thermometer" ? [atS] : [],
  );
const boiling = (atS: number): boolean => barAt(atS) > 0;

describe("a boiler's thermometer in a hot hold while the dial is left unread", () => {
  test("tells her pressure and her raising as the dial would have", () => {
    const byBoth = steaming([...twice, ...minutes.map((atS) => warm(atS))]);
    expect(sourcesWithThermometer(smallEngine(), byBoth).pressure.atS(900)).toBeCloseTo(barAt(900), 2);
    const power = (one: Steaming) => {
      const told = analyse(smallEngine(), one).raising?.power;
      if (told === undefined || !isMeasured(told)) throw new Error("no power");
      return told.value;
    };
    const byDial = power(steaming([...twice, ...minutes.map(dial)]));
    expect(power(byBoth) / byDial).toBeCloseTo(1, 1);
    // the dial alone knows nothing of her top
    expect(sourcesWithThermometer(smallEngine(), steaming(twice)).pressure.highest?.barG).toBeLessThan(2);
  });

  test("so does a logger of it", () => {
    const values = Array.from({ length: 181 }, (_, i) => kelvinAt(10 * i) - 273.15);
    const traces = [{ channel: "temperatureC" as const, startS: 0, everyS: 10, values }];
    expect(toldAt(twice, { traces }).length).toBeGreaterThan(100);
  });

  test("only further than two minutes from a reading of the dial", () => {
    const all = minutes.map((atS) => warm(atS));
    expect(toldAt([...twice, dial(900), ...all])).toEqual(
      minutes.filter((atS) => boiling(atS) && Math.abs(atS - 900) > 120 && Math.abs(atS - 1797) > 120),
    );
    expect(toldAt([...twice, ...minutes.filter((_, i) => i % 2 === 0).map(dial), ...all])).toEqual([]);
  });

  test.each<[string, Entry[], Partial<Steaming>]>([
    [
      "they were never read together in steam",
      [dial(0), ...minutes.slice(0, 25).map((atS) => warm(atS))],
      {},
    ],
    ["they stand off from each other", [...twice, ...minutes.map((atS) => warm(atS, 12))], {}],
    ["it is a trial", [...twice, ...minutes.map((atS) => warm(atS))], { purpose: "trial" }],
  ])("not where %s", (_, entries, head) => {
    expect(toldAt(entries, head)).toEqual([]);
  });
});
