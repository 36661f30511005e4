import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import { interval, isMeasured } from "../../../src/quantity/measured.ts";
import type { LogEntry } from "../../../web/outbox/database.ts";
import { firstWords, inStep } from "../../../web/pages/footplate/outlook.tsx";
import { reckon, waterLeft } from "../../../web/pages/footplate/reckoning.ts";
import { alarmsOf, standingOf } from "../../../web/pages/footplate/standing.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const engine = smallEngine();
const { entries: written, ...head } = smallSteaming();
const named = (entries: readonly object[]) =>
  entries.map((entry, i) => ({ id: `e${i}`, ...entry }) as LogEntry);
const running = [
  { kind: "fire", state: "lit", atS: 0 },
  { kind: "regulator", state: "open", atS: 30 },
  ...[0, 120, 240, 360, 480].flatMap((atS, i) => [
    { kind: "pressure", barG: 3, atS: atS + 31 },
    { kind: "level", mm: 22 - 2 * i, atS: atS + 32 },
    { kind: "lap", count: 2, atS: atS + 90 },
  ]),
];

describe("water", () => {
  test("minutes, laps and water are the sheet's own forecast, as ranges that hold 9 in 10", () => {
    const entries = named(running);
    const { forecast } = analyse(engine, { ...head, entries });
    const reckoning = reckon(engine, head, entries);
    for (const [own, sheets] of [
      [reckoning?.minutesToLowest, forecast?.minutesToLowest],
      [reckoning?.lapsToLowest, forecast?.lapsToLowest],
      [reckoning?.waterAboveLowestG, forecast?.waterAboveLowest],
    ] as const) {
      if (sheets === undefined || !isMeasured(sheets) || own === null) throw new Error("no figure");
      const [low, high] = interval(sheets, 0.9);
      expect(own).toEqual({ value: sheets.value, low, high });
    }
  });

  test("minutes are the water above the lowest level over the rate so far", () => {
    const reckoning = reckon(engine, head, named(running));
    const { minutesToLowest, waterAboveLowestG, steamingRateGPerMin } = reckoning ?? {};
    const byHand = (waterAboveLowestG?.value ?? 0) / (steamingRateGPerMin?.value ?? 0);
    // the rate of the minutes is without the warming of the cylinders
    expect((minutesToLowest?.value ?? 0) / byHand).toBeGreaterThan(0.9);
    expect((minutesToLowest?.value ?? 0) / byHand).toBeLessThan(1.1);
    // 8 mm in 480 s of a boiler 50 mm across and 120 mm long is about 5.5 g a millimetre hot: 5.5 g a minute
    expect(steamingRateGPerMin?.value).toBeGreaterThan(4.5);
    expect(steamingRateGPerMin?.value).toBeLessThan(6.5);
  });

  /** she runs down to 1 mm above the lowest level, which is 3 mm */
  const ranDown = [...running, { kind: "level", mm: 4, atS: 570 }];
  const left = (entries: object[], nowS: number) => waterLeft(reckon(engine, head, named(entries)), nowS);

  test("water that is soon low stays so when she goes on in another way, and until it is fed", () => {
    expect(left(ranDown, 570).leastMin).toBeLessThan(3);
    const stopped = [...ranDown, { kind: "regulator", state: "shut", atS: 580 }];
    expect(left(stopped, 581).leastMin).toBeLessThan(3);
    const stood = [
      ...stopped,
      { kind: "pressure", barG: 3, atS: 700 },
      { kind: "pressure", barG: 3, atS: 1500 },
    ];
    expect(left(stood, 1501).leastMin).toBeLessThan(3);
    const full = [...running, ...stood.slice(-3)];
    expect(left(full, 1501).leastMin).toBeGreaterThan(3);
    const fed = [...stood, { kind: "feed", ml: 60, means: "hand-pump", atS: 1510 }];
    expect(left(fed, 1511).leastMin).toBeGreaterThan(3);
    const read = [...stood, { kind: "level", mm: 15, atS: 1510 }];
    expect(left(read, 1511).leastMin).toBeGreaterThan(3);
  });

  test("nothing is left where the readings put the water below the lowest level, and as time runs on", () => {
    const below = left([...ranDown, { kind: "lap", count: 2, atS: 800 }], 801);
    expect(below.likelyMin).toBeLessThanOrEqual(0);
    const likelyMin = left(ranDown, 570).likelyMin ?? Number.NaN;
    expect(likelyMin).toBeGreaterThan(0);
    expect(left(ranDown, 570 + 60 * likelyMin + 1).likelyMin).toBeLessThan(0);
    expect(left([], 0)).toEqual({ likelyMin: null, leastMin: null, unreadSinceS: null });
  });

  test("water that was soon low and is not looked at for long is said to be not looked at, at every moment of it", () => {
    let entries: object[] = ranDown;
    for (let atS = 600; atS <= 3000; atS += 60) {
      entries = [...entries, { kind: "lap", count: 1, atS }, { kind: "pressure", barG: 3, atS: atS + 1 }];
      const alarms = alarmsOf(engine, standingOf(named(entries)), 0, left(entries, atS + 2));
      expect(alarms.map(({ name }) => name).join(), `${atS} s`).toMatch(
        /^(low-water|water-soon-low|water-unread)$/,
      );
    }
  });

  test("where no time can be told it says why", () => {
    expect(reckon(engine, head, [])).toBeNull();
    const nothing = reckon(engine, head, named([{ kind: "lap", count: 1, atS: 5 }]));
    expect(nothing).toMatchObject({ minutesToLowest: null, why: "no water was read in the glass yet" });
    const once = reckon(engine, head, named(written.slice(0, 3)));
    expect(once).toMatchObject({ minutesToLowest: null, why: expect.stringContaining("read once only") });
  });

  test("a log that cannot be worked out is no end of recording: it says what it cannot take", () => {
    const reckoning = reckon(engine, head, named([...running, { kind: "pressure", barG: 500, atS: 700 }]));
    expect(reckoning).toMatchObject({
      minutesToLowest: null,
      steamingRateGPerMin: null,
      waterAboveLowestG: null,
    });
    expect(reckoning?.why).toMatch(/\d/);
  });
});

describe("fuel", () => {
  const fuel = (atS: number, action: string, ml: number) => ({ kind: "fuel", action, ml, atS });
  const lit = { kind: "fire", state: "lit", atS: 60 };
  const endOf = (...entries: object[]) =>
    reckon(engine, head, named([...entries, { kind: "note", text: "now", atS: 900 }]));

  /** Spirit burns a tenth harder while steam is raised (our estimate), and she is still raising: under way it lasts so much longer. */
  const underWay = 1.1;

  test("lasts as long as what is left at the rate at which it will go under way", () => {
    // 15 ml in the ten minutes to 660 s; the 25 ml left would last 16.67 min of raising, of which 4 have gone
    const { fuelMinutes } = endOf(fuel(0, "added", 40), lit, fuel(660, "remaining", 25)) ?? {};
    expect(fuelMinutes?.value).toBeCloseTo(underWay * (25 / 1.5 - 4), 9);
    expect(fuelMinutes?.low).toBeLessThan(underWay * (25 / 1.5 - 5));
    expect(fuelMinutes?.high).toBeGreaterThan(underWay * (25 / 1.5 - 3));
    // ten more put in at 800 s
    const more = endOf(fuel(0, "added", 40), lit, fuel(660, "remaining", 25), fuel(800, "added", 10));
    expect(more?.fuelMinutes?.value).toBeCloseTo(underWay * (35 / 1.5 - 4), 9);
    // a reading before lighting up is the stock
    const stock = endOf(fuel(0, "remaining", 40), lit, fuel(660, "remaining", 25));
    expect(stock?.fuelMinutes?.value).toBeCloseTo(underWay * (25 / 1.5 - 4), 9);
  });

  test("time without fire burns nothing", () => {
    const end = endOf(
      fuel(0, "added", 40),
      lit,
      { kind: "fire", state: "out", atS: 360 },
      { kind: "fire", state: "lit", atS: 460 },
      fuel(760, "remaining", 25),
    );
    expect(end?.fuelMinutes?.value).toBeCloseTo(underWay * (25 / 1.5 - 140 / 60), 9);
  });

  test("says why there is no end of it to be told", () => {
    expect(endOf(fuel(0, "added", 40))?.fuelWhy).toBe("the fire was not noted as lit");
    expect(endOf(fuel(0, "added", 40), lit)?.fuelWhy).toBe("no fuel left was read since lighting");
    expect(endOf(lit, fuel(660, "remaining", 40))?.fuelWhy).toBe("nobody noted how much fuel was put in");
    expect(endOf(fuel(0, "added", 40), lit, fuel(660, "remaining", 40))?.fuelWhy).toContain("no less than");
    expect(endOf(fuel(0, "added", 40), lit, fuel(660, "remaining", 1))?.fuelWhy).toContain("should be gone");
    const out = { kind: "fire", state: "out", atS: 700 };
    expect(endOf(fuel(0, "added", 40), lit, fuel(660, "remaining", 25), out)?.fuelWhy).toBe(
      "the fire is out",
    );
  });

  test("which ends first is a chance, where both are told", () => {
    const of = (put: number, remains: number) =>
      reckon(engine, head, named([fuel(0, "added", put), ...running, fuel(575, "remaining", remains)]))
        ?.waterFirst;
    // 11 mm of water left, about as many minutes; of fuel an hour, and three minutes
    expect(of(60, 52)).toBeGreaterThan(0.95);
    expect(of(60, 20)).toBeLessThan(0.1);
    expect(reckon(engine, head, named(running))?.waterFirst).toBeNull();
  });
});

test("which ends first is said in tenths", () => {
  expect(firstWords(0.81)).toBe("The water ends first, about 8 in 10: feed her, or put the fire out.");
  expect(firstWords(0.3)).toBe("The fire ends first, about 7 in 10.");
  expect(firstWords(0.52)).toBe("Water or fire may end first, as likely the one as the other.");
  expect(firstWords(0.97)).toContain("almost surely");
  expect(firstWords(0.01)).toBe("The fire ends first, almost surely.");
});

test("as the minutes run off, the laps do in step, and where no minute is left no lap is", () => {
  const laps = { value: 7, low: 4, high: 10 };
  const then = { value: 6, low: 2, high: 10 };
  expect(inStep(laps, then, { value: 3, low: 0, high: 7 })).toEqual({ value: 3.5, low: 0, high: 7 });
  expect(inStep(laps, then, { value: 0, low: 0, high: 0 })).toEqual({ value: 0, low: 0, high: 0 });
  expect(inStep(laps, then, then)).toEqual(laps);
});
