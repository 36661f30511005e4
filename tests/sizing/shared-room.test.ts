import { expect, test } from "vitest";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { modelsOf } from "../../src/sizing/models.ts";
import type { Plan } from "../../src/sizing/plan-schema.ts";
import { sizeUp } from "../../src/sizing/size.ts";
import type { Tank } from "../../src/sizing/tanks-schema.ts";
import { smallEngine } from "../support/small-logbook.ts";
import { exactly, madeRun } from "./made-runs.ts";
import { space } from "./usual-space.ts";

const engine: Locomotive = { ...smallEngine(), handPump: { mlPerStroke: 1 } };
const runs = [4.0, 4.4, 4.2].map((water, i) => madeRun(i, exactly(water)));
const side = (more: object = {}): Tank => ({
  kind: "side-pair",
  length: 100,
  height: 20,
  base: -10,
  ...more,
});
const well = (more: object = {}): Tank => ({ kind: "well", length: 100, width: 40, height: 20, ...more });

function sized(...water: Tank[]) {
  const plan: Plan = { locomotiveId: engine.id, plan: { laps: 30 }, tanks: { space, water } };
  return sizeUp(engine, plan, modelsOf(runs, plan)).sizing;
}
const told = (code: string, ...water: Tank[]) =>
  sized(...water).warnings.flatMap((one) => (one.code === code ? [one.text] : []));

test("two pairs at one height are said to fit only behind one another", () => {
  expect(told("same-room", side(), side({ base: 0 }))).toEqual([
    "The side tanks 1 and the side tanks 2 stand at the same height: there is room for both only one behind the other, 200 mm long together, and that is not checked.",
  ]);
  expect(told("same-room", side(), side({ base: 10 }))).toEqual([]);
});

test("so are two well tanks whose places are said, and not one whose place is not", () => {
  expect(told("same-room", well({ base: -60 }), well({ base: -50, length: 40 }))).toHaveLength(1);
  expect(told("same-room", well({ base: -80 }), well({ base: -50 }))).toEqual([]);
  expect(told("same-room", well({ base: -60 }), well())).toEqual([]);
  expect(told("same-room", well({ base: -60 }), side({ base: -60, height: 5 }))).toEqual([]);
});

test("a balance pipe whose straight way leads through the boiler is said to, one under it is not", () => {
  const pipe = { balancePipe: 4, height: 20 };
  expect(told("balance-pipe-through-boiler", side({ ...pipe, base: -10 }))).toHaveLength(1);
  // cleading 26.5 mm from the middle: floor at -30.6, the pipe's top at -26.6
  expect(told("balance-pipe-through-boiler", side({ ...pipe, base: -31.3 }))).toEqual([]);
  expect(told("balance-pipe-through-boiler", side({ ...pipe, base: -31.1 }))).toHaveLength(1);
  expect(told("balance-pipe-through-boiler", side({ base: -10 }))).toEqual([]);
});

test("a tank that cannot be made takes no room", () => {
  expect(told("same-room", side(), side({ height: 1 }))).toEqual([]);
});

test("a pair with flat faces that comes under the boiler is said to come among frames and wheels", () => {
  expect(told("among-the-frames", side({ base: -50 }))).toEqual([
    "The side tanks come within 0 mm of the engine's middle, under the boiler, where frames, wheels and motion are: nothing of these is checked.",
  ]);
  // nothing but its height keeps it out: sqrt(27.5^2 - 24^2) = 13.43 mm from the middle
  expect(told("among-the-frames", side({ base: -44 }))).toEqual([]);
  expect(told("among-the-frames", side({ base: -45 }))).toHaveLength(1);
  expect(told("among-the-frames", side())).toEqual([]);
});

test("so is one set over the boiler, and a curved one whose nearness to the middle nobody chose", () => {
  expect(told("over-the-boiler", side({ base: 60 }))[0]).toContain("within 0 mm of the engine's middle");
  expect(told("over-the-boiler", side({ base: 10 }))).toEqual([]);
  const curved = { innerFace: "curved", base: -200 };
  expect(told("among-the-frames", side(curved))[0]).toContain("within 13.3 mm");
  expect(told("among-the-frames", side({ ...curved, nearest: 5 }))).toEqual([]);
});

test("what a millimetre more buys is told best first, bands and cleading among it", () => {
  const { fit } = sized(side());
  const worth = fit?.sensitivity.map(({ mlPerMm }) => mlPerMm) ?? [];
  expect(worth).toEqual(worth.toSorted((a, b) => b - a));
  expect(worth[0]).toBeGreaterThan(0);
  const of = (name: string) => fit?.sensitivity.find(({ dimension }) => dimension === name)?.mlPerMm;
  // each moves the tank's face as lagging does
  expect(of("cleading")).toBeCloseTo(of("lagging") ?? Number.NaN, 6);
  expect(of("bands")).toBeCloseTo(of("lagging") ?? Number.NaN, 6);
});
