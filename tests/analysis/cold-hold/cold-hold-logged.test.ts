import { describe, expect, test } from "vitest";
import { coldHoldOf, coldHoldWarnings } from "../../../src/analysis/cold-hold/cold-hold.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import type { Locomotive } from "../../../src/logbook/locomotive.ts";
import type { Trace } from "../../../src/logbook/steaming.ts";
import { interval } from "../../../src/quantity/measured.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { bar, boilerAt, figure, stroke, up } from "./hold-log.ts";

/** Of the pressure at which she is held as working pressure, where her leak stands as it leaks there. */
const engine: Locomotive = {
  ...smallEngine(),
  workingPressureBarG: 5.7,
  handPump: { mlPerStroke: 0.5, uMlPerStroke: 0.005 },
  instruments: { pressureReadingBar: 0.02, pressureBiasBar: 0.02 },
};
const sources = (entries: Entry[], traces: Trace[]) =>
  sourcesOf(engine, { ...smallSteaming(), purpose: "cold-hold", entries, traces });

const steady = [boilerAt(15, 30), boilerAt(15, 630)];
/** What a logger shows second by second: up with the strokes, and 0.6 bar in the ten minutes from 30 s on, 0.01 bar to either side. */
const shownBar = (atS: number) =>
  (atS < 10 ? 0 : atS < 20 ? 2 : atS < 30 ? 4 : 6 - 0.001 * (atS - 30)) + (atS % 2 === 0 ? 0.01 : -0.01);
const pressures = (toS: number, barAt = shownBar): Trace => ({
  channel: "pressureBarG",
  startS: 0,
  everyS: 1,
  values: Array.from({ length: toS + 1 }, (_, atS) => barAt(atS)),
});

describe("a cold hold beside a pressure logger", () => {
  // 0.25 ml/bar x 0.6 bar / 10 min
  test("has the leak that the trace shows, though nobody read the dial again", () => {
    const hold = coldHoldOf(sources([...up, ...steady], [pressures(630)]));
    expect(figure(hold?.compliance).value).toBeCloseTo(0.25, 2);
    expect(figure(hold?.leak).value).toBeCloseTo(0.015, 3);
    const [low, high] = interval(figure(hold?.leak));
    expect(high - low).toBeLessThan(0.01);
    expect(hold?.held?.toS).toBeGreaterThan(600);
  });

  test("ends where the pressure was let off, of which nothing was written", () => {
    const let20s = (atS: number) => Math.max(0, shownBar(Math.min(atS, 630)) - 0.27 * Math.max(0, atS - 630));
    const hold = coldHoldOf(sources([...up, ...steady], [pressures(800, let20s)]));
    expect(hold?.held?.toS).toBeGreaterThan(600);
    expect(hold?.held?.toS).toBeLessThan(632);
    expect(figure(hold?.leak).value).toBeCloseTo(0.015, 3);
  });

  test("leaves out what it shows within seconds of a stroke, which is written down sooner or later", () => {
    const late = (atS: number) => (atS >= 30 && atS < 35 ? 4.5 : shownBar(atS));
    const hold = coldHoldOf(sources([...up, ...steady], [pressures(630, late)]));
    expect(figure(hold?.leak).value).toBeCloseTo(0.015, 3);
  });

  // the same strokes written as feed, with nothing but the trace for the pressures they reached
  test("takes from it what a feed by the hand pump reached", () => {
    const fed = [0, 10, 20, 30].map(
      (atS): Entry => ({
        kind: "feed",
        by: "hand-pump",
        ml: atS === 0 ? 1 : 0.5,
        atS,
      }),
    );
    const hold = coldHoldOf(sources([...fed, ...steady], [pressures(630)]));
    expect(figure(hold?.compliance).value).toBeCloseTo(0.25, 2);
    expect(figure(hold?.leak).value).toBeCloseTo(0.015, 3);
  });

  // 1 bar was lost between two counts: what the next stroke put back tells no springiness
  test("sees in it a pressure lost on the way up, as where it was read off the dial", () => {
    const slow = [stroke(2, 0, 0), stroke(1, 2, 10), stroke(1, 4, 20), stroke(1, 5, 300), stroke(1, 7, 310)];
    const held = [bar(7, 315), bar(6.99, 900)];
    const softness = (more: Entry[], traces: Trace[]) =>
      figure(coldHoldOf(sources([...slow, ...more, ...held], traces))?.compliance).value;
    const seen = softness([bar(3, 299)], []);
    expect(softness([], [])).toBeGreaterThan(seen + 0.02);
    const lost = (atS: number) =>
      atS < 20 ? shownBar(atS) : atS < 300 ? 4 - (atS - 20) / 280 : atS < 310 ? 5 : 7;
    expect(softness([], [pressures(310, lost)])).toBeCloseTo(seen, 3);
  });
});

describe("a cold hold beside a logger of the boiler's temperature", () => {
  const down = [bar(5.7, 330), bar(5.4, 630)];
  const celsius = (of: (atS: number) => number): Trace => ({
    channel: "temperatureC",
    startS: 0,
    everyS: 10,
    values: Array.from({ length: 70 }, (_, i) => of(10 * i)),
  });
  const slowly = (atS: number) => 15 + (atS - 30) / 600;

  // as by two readings by hand: 1 K warmer drives out 0.024 ml of 235.6, 0.0024 ml/min beside the 0.015 of the fall
  test("has the water's temperature at both ends from it, as from two readings", () => {
    const from = sources([...up, ...down], [celsius(slowly)]);
    const hold = coldHoldOf(from);
    expect(coldHoldWarnings(from)).toEqual([]);
    expect(hold?.held?.waterC?.from).toBeCloseTo(15, 2);
    expect(hold?.held?.waterC?.to).toBeCloseTo(16, 2);
    const byHand = coldHoldOf(sources([...up, ...down, boilerAt(15, 30), boilerAt(16, 630)], []));
    expect(figure(hold?.leak).value).toBeCloseTo(figure(byHand?.leak).value, 5);
    expect(interval(figure(hold?.leak))[1]).toBeCloseTo(interval(figure(byHand?.leak))[1], 4);
  });

  test("a trace that scatters has its mean about either end, and is no surer than that", () => {
    const noisy = celsius((atS) => slowly(atS) + (atS % 20 === 0 ? 2 : -2));
    const [calm, rough] = [celsius(slowly), noisy].map((trace) =>
      coldHoldOf(sources([...up, ...down], [trace])),
    );
    const u = (hold: typeof calm) =>
      figure(hold?.leak).parts.find(({ name }) => name === "temperature of the water")?.u ?? 0;
    expect(u(rough)).toBeGreaterThan(5 * u(calm));
  });

  test("what was read by hand of the boiler at two moments goes before a logger that says not of what", () => {
    const from = sources([...up, ...down, ...steady], [celsius((atS) => 15 + atS / 60)]);
    expect(coldHoldOf(from)?.held?.waterC).toEqual({ from: 15, to: 15 });
  });

  test("a trace of what is boiling hot is not this water's", () => {
    const from = sources([...up, ...down], [celsius(() => 150)]);
    expect(coldHoldWarnings(from).map(({ code }) => code)).toEqual(["water-temperature-not-read"]);
  });
});
