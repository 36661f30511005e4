import { describe, expect, test } from "vitest";
import {
  chanceByAccident,
  circumstances,
  faults,
  type Sign,
  signWords,
} from "../../src/care/suspect-table.ts";
import { suspectsOf } from "../../src/care/suspects.ts";

const suspectsBy = (signs: [Sign, number][]) => suspectsOf(() => new Map(signs));
const named = (signs: [Sign, number][]) => suspectsBy(signs).map(({ name }) => name);

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
      suspectsBy(signs).find(({ name }) => name === "gland")?.weight ?? 0;
    expect(weightOf([["water-up", 0.97]])).toBeGreaterThan(0.1);
    expect(
      weightOf([
        ["water-up", 0.97],
        ["gland-seen", 0.05],
      ]),
    ).toBeLessThan(weightOf([["water-up", 0.97]]) / 2);
  });

  test("each says what speaks for and against it, as common practice, and the check that would tell it from its rival", () => {
    const [first, second] = suspectsBy([
      ["shut-in-water", 0.97],
      ["shut-in-falls", 0.6],
      ["lifts-early", 0.05],
    ]);
    expect([first?.name, second?.name]).toEqual(["clack", "regulator"]);
    expect(first?.speaksFor).toContain(signWords["shut-in-water"]);
    expect(first?.why).toMatch(/^For: .* Against: .* By common practice, \d+ in 100\.$/);
    expect(first?.check).toContain("thermometer strapped to the feed pipe");
    expect(second?.check).toMatch(/To tell the regulator from the clack: .*if so, it is rather the clack/);
  });

  test("the fitting that speaks is named, for its own kind and against the others", () => {
    const signs = new Map<Sign, number>([
      ["gland-seen", 0.97],
      ["water-up", 0.9],
      ["shut-in-falls", 0.9],
    ]);
    const suspects = suspectsOf(() => signs, faults, new Map([["gland-seen", ["Right piston gland"]]]));
    const gland = suspects.find(({ name }) => name === "gland");
    expect(gland).toMatchObject({ fittings: ["Right piston gland"] });
    expect(gland?.why).toContain("a gland drips or is seen to leak (Right piston gland)");
    for (const other of suspects.filter(({ name }) => name !== "gland")) {
      expect(other.fittings).toEqual([]);
      expect(other.speaksAgainst.join()).toContain("(Right piston gland), which it would not explain");
    }
    expect(suspects.length).toBeGreaterThan(1);
  });

  test("what speaks against is named: a sign it would not explain, and one that is wanting", () => {
    const clack = suspectsBy([
      ["shut-in-water", 0.97],
      ["shut-in-falls", 0.9],
      ["feed-pipe-hot", 0.05],
      ["level-low", 0.55],
      ["glass-high", 0.9],
    ]).find(({ name }) => name === "clack");
    expect(clack?.speaksAgainst).toEqual([
      `${signWords["level-low"]}, which it would not explain`,
      `not so that ${signWords["feed-pipe-hot"]}`,
    ]);
  });

  test("no more than three are listed, each with something that speaks for it and a tenth of the blame", () => {
    const listed = suspectsBy([
      ["water-up", 0.95],
      ["pressure-sags", 0.95],
    ]);
    expect(listed.length).toBeGreaterThan(1);
    expect(listed.length).toBeLessThanOrEqual(3);
    for (const { weight, speaksFor } of listed) {
      expect(weight).toBeGreaterThanOrEqual(0.1);
      expect(speaksFor.length).toBeGreaterThan(0);
    }
  });

  test("a fault whose signs begin afresh is not held to what was before its service", () => {
    const signs = new Map<Sign, number>([
      ["shut-in-water", 0.97],
      ["shut-in-falls", 0.9],
    ]);
    const names = suspectsOf((fault) => (fault.kind === "clack" ? new Map() : signs)).map(({ name }) => name);
    expect(names[0]).toBe("regulator");
    expect(names).not.toContain("clack");
    expect(suspectsOf(() => new Map())).toEqual([]);
  });
});

test("every likelihood of the table is a chance, and more than accident", () => {
  const chances = faults.flatMap(({ shows }) => Object.entries(shows) as [Sign, number][]);
  expect(chances.length).toBeGreaterThan(25);
  expect(chances.every(([sign, chance]) => chance > chanceByAccident(sign) && chance < 1)).toBe(true);
  expect(faults.reduce((sum, { usual }) => sum + usual, 0)).toBeCloseTo(1, 12);
});
