import { expect, test } from "vitest";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/** Lit at 100 s in air and water of 15 °C, first steam at 500 s, 70 °C read at 250 s. */
const entries: Entry[] = [
  { kind: "fire", state: "lit", atS: 100 },
  { kind: "temperature", of: "boiler", celsius: 70, atS: 250 },
  { kind: "pressure", barG: 0, atS: 500 },
  { kind: "pressure", barG: 2, atS: 600 },
];
const celsiusAt = (atS: number, list = entries): number => {
  const steaming = { ...smallSteaming(), conditions: { ambientC: 15, feedC: 15 }, entries: list };
  return sourcesOf(smallEngine(), steaming).stateAt(atS).temperatureK - 273.15;
};

test("a thermometer read while she is raised says nothing of before the fire was lit", () => {
  expect(celsiusAt(90)).toBeCloseTo(15, 6);
  expect(celsiusAt(100)).toBeCloseTo(15, 6);
});

/** Of a rise of 84.97 K in 400 s that slows to a 1.3th of its mean: so far above the straight line half-way through a part of it. */
const bulgeK = (seconds: number, riseK = 84.974) => ((0.3 / 1.3) * riseK * (seconds / 400) ** 2) / 4;

test("it is a mark on the way up: to it, and from it to boiling at first steam, ever slower", () => {
  expect(celsiusAt(175)).toBeCloseTo(42.5 + bulgeK(150), 3);
  expect(celsiusAt(250)).toBeCloseTo(70, 6);
  expect(celsiusAt(375)).toBeCloseTo((70 + 99.974) / 2 + bulgeK(250), 2);
});

test("read before the fire was lit, it tells how warm she was then", () => {
  const warm: Entry[] = [{ kind: "temperature", of: "boiler", celsius: 40, atS: 20 }, ...entries];
  expect(celsiusAt(50, warm)).toBeCloseTo(40, 6);
  expect(celsiusAt(175, warm)).toBeCloseTo(55 + bulgeK(150, 59.974), 3);
});
