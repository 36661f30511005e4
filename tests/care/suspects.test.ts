import { describe, expect, test } from "vitest";
import {
  CHANCE_BY_ACCIDENT,
  circumstances,
  faults,
  type Sign,
  signWords,
} from "../../src/care/suspect-table.ts";
import { suspectsOf } from "../../src/care/suspects.ts";

const named = (signs: [Sign, number][]) => suspectsOf(new Map(signs)).map(({ name }) => name);

describe("where to look first, by the pattern", () => {
  test.each<[string, [Sign, number][]]>([
    [
      "gland",
      [
        ["gland-seen", 0.97],
        ["shut-in-falls", 0.05],
        ["water-up", 0.9],
      ],
    ],
    [
      "regulator",
      [
        ["shut-in-falls", 0.97],
        ["creeps", 0.9],
        ["clack-seen", 0.05],
      ],
    ],
    [
      "clack",
      [
        ["shut-in-falls", 0.9],
        ["shut-in-water", 0.97],
        ["feed-pipe-hot", 0.95],
      ],
    ],
    [
      "safety valve",
      [
        ["lifts-early", 0.95],
        ["shut-in-falls", 0.9],
        ["fall-stops", 0.9],
      ],
    ],
    [
      "blow-by",
      [
        ["water-up", 0.97],
        ["shut-in-falls", 0.05],
        ["gland-seen", 0.05],
      ],
    ],
    [
      "priming",
      [
        ["water-to-fuel-up", 0.97],
        ["water-up", 0.9],
        ["glass-high", 0.9],
      ],
    ],
    [
      "pump",
      [
        ["pump-weak", 0.97],
        ["level-falls-pumping", 0.9],
        ["clack-seen", 0.05],
      ],
    ],
    [
      "low water",
      [
        ["level-low", 0.95],
        ["pressure-sags", 0.8],
      ],
    ],
  ])("%s", (name, signs) => {
    expect(named(signs)[0]).toBe(name);
  });

  test("nothing is suspected where nothing shows, nor for a glass that merely stood high", () => {
    expect(
      named([
        ["gland-seen", 0.05],
        ["water-up", 0.1],
        ["glass-high", 0.9],
      ]),
    ).toEqual([]);
    expect(circumstances).toEqual(["glass-high"]);
  });

  test("a gland that was looked at and found dry is suspected less than one that nobody looked at", () => {
    const weightOf = (signs: [Sign, number][]) =>
      suspectsOf(new Map(signs)).find(({ name }) => name === "gland")?.weight ?? 0;
    expect(weightOf([["water-up", 0.97]])).toBeGreaterThan(0.1);
    expect(
      weightOf([
        ["water-up", 0.97],
        ["gland-seen", 0.05],
      ]),
    ).toBeLessThan(weightOf([["water-up", 0.97]]) / 2);
  });

  test("each says what speaks for and against it, and the check that would tell, as common practice", () => {
    const [clack] = suspectsOf(
      new Map<Sign, number>([
        ["shut-in-water", 0.97],
        ["gland-seen", 0.9],
      ]),
    );
    const all = suspectsOf(
      new Map<Sign, number>([
        ["shut-in-water", 0.97],
        ["pump-weak", 0.1],
      ]),
    );
    expect(clack?.speaksAgainst.concat(clack.speaksFor).length).toBeGreaterThan(0);
    const first = all.find(({ name }) => name === "clack");
    expect(first?.check).toContain("thermometer strapped to the feed pipe");
    expect(first?.speaksFor).toContain(signWords["shut-in-water"]);
    expect(first?.why).toContain("common practice");
  });
});

test("every likelihood of the table is a chance, and more than accident", () => {
  const chances = faults.flatMap(({ shows }) => Object.values(shows));
  expect(chances.length).toBeGreaterThan(25);
  expect(chances.every((chance) => chance > CHANCE_BY_ACCIDENT && chance < 1)).toBe(true);
  expect(faults.reduce((sum, { usual }) => sum + usual, 0)).toBeCloseTo(1, 12);
});
