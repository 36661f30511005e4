import { describe, expect, test } from "vitest";
import { careOf } from "../../src/care/care.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import type { Fitting } from "../../src/logbook/locomotive.ts";
import type { Service } from "../../src/logbook/service.ts";
import { engineWith, outing, recordsOf } from "./season-logbook.ts";

const valve: Fitting = { id: "valve", name: "Safety valve", kind: "safety-valve" };
const gland: Fitting = { id: "valve", name: "Gland", kind: "gland" };
const dry = (atS: number): Entry => ({ kind: "look", fitting: "valve", grade: "dry", atS });

/** Raised slowly until the valve lifts, read every ten seconds about it, and seen dry. */
const lifting = (week: number, liftBarG: number) =>
  outing(week, [
    ...Array.from(
      { length: 6 },
      (_, i): Entry => ({
        kind: "pressure",
        barG: liftBarG - 0.02 * (6 - i),
        atS: 1940 + 10 * i,
      }),
    ),
    { kind: "valve", state: "lifts", atS: 2000 },
    ...Array.from(
      { length: 6 },
      (_, i): Entry => ({
        kind: "pressure",
        barG: liftBarG - 0.05 * i,
        atS: 2000 + 10 * i,
      }),
    ),
    { kind: "valve", state: "reseats", atS: 2060 },
    dry(2500),
  ]);

/** Working pressure is 3 bar. */
function after(lifts: readonly number[], fitting = valve, services: Service[] = []) {
  const engine = engineWith([fitting]);
  const steamings = lifts.map((barG, week) => lifting(week, barG));
  const [care] = careOf(engine, recordsOf(engine, steamings), services).fittings;
  if (care === undefined) throw new Error("no fitting came back");
  return care;
}

describe("a safety valve that lifts far too high", () => {
  test("is attended to however dry it is, with lift, working pressure and the limit of rise in its sentence", () => {
    const care = after([4.2, 4.2, 4.2, 4.2]);
    expect(care.state).toBe("attend");
    expect(care.why).toMatch(
      /^Lifted at 4\.\d bar .*on 2026-04-25, \d\d % above the working pressure of 3\.0 bar, where 10 % is the most/,
    );
    expect(care.measureNext).toContain("try the valve by a dial known to be right");
  });

  test("is so from the first lift on, and when it came to it by and by", () => {
    expect(after([4.2]).state).toBe("attend");
    expect(after([3.1, 3.1, 3.3, 3.7, 4.2]).state).toBe("attend");
  });

  test("is watched where it stands over the limit within the doubt of the dial", () => {
    expect(after([3.1, 3.35])).toMatchObject({ state: "watch", sure: "hardly sure" });
  });

  test("is held against its lifts since a service only", () => {
    const reSeated: Service = {
      id: "s",
      locomotiveId: "small",
      fittingId: "valve",
      at: "2026-04-08T10:00:00Z",
      what: "re-seated",
    };
    expect(after([4.2, 3.1, 3.1, 3.1], valve, [reSeated]).state).toBe("sound");
  });
});

test("a valve that is sound is said to be so of its leaking only", () => {
  const care = after([3.1, 3.1, 3.1, 3.1]);
  expect(care.state).toBe("sound");
  expect(care.why).toContain("that is of leaking only, not of whether it lifts in time");
});

test("cold water under a pump lifts no valve that is judged, whatever the purpose says", () => {
  const engine = engineWith([valve]);
  const hydraulic = (purpose: "cold-hold" | "other" | "trial", litS?: number) => {
    const { entries, ...head } = lifting(0, 4.2);
    const fire: Entry[] = litS === undefined ? [] : [{ kind: "fire", state: "lit", atS: litS }];
    const pumped: Entry = { kind: "strokes", count: 20, barG: 3, atS: 60 };
    const steaming = { ...head, purpose, entries: [pumped, ...entries, ...fire] };
    return careOf(engine, recordsOf(engine, [steaming]), []).fittings[0]?.state;
  };
  for (const purpose of ["cold-hold", "other", "trial"] as const) {
    expect(hydraulic(purpose)).not.toBe("attend");
    expect(hydraulic(purpose, 3000)).not.toBe("attend");
    expect(hydraulic(purpose, 600)).toBe("attend");
  }
});

test("no other fitting is judged by the lift", () => {
  const care = after([4.2, 4.2, 4.2, 4.2], gland);
  expect(care.state).toBe("sound");
  expect(care.why).not.toContain("lift");
});

describe("a safety valve that lifts lower than it did", () => {
  const lifts = [3.1, 3.1, 3.1, 3.1, 3.1, 3.1, 2.4, 2.4, 2.4, 2.4, 2.4, 2.4];
  const care = (looked: boolean) => {
    const engine = engineWith([valve]);
    const steamings = lifts.map((barG, week) => {
      const { entries, ...head } = lifting(week, barG);
      return { ...head, entries: entries.filter(({ kind }) => looked || kind !== "look") };
    });
    return careOf(engine, recordsOf(engine, steamings), []).fittings[0];
  };

  test("is known by that though nobody caught or looked, and is to be read again where it lifts and reseats", () => {
    expect(care(false)).toMatchObject({ state: "watch", sure: "hardly sure", readings: 0 });
    expect(care(false)?.why).toMatch(
      /^Lift of the safety valve has gone down since .*; neither caught nor looked at in 12 h in steam.*, hardly sure\.$/,
    );
    expect(care(false)?.why).not.toContain("nothing is known");
    expect(care(false)?.measureNext).toContain("note where the safety valve lifts and reseats");
  });

  test("is as little sure where it was seen dry each time, which speaks of leaking only", () => {
    expect(care(true)).toMatchObject({ state: "watch", sure: "hardly sure" });
    expect(care(true)?.why).toMatch(/looked dry the last time.*, hardly sure\.$/);
    expect(care(true)?.measureNext).toContain("note where the safety valve lifts and reseats");
  });
});
