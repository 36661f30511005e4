import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Trace } from "../../../src/logbook/steaming.ts";
import { isMeasured } from "../../../src/quantity/measured.ts";
import { saturationTemperatureK } from "../../../src/steam/saturation.ts";
import { ATMOSPHERE_PA, cooled, engine, shutIn } from "./cooled-boiler.ts";

/** 40 W of loss and 0.5 g/min of leak; the dial and the glass each minute for ten minutes, to a third of a bar. */
const fall = cooled(40, 0.5, 0, 10, 600);
const pressures = fall.flatMap((entry) => (entry.kind === "pressure" ? [entry] : []));
const celsiusOf = (barG: number): number => saturationTemperatureK(barG * 1e5 + ATMOSPHERE_PA) - 273.15;
/** Of the boiling water at a moment, straight between the minutes. */
function boilingC(atS: number): number {
  const next = Math.max(
    1,
    pressures.findIndex((entry) => entry.atS >= atS),
  );
  const [a, b] = [pressures[next - 1], pressures[next]];
  if (a === undefined || b === undefined) return celsiusOf(pressures.at(-1)?.barG ?? 0);
  return celsiusOf(a.barG + ((b.barG - a.barG) * (atS - a.atS)) / (b.atS - a.atS));
}
const [highestC, lowestC] = [boilingC(1000), boilingC(1600)];
const traceOf = (celsius: (atS: number) => number): Trace => ({
  channel: "temperatureC",
  startS: 1000,
  everyS: 5,
  values: Array.from({ length: 121 }, (_, i) => celsius(1000 + 5 * i)),
});
function worked(readings: Entry[], traces: Trace[] = []) {
  const { cooling, warnings } = analyse(engine(), { ...shutIn(readings), traces });
  if (cooling === null) throw new Error("no section");
  return { ...cooling, codes: warnings.map(({ code }) => code) };
}
const read = (celsius: (atS: number) => number): Entry[] =>
  pressures.map(({ atS }): Entry => ({ kind: "temperature", of: "boiler", celsius: celsius(atS), atS }));
const alone = worked(fall);

describe("a boiler thermometer beside the dial, with all shut", () => {
  test("that goes with it, a degree off, is heeded", () => {
    const found = worked(fall, [traceOf((atS) => boilingC(atS) + 1)]);
    expect(found.lossAtWorkingPressure.value).not.toBe(alone.lossAtWorkingPressure.value);
    expect(found.codes).not.toContain("thermometer-left-out");
  });

  const middleC = (highestC + lowestC) / 2;
  test.each<[string, (atS: number) => number]>([
    ["stuck far below", () => 90],
    ["stuck half-way down the fall", () => middleC],
    ["in the flue", (atS) => 60 + 200 * Math.exp(-(atS - 1000) / 600)],
    ["that fell out in the middle", (atS) => (atS < 1400 ? boilingC(atS) : 40)],
  ])("%s is left out, which is said: loss and leak are those of the dial alone", (_, celsius) => {
    for (const found of [worked(fall, [traceOf(celsius)]), worked([...fall, ...read(celsius)])]) {
      expect(found.lossAtWorkingPressure).toEqual(alone.lossAtWorkingPressure);
      expect(found.leak).toEqual(alone.leak);
      expect(found.codes).toContain("thermometer-left-out");
    }
  });

  test("is believed where no pressure was read", () => {
    const levels = fall.filter(({ kind }) => kind === "level");
    const found = worked(levels, [traceOf(boilingC)]);
    expect(isMeasured(found.lossAtWorkingPressure)).toBe(true);
    expect(found.codes).not.toContain("thermometer-left-out");
  });
});
