import { describe, expect, test } from "vitest";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Stretch } from "../../../src/analysis/state/phases.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Steaming } from "../../../src/logbook/steaming.ts";
import { isMeasured } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

/** Laps of 20 m, and a wheel of which one turn is 0.4 m: 50 turns a lap. */
const TURN_M = 0.4;
const engine: Locomotive = { ...smallEngine(), drivingWheelMm: (1000 * TURN_M) / Math.PI };
const lap = (atS: number, count = 1): Entry => ({ kind: "lap", count, atS });
const turns = (atS: number, count: number): Entry => ({ kind: "revolutions", count, atS });
const regulator = (state: "open" | "shut", atS: number): Entry => ({ kind: "regulator", state, atS });
const phase = (name: "running" | "standing", atS: number): Entry => ({ kind: "phase", name, atS });
const pressure = (atS: number): Entry => ({ kind: "pressure", barG: 3, atS });

/** Of laps tapped one by one, with no gap that would show them, 4 in 400 + 9 taps are thought lost besides (our estimate). */
const besides = (taps: number) => 4 / (400 + 9 * taps);

function wayWith(entries: Entry[]) {
  const taps = entries.filter((entry) => entry.kind === "lap" && entry.count === 1).length;
  const { way } = sourcesOf(engine, { ...smallSteaming(), entries });
  const told = (figure: ReturnType<typeof way.metresIn>) => {
    if (!isMeasured(figure)) throw new Error(figure.why);
    const u = (name: string) =>
      Math.hypot(...figure.parts.filter((part) => part.name === name).map((part) => part.u));
    return {
      value: figure.value,
      // what was counted, where no gap would show a lap lost
      counted: figure.value / (1 + besides(taps)),
      unit: figure.unit,
      begun: u("laps begun and not counted"),
      unrecorded: u("laps perhaps not recorded"),
      measures: figure.parts.find((part) => part.source === "lap and wheel of small")?.u ?? 0,
    };
  };
  return {
    way,
    metres: (...windows: Stretch[]) => told(way.metresIn(windows)),
    turns: (...windows: Stretch[]) => told(way.turnsIn(windows)),
  };
}
const { track: _, ...noTrack } = smallSteaming();

describe("how far she went, by laps", () => {
  // off at 60 s, a lap every 40 s, 20 s more with the regulator open: half a lap begun
  const three = [regulator("open", 60), lap(100), lap(140), lap(180), regulator("shut", 200), pressure(300)];

  test("laps, and by her pace what she ran on after the last, known to a fifth of a lap", () => {
    const { metres } = wayWith(three);
    const whole = metres([60, 200]);
    expect([whole.counted, whole.unit]).toEqual([expect.closeTo(3.5 * 20, 9), "m"]);
    expect(whole.begun).toBeCloseTo(0.2 * 20, 9);
    expect(metres([0, 300])).toEqual(whole);
  });

  test("the errors of lap and wheel, and of laps lost, some of which are to be expected", () => {
    const { value, measures, unrecorded } = wayWith(three).metres([60, 200]);
    expect(measures).toBeCloseTo(0.005 * value, 9);
    expect(value).toBeCloseTo(70 * (1 + 4 / 427), 9);
    // 3 taps, gamma of shape 4/9 and rate 400/9 + 3: mean 3 x 4/427, variance that times 1 + 27/427; of the 3.5 laps in proportion
    expect(unrecorded).toBeCloseTo((70 / 3) * Math.sqrt((12 / 427) * (1 + 27 / 427)), 9);
  });

  // 1 + 20/40 laps; half way between two taps the doubt is greatest: 0.05 laps and a tenth of the one
  test("of a window that ends between two laps, the part of the time; in doubt the most half way", () => {
    const { metres } = wayWith(three);
    const half = metres([60, 120]);
    expect(half.counted).toBeCloseTo(1.5 * 20, 9);
    expect(half.begun).toBeCloseTo(0.15 * 20, 9);
    const quarter = metres([60, 110]);
    expect(quarter.counted).toBeCloseTo(1.25 * 20, 9);
    expect(quarter.begun).toBeCloseTo(0.75 * 0.15 * 20, 9);
    expect(metres([100, 140])).toMatchObject({ counted: expect.closeTo(20, 9), begun: 0 });
  });

  test("windows add, and so do the doubts of their ends, in quadrature", () => {
    const { metres } = wayWith(three);
    const both = metres([70, 90], [120, 160]);
    expect(both.counted).toBeCloseTo((0.5 + 1) * 20, 9);
    expect(both.begun).toBeCloseTo(20 * 0.15 * Math.hypot(0.75, 0.75, 1, 1), 9);
    // one of two that goes to the end has the doubt of the lap begun
    expect(metres([60, 100], [180, 200]).begun).toBeCloseTo(0.2 * 20, 9);
  });

  test("before she set off nothing was run, and after she stopped no more", () => {
    const { metres } = wayWith(three);
    expect(metres([0, 60])).toMatchObject({ value: 0, begun: 0 });
    expect(metres([250, 300]).value).toBe(0);
    expect(metres([180, 300]).counted).toBeCloseTo(10, 9);
    expect(metres([180, 190]).counted).toBeCloseTo(5, 9);
  });

  test("however long she ran on after the last lap, it was less than one more", () => {
    const long = wayWith([...three.slice(0, 4), regulator("shut", 400)]).metres([60, 400]);
    expect(long.counted).toBeCloseTo(4 * 20, 9);
  });

  test("where stops are not known, 0.4 of a lap is thought begun, give or take 0.35", () => {
    const unsaid = [
      pressure(0),
      phase("running", 60),
      lap(100),
      lap(140),
      lap(180),
      phase("standing", 200),
      pressure(300),
    ];
    const { counted, begun } = wayWith(unsaid).metres([60, 200]);
    expect(counted).toBeCloseTo(3.4 * 20, 9);
    expect(begun).toBeCloseTo(0.35 * 20, 9);
  });

  // three at a time: known to whole laps only, so 0.3 at every place but the start
  test("laps counted several at a time say nothing of the one begun", () => {
    const { metres } = wayWith([regulator("open", 60), lap(180, 3), lap(300, 3), regulator("shut", 320)]);
    const whole = metres([60, 320]);
    expect(whole.value).toBeCloseTo(6.4 * 20, 9);
    expect(whole.begun).toBeCloseTo(0.35 * 20, 9);
    const first = metres([60, 180]);
    expect(first.value).toBeCloseTo(3 * 20, 9);
    expect(first.begun).toBeCloseTo(0.3 * 20, 9);
    // half way to the first count: 0.05 laps and a tenth of three, and half of what that count is in doubt by
    expect(metres([60, 120]).begun).toBeCloseTo(20 * Math.hypot(0.35, 0.15), 9);
    // half way through the 20 s after the last: half of that count's doubt and half of the unfinished lap's, and 0.05 and a tenth of 0.4
    expect(metres([60, 310]).begun).toBeCloseTo(20 * Math.hypot(0.15, 0.175, 0.09), 9);
  });

  test("what one count is in doubt by goes off one window and on to the next", () => {
    const { metres } = wayWith([regulator("open", 60), lap(180, 3), lap(300, 3), regulator("shut", 320)]);
    expect(metres([60, 180], [180, 300]).begun).toBeCloseTo(0.3 * 20, 9);
    expect(metres([180, 300]).begun).toBeCloseTo(0.3 * Math.SQRT2 * 20, 9);
    // of the first count three quarters go off and on again, of the second three quarters are left; and each window's open end
    expect(metres([60, 150], [210, 300]).begun).toBeCloseTo(
      20 * Math.hypot(0.75 * 0.35, 0.75 * 0.35, 0, 0.3 * 0.75),
      9,
    );
  });

  test("nor do laps counted as she stands, however few", () => {
    const { metres } = wayWith([
      ...[regulator("open", 60), regulator("shut", 100), lap(105)],
      ...[regulator("open", 150), regulator("shut", 250), lap(255, 2)],
    ]);
    const whole = metres([60, 250]);
    expect(whole.value).toBeCloseTo(3.4 * (1 + besides(1) / 3) * 20, 9);
    expect(whole.begun).toBeCloseTo(0.35 * 20, 9);
  });

  test("one tapped as she stopped leaves the others tapped as she ran", () => {
    const { metres } = wayWith([regulator("open", 60), lap(100), lap(140), regulator("shut", 180), lap(183)]);
    expect(metres([60, 140]).begun).toBe(0);
    expect(metres([60, 180]).counted).toBeCloseTo(3 * 20, 9);
  });

  test("one count of several is enough, whatever the others were", () => {
    const { metres } = wayWith([regulator("open", 60), lap(180, 3), lap(220), regulator("shut", 240)]);
    expect(metres([60, 240]).value).toBeCloseTo(4.4 * (1 + besides(1) / 4) * 20, 9);
  });

  test("two at a time are still single laps", () => {
    const { metres } = wayWith([regulator("open", 60), lap(140, 2), lap(220, 2), regulator("shut", 260)]);
    expect(metres([60, 260]).value).toBeCloseTo(5 * 20, 9);
    expect(metres([60, 140]).begun).toBe(0);
  });

  test("a lap that a gap gives away counts where it was run", () => {
    const times = [100, 140, 180, 220, 300, 340, 380, 420];
    const { metres } = wayWith([
      regulator("open", 60),
      ...times.map((atS) => lap(atS)),
      { kind: "note", text: "written to the second", atS: 333 },
      regulator("shut", 420),
    ]);
    expect(metres([60, 420]).value).toBeCloseTo(9 * 20, 9);
    expect(metres([220, 300]).value).toBeCloseTo(2 * 20, 9);
    // one lap found, in doubt by 0.3, of nine; the gap would have shown any other
    expect(metres([60, 420]).unrecorded).toBeCloseTo(Math.hypot(0.3 / 9, 0.015) * 180, 9);
  });

  test("time stopped between two laps is not run through", () => {
    const { metres } = wayWith([
      regulator("open", 0),
      lap(40),
      regulator("shut", 60),
      regulator("open", 500),
      lap(520),
      regulator("shut", 520),
    ]);
    expect(metres([0, 60]).counted).toBeCloseTo(1.5 * 20, 9);
    expect(metres([60, 500]).value).toBe(0);
    expect(metres([500, 520]).counted).toBeCloseTo(0.5 * 20, 9);
  });
});

describe("how often the wheel turned", () => {
  const counted = [
    regulator("open", 0),
    turns(100, 200),
    turns(200, 300),
    regulator("shut", 220),
    pressure(400),
  ];

  // 500 turns in 200 s and 20 s more at 2.5 a second; between counts a tenth of the step, four times share x rest
  test("as counted, and on at the mean pace after the last count, known to a tenth of that", () => {
    const { turns: turned } = wayWith(counted);
    const whole = turned([0, 220]);
    expect([whole.value, whole.unit]).toEqual([expect.closeTo(550, 9), "rev"]);
    expect([whole.begun, whole.measures, whole.unrecorded]).toEqual([expect.closeTo(5, 9), 0, 0]);
    expect(turned([0, 50])).toMatchObject({ value: 100, begun: expect.closeTo(20, 9) });
    expect(turned([100, 150]).value).toBeCloseTo(150, 9);
  });

  test("a count from before she set off is not of the way since, and tells no pace", () => {
    expect(
      wayWith([regulator("open", 10), turns(10, 30), regulator("shut", 200)]).turns([0, 200]),
    ).toMatchObject({
      value: 0,
      begun: 0,
    });
  });

  test("a window from count to count is known as it was counted", () => {
    expect(wayWith(counted).way.turnsIn([[100, 200]])).toEqual({ value: 300, unit: "rev", parts: [] });
  });

  test("without laps turns tell the way", () => {
    const { metres } = wayWith(counted);
    const whole = metres([0, 220]);
    expect([whole.value, whole.unit]).toEqual([expect.closeTo(550 * TURN_M, 9), "m"]);
    expect(whole.begun).toBeCloseTo(5 * TURN_M, 9);
    expect(whole.measures).toBeCloseTo(0.005 * 550 * TURN_M, 9);
  });

  test("without a count laps tell the turns: 50 a lap", () => {
    const { turns: turned } = wayWith([regulator("open", 60), lap(100), lap(140), regulator("shut", 140)]);
    const whole = turned([60, 140]);
    expect([whole.counted, whole.unit]).toEqual([expect.closeTo(100, 9), "rev"]);
    expect(whole.measures).toBeCloseTo(0.005 * whole.value, 9);
    expect(whole.unrecorded).toBeCloseTo(50 * Math.sqrt((8 / 418) * (1 + 18 / 418)), 9);
  });

  test("where both were counted, laps tell the way and the count the turns", () => {
    const { metres, turns: turned } = wayWith([...counted.slice(0, 3), lap(200), ...counted.slice(3)]);
    expect(metres([0, 200]).counted).toBeCloseTo(20, 9);
    expect(turned([0, 200]).value).toBeCloseTo(500, 9);
  });

  test("laps of a track of unknown length leave the way to the wheel", () => {
    const entries = [...counted.slice(0, 3), lap(200), ...counted.slice(3)];
    const { way } = sourcesOf(engine, { ...noTrack, entries });
    expect(way.metresIn([[0, 200]]).value).toBeCloseTo(500 * TURN_M, 9);
  });
});

describe("no way, and why", () => {
  const whole: Stretch[] = [[0, 400]];
  const { drivingWheelMm: __, ...noWheel } = engine;
  const why = (entries: Entry[], of: Locomotive = engine, head: Steaming = smallSteaming()) => {
    const { way } = sourcesOf(of, { ...head, entries });
    return [way.metresIn(whole), way.turnsIn(whole)].map((figure) =>
      isMeasured(figure) ? figure.value : figure.why,
    );
  };
  const ran = [regulator("open", 0), regulator("shut", 200)];

  test("neither laps nor turns", () => {
    const words = "neither laps nor turns of the wheel were recorded";
    expect(why(ran)).toEqual([words, words]);
  });

  test("laps of unknown length", () => {
    const words = "the length of a lap was not recorded, nor the turns of the wheel";
    expect(why([...ran, lap(200)], engine, noTrack)).toEqual([words, words]);
  });

  test("a wheel of unknown size: turns as counted and no way, or a way by laps and no turns", () => {
    const words = "the driving wheel's diameter was not recorded";
    expect(why([...ran, turns(200, 500)], noWheel)).toEqual([words, 500]);
    expect(why([...ran, lap(100), lap(200)], noWheel)).toEqual([40 * (1 + besides(2)), words]);
  });

  test("counted, but nothing tells when she ran", () => {
    const words =
      "it is not known when she ran: write down when the regulator is opened and shut, or each lap as it is run";
    expect(why([pressure(0), turns(200, 500), pressure(400)])).toEqual([words, words]);
  });
});
