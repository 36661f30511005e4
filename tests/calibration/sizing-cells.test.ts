import { describe, expect, test } from "vitest";
import { CELLS, type Cell, coveredOf } from "./sizing-cells.ts";

/**
 * Wanted in every cell: 93 to 97 %, give or take twice the standard error of the simulation. Of 250 drawn runs to come that
 * would be 1.4 points (binomial); as their chances are known it is 0.2 to 0.9. Where two or three runs are read worse than they
 * differ, nothing in them tells a small spread from none: no bound that holds for every spread can be tight there. Such a
 * cell may cover more, but the bound is nowhere wider than the classical limit, which takes the errors for spread.
 */
const SEASONS = 250;
const mayCoverMore = ({ runs, spread, u }: Cell): boolean => runs <= 3 && u > spread;

describe("the 95 % bound in every cell of runs, spread and errors", () => {
  test.each(CELLS.map((cell, place) => [cell.runs, 100 * cell.spread, 100 * cell.u, cell, place] as const))(
    "%d runs, spread %d %, errors %d %",
    (_, __, ___, cell, place) => {
      const { percent, standardError, roomOverClassical } = coveredOf(cell, SEASONS, 70_001 + place);
      expect(standardError).toBeLessThan(1);
      expect(percent).toBeGreaterThan(93 - 2 * standardError);
      expect(percent).toBeLessThan(mayCoverMore(cell) ? 99.3 : 97 + 2 * standardError);
      expect(roomOverClassical).toBeLessThan(1.02);
    },
  );

  test.each([2, 3, 5])(
    "%d runs with poor readings added: the promise holds, and the bound comes in",
    (runs) => {
      const cell = { runs, spread: 0.11, u: 0.02 };
      const alone = coveredOf(cell, SEASONS, 71_001);
      for (const poor of [1, 3]) {
        const all = coveredOf({ ...cell, poor: { runs: poor, u: 0.2 } }, SEASONS, 71_001 + poor);
        expect(all.percent).toBeGreaterThan(93 - 2 * all.standardError);
        expect(all.percent).toBeLessThan(97 + 2 * all.standardError);
        expect(all.roomOverClassical).toBeLessThan(alone.roomOverClassical + 0.01);
      }
    },
  );
});
