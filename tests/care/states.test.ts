import { describe, expect, test } from "vitest";
import { careOf } from "../../src/care/care.ts";
import type { FittingCare } from "../../src/care/fitting-care.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import type { Fitting } from "../../src/logbook/locomotive.ts";
import type { Service } from "../../src/logbook/service.ts";
import { drip, engineWith, outing, recordsOf } from "./season-logbook.ts";

const gland: Fitting = { id: "gland", name: "Gland", kind: "gland", limitGPerMin: 0.5 };
const look = (grade: "dry" | "damp" | "weeping" | "dripping" | "blowing"): Entry => ({
  kind: "look",
  fitting: "gland",
  grade,
  atS: 3000,
});

/** Weeks of one gland: a number is a catch in g/min, a word a look. */
function after(
  weeks: readonly (number | Parameters<typeof look>[0])[],
  services: Service[] = [],
  nowMs?: number,
): FittingCare {
  const engine = engineWith([gland]);
  const steamings = weeks.map((read, week) =>
    outing(week, [typeof read === "number" ? drip("gland", read) : look(read)]),
  );
  const [care] = careOf(engine, recordsOf(engine, steamings), services, nowMs).fittings;
  if (care === undefined) throw new Error("no fitting came back");
  return care;
}

describe("attend", () => {
  test("wants nine chances in ten after five catches, and says the chance", () => {
    const care = after([0.3, 0.35, 0.39, 0.45, 0.49, 0.53]);
    expect(care.state).toBe("attend");
    expect(care.why).toMatch(/chance of being over it by the next outing: more than 99 in 100/);
  });

  test("is not said at seven or eight chances in ten", () => {
    const chances = [0.9, 1, 1.05, 1.1, 1.15, 1.2, 1.3].map((part) => {
      const care = after([0.36, 0.46, 0.39, 0.5, 0.41, 0.47].map((level) => level * part));
      const chance = care.leak?.chanceOver(1) ?? Number.NaN;
      expect([part, care.state]).toEqual([part, chance >= 0.9 ? "attend" : "watch"]);
      return chance;
    });
    expect(chances.some((chance) => chance > 0.6 && chance < 0.9)).toBe(true);
    expect(chances.some((chance) => chance > 0.9)).toBe(true);
  });

  test("is not said of a level leak under its limit, which is watched for that", () => {
    const care = after([0.4, 0.38, 0.42, 0.4, 0.38, 0.41, 0.39, 0.4]);
    expect(care.state).toBe("watch");
    expect(care.why).toMatch(
      /above 60 % of it; chance of being over it by the next outing: less than 1 in 100/,
    );
  });

  test("is not said of one catch a little over, which is to be caught again", () => {
    const care = after([0.55]);
    expect(care).toMatchObject({ state: "watch", sure: "hardly sure" });
    expect(care.measureNext).toContain("Catch a drip for two minutes");
  });

  test("is said of one catch that is over beyond its own doubt", () => {
    const care = after([0.8]);
    expect(care.state).toBe("attend");
    expect(care.why).toContain("the last catch, 0.80, is over it beyond its own doubt");
    expect(care.why).toContain("1 catch in 1.0 h in steam, too few for a trend, hardly sure.");
    expect(care.measureNext).toContain("Catch a drip again before it is taken apart");
  });
});

describe("too few readings", () => {
  test("are said to be, by catches and by looks, with the reading that would tell most", () => {
    const [caught, seen] = [after([0.1, 0.1]), after(["damp"])];
    expect(caught.why).toContain("2 catches in 2.0 h in steam, too few for a trend, hardly sure.");
    expect(caught.measureNext).toContain("Catch a drip for two minutes at working pressure");
    expect(seen.why).toContain("1 look in 1.0 h in steam, too few to go by");
    expect(seen.measureNext).toContain("Catch a drip at the gland");
  });
});

describe("what is watched", () => {
  test("for its growth names the chance within four outings", () => {
    const care = after([0.02, 0.08, 0.14, 0.2, 0.25, 0.28]);
    expect(care.state).toBe("watch");
    expect(care.why).toMatch(/within 4 outings: \d\d in 100/);
  });
});

describe("looks after the last catch", () => {
  test("that go with it are not named", () => {
    expect(after([0.1, 0.1, 0.1, 0.1, "damp"]).why).not.toContain("by eye");
  });

  test("that see what was seen while catches were sound say nothing new", () => {
    const both = [0.3, 0.3, 0.3, 0.3].map((g, week) => outing(week, [drip("gland", g), look("dripping")]));
    const only = [4, 5, 6, 7].map((week) => outing(week, [look("dripping")]));
    const engine = engineWith([gland]);
    const [care] = careOf(engine, recordsOf(engine, [...both, ...only]), []).fittings;
    expect(care?.state).not.toBe("attend");
    expect(care?.why).not.toContain("by eye");
  });

  test("that blow where the catches are sound are named, and watched", () => {
    const care = after([0.1, 0.1, 0.1, 0.1, 0.1, 0.1, "dripping", "dripping"]);
    expect(care).toMatchObject({ state: "watch", sure: "hardly sure" });
    expect(care.why).toContain(
      "but by eye, since the last catch, dripping on 2026-05-16, dripping on 2026-05-23",
    );
    expect(care.measureNext).toContain("the eye and the catches before do not agree");
  });

  test("that are dry where the catches are over the limit are named, and attend stays", () => {
    const care = after([0.4, 0.5, 0.55, 0.6, 0.65, "dry"]);
    expect(care).toMatchObject({ state: "attend", sure: "hardly sure" });
    expect(care.why).toContain("but by eye, since the last catch, dry on 2026-05-09");
  });

  test("long after name what the catches said", () => {
    const care = after([0.1, 0.1, 0.1, "dripping", "dripping", "blowing", "blowing", "blowing"]);
    expect(care.state).toBe("attend");
    expect(care.why).toMatch(
      /its catches, the last of 0\.1\d* g\/min on 2026-04-18 and before these looks, say/,
    );
  });

  test("name what the catches say by themselves, not what was made of them for the same looks", () => {
    const care = after([0.05, 0.06, 0.05, 0.06, 0.05, "blowing", "blowing", "blowing", "blowing"]);
    expect(care.state).toBe("attend");
    expect(care.why).toContain("before these looks, say sound");
  });
});

describe("a service", () => {
  const repacked = (at: string): Service => ({
    id: "s",
    locomotiveId: "small",
    fittingId: "gland",
    at,
    what: "repacked",
  });
  test("is named with its day where nothing was read since", () => {
    expect(after([0.2, 0.3], [repacked("2026-05-01T10:00:00Z")]).why).toContain(
      "in steam since it was repacked on 2026-05-01, so nothing is known of its state.",
    );
  });
  test("dated later than now and than all that is logged is said to be", () => {
    const nowMs = Date.parse("2026-06-01T10:00:00Z");
    const words = "is dated later than today";
    const late = after([0.2, 0.3], [repacked("2036-05-01T10:00:00Z")], nowMs);
    expect(late.why).toContain(
      `; the service of 2036-05-01 ${words} and restarts nothing (is that its day?)`,
    );
    expect(after([0.2, 0.3], [repacked("2026-05-01T10:00:00Z")], nowMs).why).not.toContain(words);
    // a clock that runs behind the log tells nothing
    expect(after([0.2, 0.3], [repacked("2026-04-08T10:00:00Z")], 0).why).not.toContain(words);
  });
  test("dated later than now and than all that is logged restarts nothing: what is in need stays so", () => {
    const nowMs = Date.parse("2026-06-01T10:00:00Z");
    const need = [0.3, 0.5, 0.7, 0.9, 1.1];
    const slip = repacked("2036-05-01T10:00:00Z");
    const without = after(need, [], nowMs);
    const care = after(need, [slip], nowMs);
    expect(care).toMatchObject({ state: "attend", readings: 5, startH: 0, since: { service: null } });
    expect(care).toMatchObject({ sure: without.sure, measureNext: without.measureNext });
    // once its day has come it is done
    expect(after(need, [slip], Date.parse("2036-05-02T10:00:00Z")).readings).toBe(0);
    // it stands in the list, so that it can be taken out, and is not judged
    expect(care.services).toMatchObject([{ service: slip, yetToCome: true, effect: { toldApart: null } }]);
    // nor does it hide what was done before it
    const two = after(need, [repacked("2026-04-14T10:00:00Z"), slip], nowMs);
    expect(two.readings).toBe(3);
    expect(two.services.map(({ yetToCome }) => yetToCome)).toEqual([false, true]);
  });
});
