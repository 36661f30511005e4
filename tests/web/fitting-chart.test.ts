import { expect, test } from "vitest";
import { bookOf } from "../../src/care/book.ts";
import { careOf } from "../../src/care/care.ts";
import type { Steaming } from "../../src/logbook/steaming.ts";
import { chartSentence, fittingChart, readingsTable } from "../../web/pages/fitter/fitting-chart.ts";
import { drip, engineWith, outing, recordsOf } from "../care/season-logbook.ts";

const engine = engineWith([{ id: "gland", name: "Gland", kind: "gland", limitGPerMin: 0.5 }]);

/** Three weeks, repacked, then four more, in the last of which nobody read the dial. */
function book() {
  const read = [0.2, 0.3, 0.4, 0.05, 0.06, 0.07].map((g, week) => outing(week, [drip("gland", g)]));
  const unread: Steaming = { ...outing(6, []), entries: [drip("gland", 0.08)] };
  const repacked = {
    id: "s",
    locomotiveId: "small",
    fittingId: "gland",
    at: outing(3, []).startedAt,
    what: "repacked" as const,
  };
  const [care] = bookOf(careOf(engine, recordsOf(engine, [...read, unread]), [repacked])).fittings;
  if (care === undefined) throw new Error("no fitting came back");
  return care;
}

test("the table lists what was left out of the course, as it was caught, with why", () => {
  const { rows } = readingsTable(book());
  expect(rows.map((row) => row[2])).toEqual([
    "left out, 0.080 g/min as caught: no pressure was read",
    "0.070 g/min",
    "0.060 g/min",
    "0.050 g/min",
    "0.40 g/min",
    "0.30 g/min",
    "0.20 g/min",
  ]);
});

test("the chart marks the service that ended the life before, and both lives with the limit", () => {
  const chart = fittingChart(book());
  const line = (label: string) => chart?.lines.find((one) => one.label === label);
  expect(line("now")?.points).toHaveLength(3);
  expect(line("before")?.points).toHaveLength(3);
  // three hours of steam, an hour standing in place of a minute of the axis
  expect(line("repacked")?.points.map(([x]) => x / 60)).toEqual([3, 3]);
  expect(line("limit")?.points.every(([, y]) => y === 0.5)).toBe(true);
  expect(line("course")?.band?.length).toBeGreaterThan(2);
  expect(chartSentence(book())).toMatch(/^3 catches .* since it was last done and 3 of the time before it,/);
});
