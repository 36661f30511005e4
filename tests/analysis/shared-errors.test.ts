import { describe, expect, test } from "vitest";
import demonstration from "../../sample-data/demonstration.logbook.json" with { type: "json" };
import { analyse } from "../../src/analysis/analyse.ts";
import { readingErrors, sharedSource } from "../../src/analysis/state/instruments.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import { checkLogbook } from "../../src/logbook/read-logbook.ts";
import { type Figure, isMeasured, standardUncertainty } from "../../src/quantity/measured.ts";
import { figuresOf } from "./figures-of.ts";
import type { Recorded } from "./like-steamings.ts";

/**
 * What an error that all readings share does to a figure is found out by making it: the dial, the measure of feed, the
 * boiler's size or the fuel's heating value is set wrong by a tenth of its standard uncertainty, and the whole steaming
 * worked out again. The figure must move as its part of that name says, sign and all.
 */
const checked = checkLogbook(demonstration);
if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
const [locomotive] = checked.value.locomotives;
if (locomotive === undefined) throw new Error("the demonstration has no engine");
const errors = readingErrors(locomotive);
const STEP = 0.1;

const recordedOn = (day: string): Recorded => {
  const steaming = checked.ok && checked.value.steamings.find(({ id }) => id.endsWith(day));
  if (!steaming) throw new Error(`nothing was recorded on ${day}`);
  return { locomotive, steaming };
};
const withEntries = (of: Recorded, change: (entry: Entry) => Entry): Recorded => ({
  ...of,
  steaming: { ...of.steaming, entries: of.steaming.entries.map(change) },
});

const mistakes = {
  [sharedSource.dial(locomotive)]: (of: Recorded) =>
    withEntries(of, (entry) =>
      // a pointer that rests on its pin stays there
      entry.kind === "pressure" && entry.barG > 0
        ? { ...entry, barG: entry.barG + STEP * errors.pressureBiasBar }
        : entry,
    ),
  [sharedSource.feedScale(locomotive)]: (of: Recorded) =>
    withEntries(of, (entry) =>
      entry.kind === "feed" ? { ...entry, ml: entry.ml * (1 + STEP * errors.feedRelative) } : entry,
    ),
  [sharedSource.boilerVolume(locomotive)]: ({ steaming, locomotive }: Recorded): Recorded => {
    const { shape } = locomotive.boiler;
    if (shape.kind !== "horizontal") throw new Error("the demonstration's boiler lies");
    const larger = { ...shape, innerLengthMm: shape.innerLengthMm * (1 + STEP * 0.01) };
    return { steaming, locomotive: { ...locomotive, boiler: { ...locomotive.boiler, shape: larger } } };
  },
  [sharedSource.heatingValue(locomotive)]: ({ steaming, locomotive }: Recorded): Recorded => {
    const { lowerHeatingValueMJPerKg = Number.NaN } = locomotive.fuel;
    const richer = lowerHeatingValueMJPerKg * (1 + STEP * 0.01);
    return {
      steaming,
      locomotive: { ...locomotive, fuel: { ...locomotive.fuel, lowerHeatingValueMJPerKg: richer } },
    };
  },
};

const partOf = (figure: Figure | undefined, source: string): number =>
  (figure?.value === null || figure === undefined ? [] : figure.parts)
    .filter((part) => part.source === source)
    .reduce((sum, part) => sum + part.u, 0);

/** A source's sign is the same in all figures, but free: the boiler's counts against what was drawn. */
const SIGN: Record<string, number> = { [sharedSource.boilerVolume(locomotive)]: -1 };
/** Parts smaller than this share of the whole uncertainty are not looked into. */
const TELLS = 0.1;
/** Steps are not small without end, and the weights of the readings move a little with them. */
const NEAR = 0.12;
/** A wrong dial also moves the moment at which working pressure is met, which is judged by itself. */
const leftOut = (name: string, source: string) =>
  name === "power" && source === sharedSource.dial(locomotive as NonNullable<typeof locomotive>);

describe("an error in common moves each figure as its part of the uncertainty says", () => {
  test.each(["04-05", "06-07", "08-09", "08-16", "09-13"])("%s", (day) => {
    const recorded = recordedOn(day);
    const right = figuresOf(analyse(recorded.locomotive, recorded.steaming));
    let looked = 0;
    const refused = new Set<string>();
    for (const [source, make] of Object.entries(mistakes)) {
      const mistaken = make(recorded);
      const wrong = figuresOf(analyse(mistaken.locomotive, mistaken.steaming));
      for (const [name, figure] of Object.entries(right)) {
        if (figure === undefined || !isMeasured(figure) || leftOut(name, source)) continue;
        const part = partOf(figure, source);
        const other = wrong[name]?.value ?? null;
        if (other === null) {
          refused.add(name);
          continue;
        }
        const moved = (other - figure.value) / STEP;
        const u = standardUncertainty(figure);
        if (u === 0 || Math.max(Math.abs(part), Math.abs(moved)) < TELLS * u) continue;
        looked += 1;
        expect(
          Math.abs((SIGN[source] ?? 1) * moved - part) / Math.abs(part),
          `${source}: ${name}`,
        ).toBeLessThan(NEAR);
      }
    }
    expect(looked).toBeGreaterThanOrEqual(10);
    // one that is only just told may be told no more
    expect(refused.size).toBeLessThanOrEqual(1);
  });
});

/** Weighed on a scale, the water is what is missing of the weight less what was burnt: one error, two figures. */
test("fuel read wrongly moves what was drawn and what was burnt as their parts say, against one another", () => {
  const weighed = (leftG: number) => {
    const weight = (atS: number, g: number): Entry => ({ kind: "weight", atS, g });
    const fuel = (action: "added" | "remaining", g: number, atS: number): Entry => ({
      kind: "fuel",
      action,
      g,
      atS,
    });
    const fire = (state: "lit" | "out", atS: number): Entry => ({ kind: "fire", state, atS });
    const bar = (atS: number, barG: number): Entry => ({ kind: "pressure", atS, barG });
    const entries: Entry[] = [
      { kind: "fill", atS: 0, ml: 200 },
      fuel("added", 40, 1),
      bar(2, 0),
      weight(30, 3000),
      fire("lit", 60),
      bar(500, 2),
      bar(800, 2),
      weight(900, 2900),
      fire("out", 1000),
      weight(1001, 2880),
      fuel("remaining", leftG, 1002),
    ];
    const { id, startedAt } = { id: "weighed", startedAt: "2026-05-02T10:00:00+01:00" };
    const steaming = { id, locomotiveId: locomotive.id, purpose: "trial" as const, startedAt, entries };
    return analyse(locomotive, steaming);
  };
  const [right, wrong] = [weighed(10), weighed(10 + STEP * errors.massReadingG)];
  const source = "fuel left at look 1 of steaming weighed";
  for (const figure of [
    ({ totals }: typeof right) => totals?.waterDrawn,
    ({ totals }: typeof right) => totals?.fuelBurnt,
  ]) {
    const [before, after] = [figure(right), figure(wrong)];
    if (!before || !after || !isMeasured(before) || !isMeasured(after)) throw new Error("no such figure");
    // more left is less burnt: an error of the reading counts against its part
    expect((after.value - before.value) / (-STEP * partOf(before, source))).toBeCloseTo(1, 1);
  }
  expect(partOf(right.totals?.waterDrawn, source)).toBeLessThan(-0.5 * errors.massReadingG);
  expect(partOf(right.totals?.fuelBurnt, source)).toBeGreaterThan(0.5 * errors.massReadingG);
});
