import { describe, expect, test } from "vitest";
import demonstration from "../../sample-data/demonstration.logbook.json" with { type: "json" };
import { analyse } from "../../src/analysis/analyse.ts";
import { readingErrors } from "../../src/analysis/state/instruments.ts";
import type { Entry } from "../../src/logbook/entry.ts";
import { checkLogbook } from "../../src/logbook/read-logbook.ts";
import { type Figure, isMeasured } from "../../src/quantity/measured.ts";
import { figuresOf } from "./figures-of.ts";

/**
 * What the errors of single readings do to a figure is found out by making them: each reading in turn is set wrong by a
 * tenth of its standard uncertainty and the whole steaming worked out again. Together, in quadrature, the figure must
 * move by the part of its uncertainty that carries their name.
 */
const checked = checkLogbook(demonstration);
if (!checked.ok) throw new Error(JSON.stringify(checked.problems));
const { locomotives, steamings } = checked.value;
const locomotive = locomotives[0] as (typeof locomotives)[number];
const errors = readingErrors(locomotive);
const STEP = 0.1;

function movedBy(entry: Entry): Entry {
  switch (entry.kind) {
    case "level":
      return { ...entry, mm: entry.mm + STEP * errors.levelReadingMm };
    case "pressure":
      return { ...entry, barG: entry.barG + STEP * errors.pressureReadingBar };
    case "feed":
      return { ...entry, ml: entry.ml + STEP * errors.volumeReadingMl };
    case "drip":
      return { ...entry, g: entry.g + STEP * errors.massReadingG };
    case "fuel":
      return entry.g !== undefined
        ? { ...entry, g: entry.g + STEP * errors.massReadingG }
        : { ...entry, ml: (entry.ml ?? 0) + STEP * errors.volumeReadingMl };
    default:
      return entry;
  }
}

/** The weights of the readings move a little with them; what has no weights moves exactly. */
const WEIGHED = 0.15;
const EXACT = 1e-3;
/** What is thought of fittings counts the less the more was caught: over a tenth of an error its weight moves. */
const THOUGHT = 0.03;
const CASES = [
  {
    kind: "level",
    part: "readings",
    near: WEIGHED,
    of: ["raising", "running", "shut-in", "drawn", "a lap", "efficiency", "evaporation ratio"],
  },
  {
    // the power of raising has its readings of pressure in the moment at which the mark was met
    kind: "pressure",
    part: "pressure readings",
    near: WEIGHED,
    of: ["efficiency", "loss", "lift", "reseat", "highest", "rise"],
  },
  {
    kind: "fuel",
    part: "fuel readings",
    near: EXACT,
    of: [
      "fuel burnt",
      "fuel a lap",
      "efficiency",
      "evaporation ratio",
      "from and at 100 °C",
      "overall efficiency",
    ],
  },
  { kind: "feed", part: "each measure of feed", near: EXACT, of: ["pump", "pump's efficiency"] },
  {
    kind: "drip",
    part: "weighing",
    near: THOUGHT,
    of: ["drip"],
  },
];

const partOf = (figure: Figure, name: string): number =>
  isMeasured(figure)
    ? Math.hypot(
        ...figure.parts.filter((part) => part.name === name && part.source === undefined).map(({ u }) => u),
      )
    : Number.NaN;

describe("errors of single readings move each figure as its part of the uncertainty says", () => {
  for (const [day, fewest] of [
    ["06-07", 18],
    ["08-09", 11],
  ] as const) {
    test(day, () => {
      const steaming = steamings.find(({ id }) => id.endsWith(day)) as (typeof steamings)[number];
      const right = figuresOf(analyse(locomotive, steaming));
      let looked = 0;
      for (const { kind, part, near, of } of CASES) {
        const names = Object.keys(right).filter((name) =>
          of.some((one) => name === one || name.startsWith(`${one} `)),
        );
        const squares = new Map<string, number>();
        steaming.entries.forEach((entry, place) => {
          if (entry.kind !== kind) return;
          const entries = steaming.entries.with(place, movedBy(entry));
          const wrong = figuresOf(analyse(locomotive, { ...steaming, entries }));
          for (const name of names) {
            const moved = ((wrong[name]?.value ?? Number.NaN) - (right[name]?.value ?? Number.NaN)) / STEP;
            squares.set(name, (squares.get(name) ?? 0) + moved ** 2);
          }
        });
        for (const [name, square] of squares) {
          const figure = right[name];
          if (figure === undefined || !isMeasured(figure)) continue;
          looked += 1;
          expect(Math.sqrt(square) / partOf(figure, part), `${kind}: ${name}`).toBeGreaterThan(1 - near);
          expect(Math.sqrt(square) / partOf(figure, part), `${kind}: ${name}`).toBeLessThan(1 + near);
        }
      }
      expect(looked).toBeGreaterThanOrEqual(fewest);
    });
  }
});
