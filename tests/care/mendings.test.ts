import { describe, expect, test } from "vitest";
import { careOf } from "../../src/care/care.ts";
import type { Fitting } from "../../src/logbook/locomotive.ts";
import type { Service } from "../../src/logbook/service.ts";
import type { Steaming } from "../../src/logbook/steaming.ts";
import { drip, engineWith, outing, recordsOf } from "./season-logbook.ts";

const gland: Fitting = { id: "gland", name: "Gland", kind: "gland", limitGPerMin: 0.5 };
const caught = (levels: readonly (number | null)[]): Steaming[] =>
  levels.map((g, week) => outing(week, g === null ? [] : [drip("gland", g)]));
const done = (week: number, what: Service["what"]): Service => ({
  id: `${what}-${week}`,
  locomotiveId: "small",
  fittingId: "gland",
  at: outing(week, []).startedAt,
  what,
});
function servicesAfter(steamings: Steaming[], services: Service[]) {
  const engine = engineWith([gland]);
  const [care] = careOf(engine, recordsOf(engine, steamings), services).fittings;
  return care?.services ?? [];
}

describe("services with nothing read between them", () => {
  const levels = [0.2, 0.27, 0.33, 0.42, null, null, 0.06, 0.07, 0.06];

  test("are judged as one mending, before the first against after the last, and named so", () => {
    const services = servicesAfter(caught(levels), [done(4, "nipped-up"), done(6, "repacked")]);
    expect(services).toHaveLength(2);
    for (const { effect } of services) {
      expect(effect).toMatchObject({ before: 4, after: 3, toldApart: true });
      expect(effect.words).toMatch(
        /^Nipped up 2026-05-02 and repacked 2026-05-16 with nothing caught or looked at between: judged together as one mending\. It helped: /,
      );
    }
  });

  test("three are one mending too, and one with readings on both sides stays by itself", () => {
    const steamings = caught([0.2, 0.3, 0.4, 0.35, 0.34, null, null, 0.05, 0.05]);
    const [first, ...others] = servicesAfter(steamings, [
      done(3, "nipped-up"),
      done(5, "cleaned"),
      done(6, "nipped-up"),
      done(7, "replaced"),
    ]);
    expect(first?.effect).toMatchObject({ before: 3, after: 2 });
    expect(first?.effect.words).not.toContain("one mending");
    for (const { effect } of others) {
      expect(effect).toMatchObject({ before: 2, after: 2 });
      expect(effect.words).toMatch(/^Cleaned 2026-05-09, nipped up 2026-05-16 and replaced 2026-05-23 with/);
    }
  });

  test("a look between is a reading: each is judged by itself", () => {
    const steamings = caught(levels);
    steamings[5] = outing(5, [{ kind: "look", fitting: "gland", grade: "weeping", atS: 2000 }]);
    const services = servicesAfter(steamings, [done(4, "nipped-up"), done(6, "repacked")]);
    expect(services.every(({ effect }) => !effect.words.includes("one mending"))).toBe(true);
  });
});

describe("a short life before a service", () => {
  test("is compared by its level: what two catches would have grown to is not made up", () => {
    const gap = Array.from({ length: 10 }, () => null);
    const [service] = servicesAfter(caught([0.1, 0.3, ...gap, 0.3, 0.31, 0.29]), [done(12, "nipped-up")]);
    // 0.2 before by its level, 0.3 since; a line through two catches would expect more than 2 g/min by now
    expect(service?.effect.difference.value).toBeCloseTo(0.1, 2);
    expect(service?.effect.toldApart).toBe(false);
    expect(service?.effect.words).toMatch(
      /^Not told apart: mean 0\.30 g\/min since, where 0\.20 passed before \(2 catches before, too few for a course, so levels are compared; 3 since\)/,
    );
  });

  test("of one catch far above what passes since is told to have been helped", () => {
    const [service] = servicesAfter(caught([0.6, 0.05, 0.06, 0.05]), [done(1, "repacked")]);
    expect(service?.effect.toldApart).toBe(true);
    expect(service?.effect.words).toMatch(/^It helped: mean 0\.05\d g\/min since, where 0\.60 passed before/);
  });

  test("nothing read since says what would settle it", () => {
    const [service] = servicesAfter(caught([0.4, 0.42, 0.45, null]), [done(3, "repacked")]);
    expect(service?.effect).toMatchObject({ toldApart: null });
    expect(service?.effect.moreSteamings).toBeGreaterThan(0);
    expect(service?.effect.words).toMatch(
      /^Cannot be judged yet: nothing was caught since; a catch at \d+ more steamings? would tell if it passes half as much\.$/,
    );
  });
});
