import { describe, expect, test } from "vitest";
import demonstration from "../../sample-data/demonstration.logbook.json" with { type: "json" };
import { analyse } from "../../src/analysis/analyse.ts";
import { reportOf } from "../../src/analysis/report.ts";
import { checkLogbook } from "../../src/logbook/read-logbook.ts";
import { enlarged, later, type Recorded } from "./like-steamings.ts";

const checked = checkLogbook(demonstration);
if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
const [locomotive] = checked.value.locomotives;
if (locomotive === undefined) throw new Error("the demonstration has no engine");
/**
 * Hand pump and laps; no glass; axle pump; shut in hot; safety valve. A film in an empty tank would not grow with it, nor does the
 * drop that a look at a fitting tells of.
 */
const CHOSEN = /-(04-05|05-24|06-07|08-09|08-16)$/;
const season: [string, Recorded][] = checked.value.steamings
  .filter(({ id }) => CHOSEN.test(id))
  .map((steaming) => [
    steaming.id,
    {
      locomotive,
      steaming: { ...steaming, entries: steaming.entries.filter(({ kind }) => kind !== "look") },
    },
  ]);

/** Every number, word and gap of a report by its path; of warnings only their codes, for their words carry numbers. */
function leaves(recorded: Recorded): Map<string, unknown> {
  const { warnings, ...report } = reportOf(analyse(recorded.locomotive, recorded.steaming));
  const found = new Map<string, unknown>();
  const walk = (value: unknown, path: string): void => {
    if (value === null || typeof value !== "object") found.set(path, value);
    else for (const [key, inside] of Object.entries(value)) walk(inside, `${path}/${key}`);
  };
  walk(report, "");
  walk(
    warnings.map((warning) => warning.code),
    "/warnings",
  );
  return found;
}

const LARGE = [
  /^\/phases\/\d+\/steamingRate\//,
  /^\/totals\/(waterDrawn|feed|fuelBurnt)\//,
  /^\/(perLap|per100m|perMinuteRunning)\//,
  /^\/raising\/power\//,
  /^\/cooling\//,
  /^\/pump\/perRevolution\//,
  /^\/engine\/dryDemand\//,
  /^\/leaks\/\d+\/rate\//,
  /^\/forecast\/waterAboveLowest\//,
];
const TIMES = 3;
const LATER_S = 1000;

function sizeOf(path: string): number {
  if (LARGE.some((large) => large.test(path))) return TIMES;
  return path.includes("/equivalentHole/") ? Math.sqrt(TIMES) : 1;
}

/** What is left is rounding, of figures of ordinary size. */
function expectSame(got: Map<string, unknown>, wanted: Map<string, unknown>): void {
  expect([...got.keys()]).toEqual([...wanted.keys()]);
  for (const [path, value] of wanted) {
    const other = got.get(path);
    if (typeof value !== "number" || typeof other !== "number") expect(other, path).toBe(value);
    else expect(Math.abs(other - value), path).toBeLessThanOrEqual(1e-6 * Math.abs(value) + 1e-8);
  }
}

describe("a steaming told otherwise is the same steaming", () => {
  test.each(season)(
    "%s: all of it three times as large gives three times the water, fuel and heat",
    (_, recorded) => {
      const small = leaves(recorded);
      const wanted = [...small].map(
        ([path, value]) => [path, typeof value === "number" ? value * sizeOf(path) : value] as const,
      );
      expectSame(leaves(enlarged(recorded, TIMES)), new Map(wanted));
    },
  );

  test.each(season)("%s: a clock started sooner changes the times of day and nothing else", (_, recorded) => {
    const wanted = [...leaves(recorded)].map(
      ([path, value]) =>
        [
          path,
          typeof value === "number" && /\/(fromS|toS|atS)$/.test(path) ? value + LATER_S : value,
        ] as const,
    );
    expectSame(leaves(later(recorded, LATER_S)), new Map(wanted));
  });
});
