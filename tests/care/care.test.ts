import { describe, expect, test } from "vitest";
import { careOf } from "../../src/care/care.ts";
import { careReportOf } from "../../src/care/care-report.ts";
import { careSchema } from "../../src/care/care-schema.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import type { Fitting } from "../../src/logbook/locomotive.ts";
import type { Service } from "../../src/logbook/service.ts";
import type { Steaming } from "../../src/logbook/steaming.ts";
import { drip, engineWith, glandSeason, outing, recordsOf } from "./season-logbook.ts";

const gland: Fitting = { id: "gland", name: "Gland", kind: "gland", limitGPerMin: 0.5 };
const careFor = (fittings: Fitting[], steamings: Steaming[], services: Service[] = []) => {
  const engine = engineWith(fittings);
  return careOf(engine, recordsOf(engine, steamings), services);
};
const done = (week: number, what: Service["what"] = "repacked"): Service => ({
  id: `done-${week}`,
  locomotiveId: "small",
  fittingId: "gland",
  at: outing(week, []).startedAt,
  what,
});

describe("a season through the logbook", () => {
  const law = { limit: 0.5, fresh: 0.05, hoursToLimit: 20, power: 1 };

  test("a gland halfway to its limit is told with the time left, within its interval", () => {
    const { fittings } = careReportOf(careFor([gland], glandSeason(law, 12, 1)));
    const [care] = careSchema.shape.fittings.parse(fittings);
    expect(care).toMatchObject({ fitting: "gland", readings: 12, change: null });
    expect(care?.hoursSinceService).toBeCloseTo(12, 6);
    // (0.5 - 0.05) g/min in 20 h, and 8 h left of them
    if (care === undefined || care.slope.value === null || care.hoursToLimit.value === null) {
      throw new Error("no slope or no time to the limit was given");
    }
    expect(care.slope.lo95).toBeLessThan(0.0225);
    expect(care.slope.hi95).toBeGreaterThan(0.0225);
    expect(care.hoursToLimit.lo95).toBeLessThan(8);
    expect(care.hoursToLimit.hi95).toBeGreaterThan(8);
    expect(care.slope.unit).toBe("g/min per h");
  });

  test("it is attend when it gets there, and the reason names level, limit, readings and how sure", () => {
    const [care] = careFor([gland], glandSeason(law, 22, 1)).fittings;
    expect(care?.state).toBe("attend");
    expect(care?.why).toMatch(
      /^Passes 0\.\d+ g\/min at working pressure \(.* to .*\), rising steadily .*; the owner's limit is 0\.50.*; 22 catches in 22 h in steam, (fairly )?sure\.$/,
    );
  });

  test("a drip at lower pressure counts for as much more at working pressure", () => {
    const low = outing(0, [drip("gland", 0.2)], 1.5);
    const [care] = careFor([gland], [low]).fittings;
    // steam, choked: 4.01 bar absolute over 2.51
    expect(care?.evidence.drips[0]?.gPerMin).toBeCloseTo((0.2 * 4.01325) / 2.51325, 3);
  });
});

describe("too little to go by", () => {
  test("nothing read is said to be nothing known, with the reading that would tell", () => {
    const [care] = careFor([gland], [outing(0, [])]).fittings;
    expect(care).toMatchObject({ state: "watch", sure: "nothing known", readings: 0 });
    expect(care?.measureNext).toContain("Look at the gland at working pressure");
  });

  test("one reading gives a state that is hardly sure, no slope and no forecast", () => {
    const [care] = careReportOf(careFor([gland], [outing(0, [drip("gland", 0.1)])])).fittings;
    expect(care).toMatchObject({ state: "sound", slope: { value: null }, hoursToLimit: { value: null } });
    expect(care?.why).toContain("hardly sure");
  });

  test("level readings leave it open whether it grows: no time to the limit is given", () => {
    const levels = [0.2, 0.21, 0.19, 0.2, 0.2, 0.21, 0.19, 0.2];
    const [care] = careReportOf(
      careFor(
        [gland],
        levels.map((g, week) => outing(week, [drip("gland", g)])),
      ),
    ).fittings;
    expect(care?.hoursToLimit).toEqual({ value: null, why: expect.stringMatching(/^cannot tell/) });
    expect(care?.state).toBe("sound");
  });

  test("a limit that nobody set is taken from common practice, and said so", () => {
    const { limitGPerMin, ...without } = gland;
    const [care] = careFor([without], [outing(0, [drip("gland", 0.1)])]).fittings;
    expect(care?.why).toContain("0.50 is taken for a limit, as none was set (common practice)");
    expect(limitGPerMin).toBe(0.5);
  });
});

describe("sudden changes", () => {
  const steady = [0.1, 0.11, 0.1, 0.09, 0.1, 0.1];
  const weeks = (levels: readonly number[]) => levels.map((g, week) => outing(week, [drip("gland", g)]));

  test("one catch out of line is a change to watch, to be caught again before anything is taken apart", () => {
    const [care] = careFor([gland], weeks([...steady, 0.3])).fittings;
    expect(care?.state).toBe("watch");
    expect(care?.leak?.jump?.reading.gPerMin).toBeCloseTo(0.3, 2);
    expect(care?.measureNext).toContain("Catch a drip again");
    const [report] = careReportOf(careFor([gland], weeks([...steady, 0.3]))).fittings;
    expect(report?.change).toMatchObject({ steamingId: "week-6" });
    expect(report?.hoursToLimit).toMatchObject({ value: null });
  });

  test("over the limit at once is attend", () => {
    expect(careFor([gland], weeks([...steady, 1.2])).fittings[0]?.state).toBe("attend");
  });

  test("a pure step is told from growth: no forecast of a limit that nothing grows towards", () => {
    const [care] = careFor([gland], weeks([...steady, 0.3, 0.31, 0.29, 0.3, 0.31, 0.3])).fittings;
    expect(care?.leak?.step).toMatchObject({ fromX: expect.any(Number) });
    expect(care?.leak?.step?.after).toBeCloseTo(0.3, 1);
    expect(care?.leak?.hoursToLimit).toMatchObject({
      value: null,
      why: expect.stringMatching(/rose at once/),
    });
    expect(care?.state).toBe("watch");
  });

  test("a step is told from its second reading on, and not called a steady rise nor forecast", () => {
    const [care] = careFor([gland], weeks([0.1, 0.11, 0.1, 0.12, 0.1, 0.45, 0.46])).fittings;
    expect(care?.leak?.step?.before).toBeCloseTo(0.11, 1);
    expect(care?.leak?.step?.after).toBeCloseTo(0.455, 1);
    expect(care?.why).toContain("having risen at once from 0.11 to 0.45");
    expect(care?.why).not.toContain("rising steadily");
    expect(care?.leak?.hoursToLimit).toMatchObject({ value: null });
  });

  test("a jump leaves it open which is right: both lie within what it may pass, and that is hardly sure", () => {
    const [care] = careFor([{ ...gland, limitGPerMin: 1 }], weeks([...steady, 0.6])).fittings;
    expect(care?.sure).toBe("hardly sure");
    expect(care?.leak?.levelNow.low80).toBeLessThan(0.11);
    expect(care?.leak?.levelNow.high80).toBeGreaterThan(0.6);
  });

  test("even growth is not taken for a step", () => {
    const growing = Array.from({ length: 12 }, (_, i) => 0.05 + 0.02 * i);
    expect(careFor([gland], weeks(growing)).fittings[0]?.leak?.step).toBeNull();
  });
});

describe("services", () => {
  const weeks = (levels: readonly number[]) => levels.map((g, week) => outing(week, [drip("gland", g)]));

  test("start readings and hours afresh, and are told apart where they helped", () => {
    const levels = [0.2, 0.27, 0.33, 0.42, 0.47, 0.06, 0.07];
    const [care] = careFor([gland], weeks(levels), [done(5)]).fittings;
    expect(care?.readings).toBe(2);
    expect(care?.since.hours).toBeCloseTo(2, 6);
    expect(care?.state).toBe("sound");
    const effect = care?.services[0]?.effect;
    expect(effect).toMatchObject({ before: 5, after: 2, toldApart: true, moreSteamings: null });
    expect(effect?.words).toMatch(
      /^It helped: mean 0\.06\d g\/min since, where 0\.\d+ was to be expected without it/,
    );
  });

  test("one that changed nothing is not told apart, and it is said how many more steamings would settle it", () => {
    const levels = [0.2, 0.22, 0.24, 0.26, 0.28, 0.28, 0.31];
    const effect = careFor([gland], weeks(levels), [done(5)]).fittings[0]?.services[0]?.effect;
    expect(effect?.toldApart).toBe(false);
    expect(effect?.words).toMatch(/^Not told apart: /);
  });

  test("that left it passing more are said to have made it worse, by catches and by looks", () => {
    const caught = weeks([0.1, 0.1, 0.11, 0.1, 0.1, 0.4, 0.41]);
    expect(careFor([gland], caught, [done(5)]).fittings[0]?.services[0]?.effect.words).toMatch(
      /^It got worse: /,
    );
    const words = (before: "dry" | "dripping", since: "dry" | "dripping") => {
      const looks = Array.from({ length: 12 }, (_, week) =>
        outing(week, [{ kind: "look", fitting: "gland", grade: week < 6 ? before : since, atS: 2000 }]),
      );
      return careFor([gland], looks, [done(6)]).fittings[0]?.services[0]?.effect.words;
    };
    expect(words("dry", "dripping")).toMatch(/^It got worse: wetter by looks/);
    expect(words("dripping", "dry")).toMatch(/^It helped: drier by looks/);
  });

  test("by looks alone the order counts, and few looks settle nothing", () => {
    const looks = (["dripping", "dripping", "weeping", "dripping", "dry", "dry", "dry"] as const).map(
      (grade, week) => outing(week, [{ kind: "look", fitting: "gland", grade, atS: 2000 }]),
    );
    const effect = careFor([gland], looks, [done(4)]).fittings[0]?.services[0]?.effect;
    expect(effect).toMatchObject({ before: 4, after: 3, toldApart: false, difference: { value: null } });
    expect(effect?.moreSteamings).toBeGreaterThan(0);
  });

  test("without a reading on one side nothing is said to have helped", () => {
    const effect = careFor([gland], weeks([0.2, 0.3]), [done(2)]).fittings[0]?.services[0]?.effect;
    expect(effect).toMatchObject({ toldApart: null, words: expect.stringMatching(/^Cannot be judged/) });
  });
});

test("of a cold hold in which a fire was lit, the hours in steam count from its lighting", () => {
  const hoursOf = (entries: Entry[]) => {
    const hold: Steaming = { ...outing(0, entries), purpose: "cold-hold" };
    const engine = engineWith([gland]);
    const records = recordsOf(engine, [hold]);
    const [care] = careOf(engine, records, []).fittings;
    return [care?.since.hours, (records[0]?.report.totals?.inSteamS ?? 0) / 3600];
  };
  const feed: Entry = { kind: "feed", ml: 10, by: "bottle", atS: 20 };
  expect(hoursOf([feed])).toEqual([0, 0]);
  const lit = hoursOf([feed, { kind: "fire", state: "lit", atS: 900 }]);
  expect(lit).toEqual([expect.closeTo(0.75, 6), expect.closeTo(0.75, 6)]);
});

test("cold water under pressure is no hour in steam, and piston travel comes from laps and wheel", () => {
  const engine = {
    ...engineWith([gland]),
    drivingWheelMm: 50,
    cylinders: { count: 2, boreMm: 14, strokeMm: 16, cutoff: 0.75 },
  };
  const cold: Steaming = { ...outing(0, []), purpose: "cold-hold" };
  const run: Steaming = {
    ...outing(1, [
      { kind: "regulator", state: "open", atS: 100 },
      { kind: "lap", count: 10, atS: 1000 },
      { kind: "regulator", state: "shut", atS: 1000 },
    ]),
    track: { lapM: 20 },
  };
  const [care] = careOf(engine, recordsOf(engine, [cold, run]), []).fittings;
  expect(care?.since.hours).toBeCloseTo(1, 6);
  expect(care?.since.runningH).toBeCloseTo(0.25, 6);
  // 200 m are 1273 turns of the wheel, each of two strokes of 16 mm
  expect(care?.since.pistonM).toBeCloseTo((200 / (Math.PI * 0.05)) * 0.032, 2);
});
