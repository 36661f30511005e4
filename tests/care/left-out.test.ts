import { describe, expect, test } from "vitest";
import { careOf } from "../../src/care/care.ts";
import { careReportOf } from "../../src/care/care-report.ts";
import type { Fitting } from "../../src/logbook/locomotive.ts";
import type { Steaming } from "../../src/logbook/steaming.ts";
import { drip, engineWith, outing, recordsOf } from "./season-logbook.ts";

const gland: Fitting = { id: "gland", name: "Gland", kind: "gland", limitGPerMin: 0.5 };
const bookOf = (fitting: Fitting, steamings: Steaming[]) => {
  const engine = engineWith([fitting]);
  return careOf(engine, recordsOf(engine, steamings), []);
};
const careFor = (steamings: Steaming[]) => bookOf(gland, steamings).fittings[0];

/** An outing on which nobody read the dial. */
const unread = (week: number, gPerMin: number): Steaming => ({
  ...outing(week, []),
  entries: [drip("gland", gPerMin)],
});
const read = (week: number, gPerMin: number) => outing(week, [drip("gland", gPerMin)]);

describe("catches that cannot be carried to working pressure", () => {
  test("are counted with their reason, and reading the dial is what to do next", () => {
    const care = careFor([0, 1, 2, 3, 4].map((week) => unread(week, 0.1)));
    expect(care?.why).toContain("5 catches could not be carried to working pressure: no pressure was read");
    expect(care?.why).not.toContain("Neither caught");
    expect(care).toMatchObject({ state: "watch", sure: "nothing known", readings: 0, leak: null });
    expect(care?.measureNext).toContain("read the dial while you catch");
    expect(care?.leftOut[0]?.gPerMin).toBeCloseTo(0.1, 9);
  });

  test("over the limit as caught are watched at least, beside catches that are sound", () => {
    const sound = [0, 1, 2, 3].map((week) => read(week, 0.1));
    expect(careFor([...sound, unread(4, 0.4)])?.state).toBe("sound");
    const care = careFor([...sound, unread(4, 0.6)]);
    expect(care).toMatchObject({ state: "watch", sure: "hardly sure" });
    expect(care?.why).toContain("as caught one passed 0.60 g/min, over the limit of 0.50");
  });

  test("over the limit as caught are answered by a later catch that could be carried, and no longer watched", () => {
    const care = careFor([unread(0, 0.9), ...[1, 2, 3, 4, 5].map((week) => read(week, 0.05))]);
    expect(care?.state).toBe("sound");
    expect(care?.why).toContain("0.90 g/min, over the limit of 0.50, which is answered by catches since");
  });

  test("stay named once a later one is carried, but no longer say what to measure", () => {
    const care = careFor([unread(0, 0.1), read(1, 0.1)]);
    expect(care?.why).toContain("1 catch could not be carried");
    expect(care?.measureNext).not.toContain("read the dial");
  });

  test("give the report its reason for having no slope", () => {
    const [care] = careReportOf(bookOf(gland, [unread(0, 0.1)])).fittings;
    expect(care?.slope).toEqual({
      value: null,
      why: "1 catch could not be carried to working pressure: no pressure was read",
    });
  });
});

describe("catches in a cold hydraulic test", () => {
  const cold = (week: number, gPerMin: number): Steaming => ({
    ...read(week, gPerMin),
    purpose: "cold-hold",
  });

  test("are no leak of steam: they are left out of the course, and that is said", () => {
    const hot = [0, 1, 2, 3].map((week) => read(week, 0.1));
    const without = careFor(hot);
    const care = careFor([...hot, cold(4, 5), cold(5, 6)]);
    expect(care).toMatchObject({ state: "sound", readings: 4, measureNext: without?.measureNext });
    expect(care?.leak?.levelNow).toEqual(without?.leak?.levelNow);
    const words = "; 2 catches left out: caught in a cold hydraulic test, which is water and no steam";
    expect(care?.why).toContain(words);
    expect(care?.why.replace(words, "")).toBe(without?.why);
  });

  test("are so under another purpose where strokes raised the pressure, until the fire is lit", () => {
    const pumpedUp = (purpose: Steaming["purpose"], litS: number): Steaming => {
      const { entries, ...head } = read(0, 5);
      return {
        ...head,
        purpose,
        entries: [
          { kind: "strokes", count: 9, barG: 3, atS: 60 },
          ...entries,
          { kind: "fire", state: "lit", atS: litS },
        ],
      };
    };
    for (const purpose of ["other", "trial", "cold-hold"] as const) {
      expect(careFor([pumpedUp(purpose, 3000)])).toMatchObject({ readings: 0, leak: null });
      expect(careFor([pumpedUp(purpose, 1000)])?.readings).toBe(1);
    }
  });

  test("alone tell nothing, however much was caught", () => {
    const care = careFor([cold(0, 5)]);
    expect(care).toMatchObject({ state: "watch", sure: "nothing known", readings: 0, leak: null });
    expect(care?.measureNext).toContain("Look at the gland at working pressure");
  });
});

test("catches of a fitting without a limit are told as they are, with no state made of them", () => {
  const burner: Fitting = { id: "gland", name: "Burner", kind: "burner" };
  const weeks = [0.1, 0.2, 0.31].map((g, week) => read(week, g));
  const [care] = bookOf(burner, weeks).fittings;
  expect(care?.why).toBe("3 catches, last 0.31 g/min; no limit is set, so nothing is known of its state.");
  expect(care).toMatchObject({ state: "watch", sure: "nothing known", readings: 3 });
  expect(care?.measureNext).toContain("Set a limit for the burner");
});
