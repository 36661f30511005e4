import { expect, test } from "vitest";
import { rateWithin, waterOf } from "../../../src/analysis/water/water.ts";
import type { Entry } from "../../../src/logbook/entry.ts";
import { isMeasured, standardUncertainty } from "../../../src/quantity/measured.ts";
import { smallEngine } from "../../support/small-logbook.ts";
import { bar, bypass, fire, level, regulator, sources } from "./water-log.ts";

const withPump = { ...smallEngine(), axlePump: { ramMm: 4, strokeMm: 10, strokesPerRev: 1 } };
const laps = [300, 350, 400, 450, 500, 1100, 1150, 1200].map(
  (atS): Entry => ({ kind: "lap", count: 1, atS }),
);
const glass = [0, 240, 400, 520, 700, 1000, 1200].map((atS, i) => level(24 - i, atS));
const log = (...more: Entry[]): Entry[] => [
  fire("lit", 0),
  bar(3, 0),
  ...glass,
  ...laps,
  ...more,
  bar(3, 1200),
];

/** Between her two runs, by her laps: from 500 s to a lap before 1100 s. */
function stood(...more: Entry[]) {
  const entries = log(...more).sort((a, b) => a.atS - b.atS);
  const from = sources(entries, withPump);
  const phase = from.phases.find(({ name, fromS }) => name === "standing" && fromS >= 500);
  const rate = rateWithin(waterOf(from), phase?.fromS ?? 0, phase?.toS ?? 0);
  if (!isMeasured(rate)) throw new Error("no rate");
  return { phase: [phase?.fromS, phase?.toS], u: standardUncertainty(rate) };
}

test("with the by-pass shut, and laps alone to say when she ran, a pump may have fed in what seems a stop", () => {
  const shut = stood(bypass("shut", 260));
  expect(shut.phase).toEqual([500, 1050]);
  // 0.65 of 0.126 ml at some 4.5 turns a second, in a third of the time; a stop usually draws little, which tells some of it
  expect(shut.u / ((60 * 0.65 * 0.126 * 4.5) / 3)).toBeCloseTo(0.9, 1);
  expect(stood(bypass("shut", 260), bypass("open", 500)).u).toBeLessThan(shut.u / 2);
});

test("not where the regulator says that she stood", () => {
  const at = [
    regulator("open", 250),
    regulator("shut", 500),
    regulator("open", 1050),
    regulator("shut", 1200),
  ];
  expect(stood(bypass("shut", 260), ...at).u).toBeLessThan(stood(bypass("shut", 260)).u / 2);
});
