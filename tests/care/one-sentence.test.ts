import { expect, test } from "vitest";
import { careOf } from "../../src/care/care.ts";
import { careReportOf } from "../../src/care/care-report.ts";
import type { Fitting } from "../../src/logbook/locomotive.ts";
import type { Service } from "../../src/logbook/service.ts";
import type { Steaming } from "../../src/logbook/steaming.ts";
import { drip, engineWith, outing, recordsOf } from "./season-logbook.ts";

const gland: Fitting = { id: "gland", name: "Gland", kind: "gland", limitGPerMin: 0.5 };
const burner: Fitting = { id: "gland", name: "Burner", kind: "burner" };
const read = (week: number, gPerMin: number) => outing(week, [drip("gland", gPerMin)]);
const unread = (week: number, gPerMin: number): Steaming => ({
  ...read(week, gPerMin),
  entries: [drip("gland", gPerMin)],
});
const cold = (week: number): Steaming => ({ ...read(week, 5), purpose: "cold-hold" });
const ahead: Service = {
  id: "s",
  locomotiveId: "small",
  fittingId: "gland",
  at: "2036-05-01T10:00:00Z",
  what: "repacked",
};

const cases: [string, Fitting, Steaming[], Service[]][] = [
  ["read without a dial", gland, [unread(0, 0.9), read(1, 0.1)], []],
  ["never read with a dial", gland, [unread(0, 0.1)], []],
  ["held cold", gland, [read(0, 0.1), cold(1)], []],
  ["without a limit", burner, [read(0, 0.1), read(1, 0.1)], []],
  ["serviced ahead", gland, [read(0, 0.1)], [ahead]],
  ["never read", gland, [outing(0, [])], []],
  ["caught", gland, [0, 1, 2, 3, 4, 5].map((week) => read(week, 0.1 * week)), []],
];

/** A stop that ends a sentence has a space and a capital after it, or nothing. */
const sentences = (text: string) => text.split(/[.?!] (?=[A-Z])/).length;

test.each(cases)(
  "a fitting %s is told in one sentence that ends in how sure it is",
  (_, fitting, steamings, services) => {
    const engine = engineWith([fitting]);
    const care = careOf(engine, recordsOf(engine, steamings), services, Date.parse("2026-07-01"));
    const [own, report] = [care.fittings[0], careReportOf(care).fittings[0]];
    expect(own?.why).toMatch(/(, (hardly |fairly )?sure|, so nothing is known of its state)\.$/);
    expect(sentences(own?.why ?? "")).toBe(1);
    // what to measure next stands in the report's sentence: it has no other place for it
    expect(sentences(report?.why ?? "")).toBe(1);
    if (own?.measureNext === null) expect(report?.why).toBe(own.why);
    else
      expect(report?.why).toBe(
        `${own?.why.slice(0, -1)}; next: ${own?.measureNext?.replace(/^./, (c) => c.toLowerCase())}`,
      );
  },
);
