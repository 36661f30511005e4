import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Trace } from "../../../src/logbook/steaming.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const engine: Locomotive = {
  ...smallEngine(),
  instruments: { pressureReadingBar: 0.05, pressureBiasBar: 0.05 },
};
/** Up to 3 bar in ten minutes, at which she stands for ten. */
const entries: Entry[] = [
  { kind: "pressure", barG: 0, atS: 0 },
  { kind: "fire", state: "lit", atS: 10 },
  { kind: "pressure", barG: 0, atS: 300 },
  { kind: "pressure", barG: 1, atS: 400 },
  { kind: "pressure", barG: 2, atS: 500 },
  { kind: "pressure", barG: 3, atS: 600 },
  { kind: "pressure", barG: 3, atS: 900 },
  { kind: "pressure", barG: 3, atS: 1200 },
];
/** Of saturated steam (steam tables): 100.0, 120.4, 133.7 and 143.7 °C at 0, 1, 2 and 3 bar. */
const right = (atS: number): number =>
  atS < 300
    ? 15 + (85 * atS) / 300
    : atS < 400
      ? 100 + 0.204 * (atS - 300)
      : atS < 500
        ? 120.4 + 0.133 * (atS - 400)
        : Math.min(143.7, 133.7 + 0.1 * (atS - 500));
const traceOf = (celsius: (atS: number) => number): Trace => ({
  channel: "temperatureC",
  startS: 0,
  everyS: 5,
  values: Array.from({ length: 241 }, (_, i) => celsius(5 * i)),
});
const said = (celsius: (atS: number) => number, list = entries) =>
  analyse(engine, { ...smallSteaming(), entries: list, traces: [traceOf(celsius)] }).warnings.filter(
    ({ code }) => code === "pressure-and-logged-temperature",
  );

describe("a logger of the boiler's temperature", () => {
  test("that goes with the pressure is not spoken of, nor one that lags by ten seconds or is a degree or two off", () => {
    expect(said(right)).toEqual([]);
    expect(said((atS) => right(atS - 10))).toEqual([]);
    expect(said((atS) => right(atS) + 2)).toEqual([]);
  });

  test("that shows 116 °C where steam of the 3 bar that were read is at 144 °C is named, and what it may be", () => {
    const [warning] = said((atS) => 0.81 * right(atS));
    expect(warning?.text).toMatch(/3\.0 bar and 116 °C, where steam of that pressure is at 144 °C/);
    expect(warning?.text).toContain("not in the boiler");
  });

  test("that came loose for the last minutes is named, without putting all of it in question", () => {
    const [warning] = said((atS) => (atS < 800 ? right(atS) : 90));
    expect(warning?.text).toContain("90 °C");
    expect(warning?.text).not.toContain("Most");
  });

  test("of the flue is named, though it is no hotter than before she was lit", () => {
    expect(said((atS) => (atS < 10 ? 15 : 260))[0]?.text).toContain("260 °C");
  });

  test("is judged only where pressure was read: a slip of one reading says nothing of it", () => {
    expect(said(right, [...entries, { kind: "pressure", barG: 1, atS: 1100 }])).toEqual([]);
    expect(said(() => 90, [])).toEqual([]);
  });

  test("in a cold hold is of cold water, whatever the pressure", () => {
    const held = { ...smallSteaming(), purpose: "cold-hold" as const };
    const cold = entries.filter(({ kind }) => kind === "pressure");
    const { warnings } = analyse(engine, { ...held, entries: cold, traces: [traceOf(() => 15)] });
    expect(warnings.map(({ code }) => code)).not.toContain("pressure-and-logged-temperature");
  });
});
