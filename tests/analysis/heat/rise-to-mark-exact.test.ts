import { describe, expect, test } from "vitest";
import { metUnseen, riseToMark } from "../../../src/analysis/heat/rise-to-mark.ts";
import { sourcesOf } from "../../../src/analysis/sources.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { saturationPressurePa } from "../../../src/steam/saturation.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";
import { fire } from "../water/water-log.ts";

/** Working pressure is 2.6 bar, which boils at 140.0 °C (Spirax Sarco, TI-GCM-01 issue 6): all is told in °C here. */
const MARK_C = 140;
const engine = {
  ...smallEngine(),
  workingPressureBarG: 2.6,
  instruments: { pressureReadingBar: 0.01, pressureBiasBar: 0.05 },
};
const boils = (celsius: number, atS: number): Entry => ({
  kind: "pressure",
  barG: (saturationPressurePa(celsius + 273.15) - 101_325) / 1e5,
  atS,
});
const off = (atS: number): Entry => ({ kind: "blower", atS, state: "off" });
const on = (atS: number): Entry => ({ kind: "blower", atS, state: "on" });
const lifts = (atS: number): Entry => ({ kind: "valve", atS, state: "lifts" });
const sources = (entries: readonly Entry[]) =>
  sourcesOf(engine, { ...smallSteaming(), entries: [...entries].sort((a, b) => a.atS - b.atS) });
const met = (entries: readonly Entry[], fromS = 0) => riseToMark(sources(entries), 2.6, fromS, 2000);
/** 0.1 K a second: met at 700 s. */
const rise = [416, 576, 650, 690].map((atS) => boils(MARK_C - 0.1 * (700 - atS), atS));
/** As if she had warmed from 15 °C all the way at the pace after boiling, `faster` times slower than she did. */
const byPaceS = (litS: number, [lastC, lastS]: [number, number], faster: number) =>
  lastS + ((MARK_C - lastC) * (lastS - litS)) / (lastC - (100 - 85 / faster));

describe("a pressure met unseen before a reading", () => {
  const last: [number, number] = [120, 500];
  const begun = (litS: number) => [fire("lit", litS), boils(...last)];
  const unseen = (entries: readonly Entry[], atS: number, fromS = 0) =>
    metUnseen(sources(entries), 2.6, [fromS, atS]);

  test("is so where the slowest pace since lighting would have met it half a minute before", () => {
    for (const litS of [0, 200]) {
      const metS = byPaceS(litS, last, 3);
      expect(unseen(begun(litS), metS + 31)).toBe(true);
      expect(unseen(begun(litS), metS + 29)).toBe(false);
    }
  });

  test("is not told where the blower was turned meanwhile, and is where it was before or after", () => {
    const metS = byPaceS(100, last, 3);
    const turned = (atS: number) => unseen([...begun(100), on(atS)], metS + 60, 50);
    expect([51, 300, metS + 59].map(turned)).toEqual([false, false, false]);
    expect([49, metS + 60].map(turned)).toEqual([true, true]);
  });

  test("is not told where she was not lit, or is losing steam since she was", () => {
    expect(unseen([boils(...last)], 1500)).toBe(false);
    const relit: Entry[] = [fire("out", 0), { kind: "pressure", barG: 0, atS: 100 }, ...begun(100)];
    expect(unseen(relit, 1900, 50)).toBe(true);
    expect(unseen([fire("lit", 100), boils(135, 100), boils(125, 500)], 1500)).toBe(false);
    expect(unseen(begun(100), 1500, 101)).toBe(false);
  });
});

describe("the blower shut off short of the mark", () => {
  const eased = (...more: Entry[]) => met([fire("lit", 0), ...rise, ...more]);

  // 8 s short: from 700 s by the pace before to 16 s later by a third of it
  test("is met between the pace before and a third of it, if the next reading stands lower", () => {
    const told = eased(off(692), boils(138.6, 780));
    expect(Math.abs((told?.atS ?? 0) - 708)).toBeLessThan(1.5);
    expect(told?.uS).toBeGreaterThan(8 / Math.sqrt(3));
    expect(told?.uS).toBeLessThan(8);
    const before = eased(off(705), boils(138.6, 780));
    expect(Math.abs((before?.atS ?? 0) - 700)).toBeLessThan(1.5);
  });

  test("but not where a third of the pace comes later than that reading", () => {
    expect(eased(off(692), boils(138.6, 713))).toBeNull();
    expect(eased(off(692), boils(138.6, 719))).not.toBeNull();
  });

  test("nor where that reading is lower than the pace had come within its doubt only", () => {
    // 137 °C by the pace when it was turned off, 60 s after the last reading: a fifth of 6 K in doubt
    const until = [416, 576, 610].map((atS) => boils(MARK_C - 0.1 * (700 - atS), atS));
    expect(met([...until, off(670), boils(135, 800)])?.atS ?? Infinity).toBeGreaterThan(800);
    expect(met([...until, off(670), boils(133.6, 800)])?.atS).toBeCloseTo(730, -1);
  });

  test("nor where it was turned on, or the valve is known to have stayed shut", () => {
    expect(eased(on(692), boils(138.6, 780))).toBeNull();
    expect(eased(off(692), boils(138.6, 780), lifts(1000))?.atS).toBeGreaterThan(780);
  });

  test("nor where the pressure fell before", () => {
    const falls = [boils(139, 400), boils(138, 450), boils(137.5, 500), off(510), boils(137, 600)];
    expect(met(falls)).toBeNull();
  });

  // from 136 °C at 660 s: by the pace before at 700 s, on the straight line through 139.5 °C at 900 s at 934 s
  test("and near the mark after a wide gap it may have been held there since the pace before met it", () => {
    const told = eased(off(691), boils(139.5, 900));
    const straightS = 690 + (210 * 1) / 0.5;
    expect(Math.abs((told?.atS ?? 0) - (700 + straightS) / 2)).toBeLessThan(4);
    expect(told?.uS).toBeGreaterThan((straightS - 700) / 2 / Math.sqrt(3));
    expect(told?.uS).toBeLessThan(180);
  });

  test("a mark passed before the next reading lies on the line from the last, though the blower was turned near its end", () => {
    const until = [416, 576, 650, 660].map((atS) => boils(MARK_C - 0.1 * (700 - atS), atS));
    const told = met([fire("lit", 0), ...until, off(695), boils(140.2, 702)]);
    expect(Math.abs((told?.atS ?? 0) - 700)).toBeLessThan(1.5);
    // a fire is eased near the mark: 0.15 of the gap of 42 s
    expect(told?.uS).toBeGreaterThan(0.15 * 42);
  });

  // 0.1 K a second until 575 s and 0.07 after it: 13.7 K more to rise at 576 + 12.4/0.07 = 753 s
  test("the new pace begins with the reading nearer to the turning", () => {
    const two = [boils(111.6, 416), off(575), boils(127.6, 576), boils(127.6 + 0.07 * 84, 660)];
    const told = met([fire("lit", 0), boils(100, 300), ...two, boils(140.05, 840)]);
    const straightS = 660 + (180 * (MARK_C - 127.6 - 5.88)) / (140.05 - 127.6 - 5.88);
    expect(Math.abs((told?.atS ?? 0) - (576 + 12.4 / 0.07 + straightS) / 2)).toBeLessThan(3);
  });
});

describe("one reading, and the next near the mark", () => {
  /** From 119 °C at 520 s to 139.5 °C at 691 s, and what was read after it. */
  const single = (...later: Entry[]) => met([fire("lit", 0), boils(119, 520), boils(139.5, 691), ...later]);
  /** On the straight line through both at 695 s; at the earliest, as fast after boiling as before it, at 625 s. */
  const heldS = (byPaceS(0, [119, 520], 1) + 520 + (171 * 21) / 20.5) / 2;
  const held = (told: ReturnType<typeof met>) => Math.abs((told?.atS ?? 0) - heldS) < 4;

  test("may have been held there by a valve since the pace from lighting met it", () => {
    expect(held(single())).toBe(true);
    expect(held(single(boils(139.5, 720)))).toBe(true);
  });

  test("though two readings were read after a turning, too close together to tell a pace", () => {
    // 0.014 K of error by 4 s is two thirds of their 0.05 K a second; at the pace before, it is met at 700 s
    const close = [boils(134.2, 642), boils(134.4, 646)];
    const held = met([...rise.slice(0, 2), boils(134, 640), off(641), ...close, boils(139.5, 800)]);
    const straightS = 646 + (154 * 5.6) / 5.1;
    expect(held?.atS).toBeCloseTo((700 + straightS) / 2, -1);
    expect(held?.uS).toBeGreaterThan((straightS - 700) / 2 / Math.sqrt(3));
  });

  test("not where it rises on within as long a time", () => {
    expect(held(single(boils(141, 691 + 170)))).toBe(false);
    expect(held(single(boils(141, 691 + 172)))).toBe(true);
  });

  // half of the 20.5 K in 171 s before it comes to 10.8 K in 180 s
  test("nor where the very next goes on by half the pace in the gap", () => {
    expect(held(single(boils(139.5 + 11, 871)))).toBe(false);
    expect(held(single(boils(139.5 + 10.6, 871)))).toBe(true);
    expect(held(single(boils(139.5, 720), boils(139.5 + 13, 871)))).toBe(true);
  });

  test("nor after less than half a minute", () => {
    expect(met([fire("lit", 0), boils(136, 640), boils(139.8, 669)])).toBeNull();
    expect(met([fire("lit", 0), boils(136, 640), boils(139.8, 672)])).not.toBeNull();
  });
});

describe("a rise that slackens short of the mark", () => {
  // at 0.1 K a second from 576 s it would have been met at 700 s; 137 °C at 800 s stands below that
  const slackened = (...later: Entry[]) =>
    met([fire("lit", 0), ...rise.slice(0, 2), boils(137, 800), ...later]);

  test("was met at its pace by then if it rises no more: a valve let it sink again", () => {
    expect(Math.abs((slackened(boils(137, 860))?.atS ?? 0) - 700)).toBeLessThan(1);
    expect(Math.abs((slackened(boils(136, 860), boils(141, 980))?.atS ?? 0) - 700)).toBeLessThan(1);
  });

  // 139 °C at 860 s and 141 °C at 980 s come up to it at 920 s
  test("anywhere between that and where it comes up to it all the same: the fire may have been eased", () => {
    const told = slackened(boils(139, 860), boils(141, 980));
    expect(Math.abs((told?.atS ?? 0) - (700 + 920) / 2)).toBeLessThan(1);
    expect(told?.uS).toBeGreaterThan((920 - 700) / 2 / Math.sqrt(3));
  });

  test("and there alone where no valve can have lifted and sunk again unseen", () => {
    const near = [
      boils(137.5, 690),
      boils(138, 715),
      boils(138.6, 740),
      boils(139.2, 765),
      boils(139.8, 790),
    ];
    const told = met([fire("lit", 0), ...rise.slice(0, 2), boils(136.6, 666), ...near, boils(140.4, 815)]);
    expect(Math.abs((told?.atS ?? 0) - 798)).toBeLessThan(6);
  });
});

describe("a reading at the mark, and one well below it in the same half minute", () => {
  const at = (nextS: number, liftS: number) =>
    met([
      fire("lit", 0),
      ...rise.slice(0, 3),
      boils(140.5, 660),
      boils(136.5, nextS),
      boils(138, 700),
      boils(140.2, 800),
      lifts(liftS),
    ]);

  test("was misread where the valve lifted later only", () => {
    expect(at(680, 900)?.atS).toBeGreaterThan(700);
    expect(at(680, 670)?.atS).toBeLessThan(670);
    // a fire may be put down in longer than that
    expect(at(695, 900)?.atS).toBeLessThan(670);
  });
});

describe("a mark passed in a wide gap", () => {
  const between = (metS: number, earliestS: number, straightS: number) =>
    expect(Math.abs(metS - (earliestS + straightS) / 2)).toBeLessThan(3);

  test("lies on the straight line where the pace before it was slower", () => {
    const slow = [boils(120, 500), boils(122, 540), boils(124, 580)];
    const straightS = 580 + (120 * 16) / 16.5;
    expect(Math.abs((met([...slow, boils(140.5, 700)])?.atS ?? 0) - straightS)).toBeLessThan(1);
  });

  test("and between that and the pace before it where that was faster, be it of two readings", () => {
    const straightS = 540 + (300 * 16) / 16.5;
    between(met([boils(120, 500), boils(124, 540), boils(140.5, 840)])?.atS ?? 0, 700, straightS);
  });

  test.each([
    ["though the valve lifted later only, for the fire may have been turned down", [650, 135], [760, 140.5]],
    ["though the rise slackened beyond doubt", [690, 139], [730, 140.2]],
  ] as const)("and between those two %s", (_, [lastS, lastC], [atS, celsius]) => {
    const until = rise.slice(0, lastS === 650 ? 3 : 4);
    const straightS = lastS + ((MARK_C - lastC) / (celsius - lastC)) * (atS - lastS);
    const between = met([...until, boils(celsius, atS), lifts(900)]);
    expect(Math.abs((between?.atS ?? 0) - (700 + straightS) / 2)).toBeLessThan(1.5);
    expect(between?.uS).toBeGreaterThan((straightS - 700) / 2 / Math.sqrt(3));
    // a lift at what a valve lifts at soon after shows that the fire was kept up
    const keptUp = met([...until, boils(celsius, atS), lifts(atS + 20)]);
    expect(Math.abs((keptUp?.atS ?? 0) - straightS)).toBeLessThan(1.5);
  });

  test("and on the straight line where the pressure fell before it", () => {
    const straightS = 540 + (360 * 11) / 11.5;
    const told = met([boils(130, 500), boils(129, 540), boils(140.5, 900)]);
    expect(Math.abs((told?.atS ?? 0) - straightS)).toBeLessThan(1);
  });

  test("a lift of an earlier fire says nothing of this one's valve", () => {
    const early = [boils(138, 0), lifts(100), boils(102, 150), fire("lit", 200)];
    const told = met([...early, ...rise.slice(0, 2), boils(138, 900)], 200);
    expect(Math.abs((told?.atS ?? 0) - 700)).toBeLessThan(10);
  });
});
