import { describe, expect, test } from "vitest";
import { analyse } from "../../../src/analysis/analyse.ts";
import type { LogEntry } from "../../../web/outbox/database.ts";
import { doubtOf, meantBy } from "../../../web/pages/footplate/doubt.ts";
import { smallEngine, smallSteaming } from "../../support/small-logbook.ts";

const engine = smallEngine();
const { entries: _entries, ...head } = smallSteaming();
let ids = 0;
const at = (atS: number, says: object): LogEntry => ({ id: `e${++ids}`, atS, ...says }) as LogEntry;
const bar = (atS: number, barG: number) => at(atS, { kind: "pressure", barG });
const mm = (atS: number, level: number) => at(atS, { kind: "level", mm: level });
const lap = (atS: number) => at(atS, { kind: "lap", count: 1 });

/** The question asked as the last of these is tapped. */
const asked = (log: readonly LogEntry[]) => {
  const last = log.at(-1);
  return last === undefined ? null : doubtOf(last, log, { engine, head });
};
/** Which entries the sheet names by these checks, of the same log. */
const onSheet = (log: readonly LogEntry[], ...codes: string[]) =>
  analyse(engine, { ...head, entries: [...log] })
    .warnings.filter((warning) => codes.includes(warning.code))
    .flatMap((warning) => warning.entries);

describe("a pressure", () => {
  test("ten times the last one is asked about, and the last digit's slip is offered mended", () => {
    const log = [bar(0, 2.8), bar(30, 27)];
    expect(asked(log)).toEqual({ entryId: log[1]?.id, words: "2.8 bar, then 27 bar?" });
    expect(meantBy(log[1] as LogEntry, log, engine)).toMatchObject({ barG: 2.7 });
    expect(onSheet(log, "reading-outlying")).toEqual([log[1]?.id]);
  });

  test("a tenth of the last one is, while the fire burns, and not as she is blown down", () => {
    const log = [bar(0, 2.8), bar(60, 0.28)];
    expect(asked(log)?.words).toBe("2.8 bar, then 0.28 bar?");
    expect(meantBy(log[1] as LogEntry, log, engine)).toMatchObject({ barG: 2.8 });
    const out = at(10, { kind: "fire", state: "out" });
    expect(asked([bar(0, 2.8), out, bar(60, 0.28)])).toBeNull();
  });

  test("that only the next one shows to stand alone is asked about then, and once", () => {
    const first = [bar(0, 2.2), bar(60, 3.8)];
    expect(asked(first)).toBeNull();
    const log = [...first, bar(120, 2.3)];
    expect(asked(log)).toEqual({ entryId: log[1]?.id, words: "2.2 bar, then 3.8 bar, then 2.3 bar?" });
    expect(onSheet(log, "reading-outlying")).toEqual([log[1]?.id]);
    expect(asked([...log, bar(180, 2.3)])).toBeNull();
    expect(asked([bar(0, 2.8), bar(30, 27), bar(60, 2.7)])).toBeNull();
  });

  test("that is the first, and a tenth of what an engine at work has, is asked about, and not one of an engine in her raising", () => {
    const log = [lap(0), bar(30, 0.3)];
    expect(asked(log)).toEqual({ entryId: log[1]?.id, words: "0.3 bar, and she is at work?" });
    expect(meantBy(log[1] as LogEntry, log, engine)).toMatchObject({ barG: 3 });
    expect(asked([at(0, { kind: "fire", state: "lit" }), bar(30, 0.3)])).toBeNull();
    expect(asked([lap(0), bar(30, 2.1)])).toBeNull();
    expect(asked([bar(0, 0.1), lap(20), bar(30, 0.3)])).toBeNull();
  });

  test("that an engine can reach in the time is not asked about", () => {
    expect(asked([bar(0, 0.4), bar(60, 2.9)])).toBeNull();
    expect(asked([bar(0, 2.9), bar(400, 0.2)])).toBeNull();
    expect(asked([bar(0, 3)])).toBeNull();
  });

  test("with nothing near it to be meant by is asked about, and nothing is offered", () => {
    const log = [bar(0, 2.8), bar(30, 9)];
    expect(asked(log)).not.toBeNull();
    expect(meantBy(log[1] as LogEntry, log, engine)).toBeNull();
  });
});

describe("water", () => {
  const steady = [bar(0, 3), bar(30, 3), mm(40, 9), mm(100, 9), mm(160, 8)];

  test("that stands higher at the first reading than what was filled is asked about in those words", () => {
    const filled = at(0, { kind: "fill", ml: 30 });
    expect(asked([filled, mm(60, 25)])?.words).toBe("25 mm: more than was filled and fed?");
    expect(asked([{ ...filled, ml: 170 } as LogEntry, mm(60, 14)])).toBeNull();
  });

  test("that grew with nothing fed is asked about as on the sheet, and not after a feed", () => {
    const log = [...steady, mm(220, 20)];
    expect(asked(log)?.words).toBe("8 mm, then 20 mm with nothing fed?");
    expect(onSheet(log, "level-rising")).toContain(log.at(-1)?.id);
    const feed = at(200, { kind: "feed", ml: 68, by: "bottle" });
    expect(asked([...steady, feed, mm(220, 20)])).toBeNull();
  });

  test("filled on top of what stood in her is asked about in a few words, with no figure out of the sheet's sentence", () => {
    const fill = at(0, { kind: "fill", ml: 40 });
    const log = [fill, mm(30, 12), mm(60, 12.5)];
    expect(onSheet(log, "filled-on-top")).toContain(log[2]?.id);
    expect(asked(log)?.words).toBe("12.5 mm: more than was filled and fed?");
  });

  test("is offered mended as finely as the glass is divided", () => {
    const log = [mm(0, 1), mm(60, 16.5)];
    expect(meantBy(log[1] as LogEntry, log, engine)).toMatchObject({ mm: 1.5 });
  });

  test("above the boiler itself is asked about, and the slipped point offered", () => {
    const log = [...steady, mm(220, 85)];
    expect(asked(log)?.words).toBe("85 mm is beyond the boiler itself?");
    expect(meantBy(log.at(-1) as LogEntry, log, engine)).toMatchObject({ mm: 8.5 });
  });
});

describe("a lap", () => {
  test("within a second of the last is asked about, the second of all as well", () => {
    const log = [lap(0), lap(0.4)];
    expect(asked(log)?.words).toBe("A lap in 0.4 s: tapped twice?");
    expect(onSheet(log, "laps-too-fast")).toEqual([log[1]?.id]);
  });

  test("in a small part of the usual time is, and one a little quicker is not", () => {
    const usual = [lap(0), lap(50), lap(100), lap(150), lap(200)];
    expect(asked([...usual, lap(205)])?.words).toContain("tapped twice?");
    expect(asked([...usual, lap(240)])).toBeNull();
  });
});

test("five times the most fed before is asked about", () => {
  const feed = (atS: number, ml: number) => at(atS, { kind: "feed", ml, by: "bottle" });
  expect(asked([feed(0, 10), feed(60, 12), feed(120, 100)])?.words).toBe(
    "100 ml, when 12 ml was the most before?",
  );
  expect(asked([feed(0, 10), feed(60, 12), feed(120, 50)])).toBeNull();
});

test("an entry dated long before the last one is asked about as a clock that was set", () => {
  expect(asked([lap(3600), at(1800, { kind: "regulator", state: "open" })])?.words).toBe(
    "Dated 30 min before the last entry: was a clock set?",
  );
});

test("a dial that is stuck is said once", () => {
  const lit = at(0, { kind: "fire", state: "lit" });
  const out = at(480, { kind: "fire", state: "out" });
  const stuck = [500, 600, 700, 800, 900, 1000].map((atS) => bar(atS, 2.5));
  const questions = stuck.map((_, i) => asked([lit, bar(300, 3), out, ...stuck.slice(0, i + 1)]));
  expect(questions.filter((each) => each !== null)).toHaveLength(1);
  expect(questions.find((one) => one !== null)?.words).toBe("The dial showed 2.5 bar 5 times in a row?");
});

test("a thermometer against the dial is asked about as the sheet begins to say it", () => {
  const log = [
    ...[0, 30, 60].map((atS) => bar(atS, 2)),
    at(70, { kind: "temperature", of: "boiler", celsius: 170 }),
  ];
  const [said] = analyse(engine, { ...head, entries: log }).warnings.filter(
    ({ code }) => code === "pressure-and-temperature",
  );
  expect(asked(log)?.words).toBe("Pressure and boiler temperature disagree?");
  expect(said?.text).toContain(asked(log)?.words.slice(0, -1));
});

test("notes and states are never asked about", () => {
  expect(asked([at(5, { kind: "regulator", state: "open" })])).toBeNull();
});

describe("what the engine cannot hold or do is asked about", () => {
  const words = (...log: LogEntry[]) => asked(log)?.words;
  const fuel = (action: "added" | "remaining", ml: number) => at(0, { kind: "fuel", action, ml });
  const withTank = { ...engine, fuel: { ...engine.fuel, tankMl: 100 } };
  const ofTank = (...log: LogEntry[]) =>
    doubtOf(log.at(-1) as LogEntry, log, { engine: withTank, head })?.words;

  test("a first pressure far beyond working, and air that no day has", () => {
    expect(words(bar(0, 30))).toBe("30 bar?");
    expect(words(bar(0, 7.5))).toBeUndefined();
    expect(words(at(0, { kind: "temperature", of: "ambient", celsius: 140 }))).toBe("140 °C, ambient?");
    expect(words(at(0, { kind: "temperature", of: "ambient", celsius: 35 }))).toBeUndefined();
  });

  test("water that the boiler does not hold", () => {
    // 50 mm by 120 mm hold 235.6 ml
    expect(words(at(0, { kind: "fill", ml: 2000 }))).toBe("2000 ml, and the boiler holds 236 ml?");
    expect(words(at(0, { kind: "blowdown", ml: 300 }))).toBe("300 ml, and the boiler holds 236 ml?");
    expect(words(at(0, { kind: "fill", ml: 235 }))).toBeUndefined();
  });

  test("fuel that the tank does not take, or more left than there was", () => {
    expect(ofTank(fuel("added", 90), fuel("added", 90))).toBe("180 ml in a tank of 100 ml?");
    expect(ofTank(fuel("added", 50), fuel("added", 50))).toBeUndefined();
    const lit = at(0, { kind: "fire", state: "lit" });
    expect(ofTank(fuel("added", 90), lit, fuel("added", 90))).toBeUndefined();
    expect(words(fuel("added", 50), fuel("remaining", 90))).toBe("90 ml left, of 50 ml?");
    expect(
      words(fuel("added", 50), fuel("remaining", 20), fuel("added", 20), fuel("remaining", 40)),
    ).toBeUndefined();
  });

  test("a lap in a fifth of the one before, without a length, and a drip that would empty her in a minute", () => {
    const { track: _track, ...noTrack } = head;
    const lapped = (...times: number[]) => {
      const log = times.map(lap);
      return doubtOf(log.at(-1) as LogEntry, log, { engine, head: noTrack })?.words;
    };
    expect(lapped(0, 30, 32)).toBe("A lap in 2.0 s: tapped twice?");
    expect(lapped(0, 30, 40)).toBeUndefined();
    const drip = (overS: number) => at(0, { kind: "drip", fitting: "left-gland", g: 50, overS });
    expect(words(drip(3))).toBe("50 g in 3 s, Left piston-rod gland?");
    expect(words(drip(120))).toBeUndefined();
  });
});
