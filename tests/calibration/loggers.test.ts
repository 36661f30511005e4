import { describe, expect, test } from "vitest";
import { calibrateLoggers, calibrateValves } from "./calibrate-loggers.ts";

/**
 * A logger beside the dial, each with a bias of its own, on simulated boilers shut in that the method was not built on.
 * Of the figures of a row an honest 95 % interval holds the truth fewer times than asked less than once in 50 such sets.
 * Among large leaks alone, which are thought less likely than small ones, the loss lies high: half of u is allowed there.
 */
const rows = calibrateLoggers(60_001, { any: 40, leaking: 34 });

describe("boilers shut in with a logger beside the dial", () => {
  test.each([
    ["loss, logger", 30, 0.86, 0.15, 0.4],
    ["loss, logger, large leak", 20, 0.86, 0.2, 0.5],
    ["leak, logger", 25, 0.86, 1, 0.4],
    ["dial less logger", 68, 0.88, 3, 0.4],
  ])(
    "%s: holds the truth, is given at least %i times, and is not blown up",
    (name, atLeast, least, widest, furthest) => {
      const row = rows.find((one) => one.name === name);
      expect(row?.given ?? 0).toBeGreaterThanOrEqual(atLeast);
      expect((row?.held ?? 0) / (row?.given ?? 1)).toBeGreaterThan(least);
      expect(row?.spread).toBeGreaterThan(0.5);
      expect(row?.spread).toBeLessThan(1.3);
      expect(Math.abs(row?.meanMiss ?? 9)).toBeLessThan(furthest);
      expect(row?.relativeU).toBeLessThan(widest);
    },
  );
});

const valves = calibrateValves(61_001, 40);

describe("safety valves with a logger beside them", () => {
  // a reseat that a plunge hides is told by what is thought of such plunges, and now and then far off: no limit of its spread
  test.each([
    ["valve lift, logger", 38, 1.3, 0.01],
    ["valve reseat, logger", 34, null, 0.03],
    ["valve reseat, logger, plunging", 8, null, 0.06],
    ["valve highest, logger", 38, 1.3, 0.01],
  ])(
    "%s: holds the truth, is given at least %i times, and is not blown up",
    (name, atLeast, spread, widest) => {
      const row = valves.find((one) => one.name === name);
      expect(row?.given ?? 0).toBeGreaterThanOrEqual(atLeast);
      expect((row?.held ?? 0) / (row?.given ?? 1)).toBeGreaterThan(0.86);
      if (spread !== null) expect(row?.spread).toBeLessThan(spread);
      expect(Math.abs(row?.meanMiss ?? 9)).toBeLessThan(0.5);
      expect(row?.relativeU).toBeLessThan(widest);
    },
  );
});
