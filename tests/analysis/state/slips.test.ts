import { describe, expect, test } from "vitest";
import { randomPlan } from "../../../sample-data/simulator/random-plan.ts";
import { simulate } from "../../../sample-data/simulator/simulate.ts";
import { analyse } from "../../../src/analysis/analyse.ts";
import { reportOf } from "../../../src/analysis/report.ts";
import { outlyingPressures } from "../../../src/analysis/state/slips.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { timelineOf } from "../../../src/logbook/timeline.ts";
import { smallSteaming } from "../../support/small-logbook.ts";

const seeds = [310_001, 310_002, 310_003];

/** The report of a simulated steaming with one more entry, and without; warnings apart. */
function withOneMore(seed: number, more: (entries: readonly Entry[], workingBarG: number) => Entry) {
  const plan = randomPlan(seed);
  plan.observer.traces = [];
  const { locomotive, steaming } = simulate(plan, seed);
  const told = (entries: readonly Entry[]) =>
    reportOf(analyse(locomotive, { ...steaming, entries: [...entries] }));
  const entries: Entry[] = steaming.entries.map((entry, i) => ({ ...entry, id: entry.id ?? `e${i}` }));
  const slip = more(entries, locomotive.workingPressureBarG);
  const after = entries.findIndex(({ atS }) => atS > slip.atS);
  const { warnings: _, ...without } = told(entries);
  const { warnings, ...figures } = told([...entries.slice(0, after), slip, ...entries.slice(after)]);
  return { without, figures, naming: warnings.filter(({ entries: ids }) => ids.includes("slip")) };
}

/** Half a second after the middle reading of its kind. */
const after = (entries: readonly Entry[], kind: Entry["kind"]): number => {
  const read = entries.filter((entry) => entry.kind === kind);
  return (read[read.length >> 1] as Entry).atS + 0.5;
};

describe("a reading that cannot have been is named and moves no figure", () => {
  test.each(seeds)("a pressure beyond any boiler between two others, steaming %i", (seed) => {
    const { without, figures, naming } = withOneMore(seed, (entries, workingBarG) => ({
      id: "slip",
      kind: "pressure",
      atS: after(entries, "pressure"),
      barG: 11 * workingBarG,
    }));
    expect(figures).toEqual(without);
    expect(naming.map(({ code }) => code)).toContain("reading-outlying");
    expect(naming[0]?.text).toContain("is left out");
  });

  test.each(seeds)("a level above the boiler, steaming %i", (seed) => {
    const { without, figures, naming } = withOneMore(seed, (entries) => ({
      id: "slip",
      kind: "level",
      atS: after(entries, "pressure"),
      mm: 900,
    }));
    expect(figures).toEqual(without);
    expect(naming.map(({ code }) => code)).toEqual(["level-beyond-boiler"]);
    expect(naming[0]?.text).toContain("No figure goes by it");
  });
});

describe("what only may be a slip is asked about and stays", () => {
  const outlying = (bars: readonly number[], everyS: number) =>
    outlyingPressures(
      timelineOf({
        ...smallSteaming(),
        entries: bars.map((barG, i) => ({ id: `p${i}`, kind: "pressure", atS: i * everyS, barG })),
      }),
      { pressureReadingBar: 0.05 },
      { workingPressureBarG: 3 },
    ).map(({ isSlip }) => isSlip);

  test.each([
    ["a tenth between two", [3, 0.3, 3], 60, true],
    ["beyond any valve, with minutes beside it", [2, 5, 2], 60, true],
    ["beyond any valve, but ten minutes off: it may have been stuck", [2, 5, 2], 600, false],
    ["ten times, ten minutes off", [2, 20, 2], 600, true],
    ["the last, however high: nothing came after it", [2, 20], 60, false],
    ["a peak under what a valve lets be", [2, 3.4, 2], 60, false],
  ] as const)("%s", (_, bars, everyS, isSlip) => {
    expect(outlying(bars, everyS)).toEqual([isSlip]);
  });
});
