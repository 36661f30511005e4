import type { Entry } from "../../src/logbook/entry.ts";
import type { LogbookFile } from "../../src/logbook/logbook-file.ts";
import { smallEngine } from "../support/small-logbook.ts";

/** As the recorder makes them: a version 7 UUID (RFC 9562). */
const recorderId = (i: number) =>
  `0197f3a2-${String(1000 + i)}-7abc-8def-${String(100_000_000_000 + 7919 * i)}`;

/** Three hours with 300 entries by hand, invented: what a keen recorder writes in an afternoon. */
export function longSteaming(): LogbookFile {
  const entries: Entry[] = [
    { kind: "fuel", action: "added", ml: 200, atS: 0 },
    { kind: "fire", state: "lit", atS: 30 },
    { kind: "regulator", state: "open", atS: 900 },
  ];
  for (let i = 0; i < 99; i++) {
    const atS = 60 + i * 106;
    entries.push({
      kind: "pressure",
      barG: atS < 400 ? 0 : Math.min(3, (atS - 400) / 150) - 0.1 * (i % 3),
      atS,
    });
  }
  for (let i = 0; i < 80; i++) entries.push({ kind: "level", mm: 18 - (i % 8), atS: 90 + i * 131 });
  for (let i = 0; i < 85; i++) entries.push({ kind: "lap", count: 1, atS: 960 + i * 108 });
  for (let i = 0; i < 28; i++)
    entries.push({ kind: "feed", ml: 22, by: "hand-pump", strokes: 22, atS: 1100 + i * 340 });
  entries.push(
    { kind: "regulator", state: "shut", atS: 10_500 },
    { kind: "fire", state: "out", atS: 10_600 },
    { kind: "fuel", action: "remaining", ml: 20, atS: 10_790 },
    { kind: "pressure", barG: 2, atS: 10_790 },
    { kind: "level", mm: 12, atS: 10_800 },
  );
  entries.sort((a, b) => a.atS - b.atS);
  return {
    format: "lapwater-logbook",
    version: 1,
    locomotives: [{ ...smallEngine(), handPump: { mlPerStroke: 1 } }],
    steamings: [
      {
        id: "long",
        locomotiveId: "small",
        purpose: "trial",
        startedAt: "2026-06-06T13:00:00+01:00",
        conditions: { ambientC: 18, feedC: 16 },
        track: { lapM: 60 },
        entries: entries.map((entry, i) => ({ id: recorderId(i), ...entry })),
      },
    ],
    services: [],
  };
}
