import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { analyse } from "../../src/analysis/analyse.ts";
import { reportOf } from "../../src/analysis/report.ts";
import { reportSchema } from "../../src/analysis/report-schema.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import { checkLogbook } from "../../src/logbook/read-logbook.ts";
import { smallEngine, smallSteaming } from "../support/small-logbook.ts";

/** To three decimals, as finely as anyone writes. */
const number = (min: number, max: number) =>
  fc.double({ min, max, noNaN: true }).map((value) => Math.round(value * 1000) / 1000 + 0);
const at = number(-100, 20_000);

/** Entries of every kind with values from the sensible to the absurd, as far as the format lets them in. */
const anyEntry: fc.Arbitrary<Entry> = fc.oneof(
  fc.record({ kind: fc.constant("pressure" as const), barG: number(-1, 150), atS: at }),
  fc.record({ kind: fc.constant("level" as const), mm: number(-500, 500), atS: at }),
  fc.record({
    kind: fc.constant("feed" as const),
    ml: number(0, 1e4),
    by: fc.constantFrom("bottle", "hand-pump", "axle-pump", "injector"),
    atS: at,
  }),
  fc.record({
    kind: fc.constantFrom("fill" as const, "drained" as const, "blowdown" as const),
    ml: number(0, 1e4),
    atS: at,
  }),
  fc.record({
    kind: fc.constant("fuel" as const),
    action: fc.constantFrom("added", "remaining"),
    ml: number(0, 1e3),
    atS: at,
  }),
  fc.record({
    kind: fc.constant("fuel" as const),
    action: fc.constantFrom("added", "remaining"),
    g: number(0, 1e3),
    atS: at,
  }),
  fc.record({ kind: fc.constant("fire" as const), state: fc.constantFrom("lit", "out"), atS: at }),
  fc.record({ kind: fc.constant("regulator" as const), state: fc.constantFrom("open", "shut"), atS: at }),
  fc.record({ kind: fc.constant("bypass" as const), state: fc.constantFrom("open", "shut"), atS: at }),
  fc.record({ kind: fc.constant("valve" as const), state: fc.constantFrom("lifts", "reseats"), atS: at }),
  fc.record({ kind: fc.constant("lap" as const), count: fc.nat(50), atS: at }),
  fc.record({
    kind: fc.constant("temperature" as const),
    of: fc.constantFrom("feed", "ambient", "boiler"),
    celsius: number(-60, 350),
    atS: at,
  }),
  fc.record({ kind: fc.constant("weight" as const), g: number(0, 1e5), atS: at }),
  fc.record({
    kind: fc.constant("drip" as const),
    fitting: fc.constant("left-gland"),
    g: number(0, 100),
    overS: number(1, 600),
    atS: at,
  }),
  fc.record({ kind: fc.constant("strokes" as const), count: number(0, 100), barG: number(-1, 20), atS: at }),
  fc.record({ kind: fc.constant("pull" as const), newtons: number(-100, 100), atS: at }),
  fc.record({
    kind: fc.constant("phase" as const),
    name: fc.constantFrom("raising", "standing", "running", "shut-in"),
    atS: at,
  }),
) as fc.Arbitrary<Entry>;

describe("any file that the format lets in", () => {
  test("gives a report that keeps to its schema, with no figure that is not a number", () => {
    const engine = {
      ...smallEngine(),
      drivingWheelMm: 40,
      axlePump: { ramMm: 4, strokeMm: 5, strokesPerRev: 1 },
      handPump: { mlPerStroke: 1 },
      cylinders: { count: 2, boreMm: 12, strokeMm: 14, cutoff: 0.7 },
    };
    fc.assert(
      fc.property(
        fc.array(anyEntry, { maxLength: 25 }),
        fc.constantFrom("trial", "cold-hold", "safety-valve"),
        number(-60, 60),
        (entries, purpose, ambientC) => {
          const steaming = {
            ...smallSteaming(),
            purpose,
            entries,
            conditions: { ambientC, feedC: Math.max(0, ambientC) },
          };
          const checked = checkLogbook({
            format: "lapwater-logbook",
            version: 1,
            locomotives: [engine],
            steamings: [steaming],
            services: [],
          });
          if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
          const [one] = checked.value.steamings;
          if (one === undefined) throw new Error("the steaming was lost");
          const report = reportOf(analyse(engine, one));
          // JSON turns what is not a number into null, which the schema refuses where a number belongs
          expect(reportSchema.safeParse(JSON.parse(JSON.stringify(report))).error?.issues ?? []).toEqual([]);
        },
      ),
      { numRuns: 300, seed: 20_261_124 },
    );
  }, 60_000);

  test("of tubes that leave the shell, or leave no room, nothing is let in", () => {
    const shapes = [
      {
        kind: "horizontal",
        innerDiameterMm: 50,
        innerLengthMm: 100,
        tubes: [{ outerDiameterMm: 16, count: 1, centreHeightMm: 49 }],
      },
      {
        kind: "horizontal",
        innerDiameterMm: 50,
        innerLengthMm: 100,
        tubes: [{ outerDiameterMm: 25, count: 5, centreHeightMm: 25 }],
      },
      {
        kind: "vertical",
        innerDiameterMm: 50,
        innerHeightMm: 100,
        tubes: [{ outerDiameterMm: 20, count: 7 }],
      },
    ];
    for (const shape of shapes) {
      const file = {
        format: "lapwater-logbook",
        version: 1,
        steamings: [],
        services: [],
        locomotives: [{ ...smallEngine(), boiler: { ...smallEngine().boiler, shape } }],
      };
      const checked = checkLogbook(file);
      expect(checked.ok ? [] : checked.problems.map((problem) => problem.path)).toEqual([
        "locomotives[0].boiler.shape.tubes",
      ]);
    }
  });
});
