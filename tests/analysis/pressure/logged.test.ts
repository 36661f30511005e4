import { expect, test } from "vitest";
import { loggedIn } from "../../../src/analysis/pressure/logged.ts";
import type { Trace } from "../../../src/logbook/steaming.ts";
import { timelineOf } from "../../../src/logbook/timeline.ts";
import { smallSteaming } from "../../support/small-logbook.ts";

const of = (traces: Trace[]) => loggedIn(timelineOf({ ...smallSteaming(), traces }));

test("a channel of a logger is counted without its gaps, from its first sample to its last", () => {
  const traces: Trace[] = [
    { channel: "pressureBarG", startS: 100, everyS: 0.5, values: [null, 1, 2, null, 3, null] },
  ];
  expect(of(traces)).toEqual([{ channel: "pressureBarG", samples: 3, fromS: 100.5, toS: 102, everyS: 0.5 }]);
});

test("traces of one channel count together, and have no one rate where theirs differ; channels stand apart", () => {
  const traces: Trace[] = [
    { channel: "levelMm", startS: 0, everyS: 10, values: [9, 8] },
    { channel: "pressureBarG", startS: 60, everyS: 1, values: [2, 2] },
    { channel: "pressureBarG", startS: 0, everyS: 2, values: [1, 1] },
  ];
  expect(of(traces)).toEqual([
    { channel: "pressureBarG", samples: 4, fromS: 0, toS: 61, everyS: null },
    { channel: "levelMm", samples: 2, fromS: 0, toS: 10, everyS: 10 },
  ]);
});

test("no samples, nothing logged", () => {
  expect(of([])).toEqual([]);
  expect(of([{ channel: "massG", startS: 0, everyS: 1, values: [null, null] }])).toEqual([]);
});
