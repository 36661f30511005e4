import { expect, test } from "vitest";
import type { EntryRecord, LogEntry } from "../../../web/outbox/database.ts";
import {
  corrected,
  heard,
  nextVersion,
  skipped,
  timed,
  told,
  toldAnew,
} from "../../../web/outbox/versions.ts";

const entry = (barG: number, atS = 10): LogEntry => ({ id: "e", atS, kind: "pressure", barG });
const raw = { phoneMs: 0, steadyMs: 0, epoch: "now", offsetMs: null };
const fresh: EntryRecord = {
  id: "e",
  steamingId: "s",
  entry: entry(42),
  raw,
  pending: "add",
  revision: 1,
};
const sent: EntryRecord = { id: "e", steamingId: "s", entry: entry(42), raw, settled: true, revision: 1 };

/** What the server is told, one after the other. */
function tellings(record: EntryRecord): (readonly [string | undefined, LogEntry])[] {
  const all: (readonly [string | undefined, LogEntry])[] = [];
  for (let now = record; now.pending !== undefined && all.length < 9; now = told(now)) {
    all.push([now.pending, nextVersion(now)]);
  }
  return all;
}

test("an entry corrected before it was sent is sent as it was first, then each correction in its turn", () => {
  const record = corrected(corrected(fresh, entry(4.2)), entry(4.3));
  expect(record.former).toEqual([entry(42), entry(4.2)]);
  expect(tellings(record)).toEqual([
    ["add", entry(42)],
    ["correct", entry(4.2)],
    ["correct", entry(4.3)],
  ]);
});

test("of an entry that the server has only the corrections are sent", () => {
  expect(tellings(corrected(sent, entry(4.2)))).toEqual([["correct", entry(4.2)]]);
});

test("a correction between two tellings goes on where the telling stands", () => {
  const half = told(corrected(corrected(fresh, entry(4.2)), entry(4.3)));
  expect(tellings(corrected(half, entry(4.4)))).toEqual([
    ["correct", entry(4.2)],
    ["correct", entry(4.3)],
    ["correct", entry(4.4)],
  ]);
});

test("a correction leaves the time to be settled where the owner did not change it, and not where the owner did", () => {
  const record = corrected(corrected(fresh, entry(4.2)), entry(4.2, 99));
  expect(record.settled).toBeUndefined();
  const settled = timed(record, 12.5);
  expect(settled.settled).toBe(true);
  expect([...(settled.former ?? []), settled.entry].map(({ atS }) => atS)).toEqual([12.5, 12.5, 99]);
});

test("what the server refuses is passed over where a correction follows it; what is corrected after a refusal is sent", () => {
  const record = skipped(corrected(fresh, entry(4.2)), "barG: wanted less");
  expect(tellings(record)).toEqual([["correct", entry(4.2)]]);
  const refused = skipped(fresh, "barG: wanted less");
  expect(refused.refused).toBe("barG: wanted less");
  expect(refused.pending).toBeUndefined();
  const mended = corrected(refused, entry(4.2));
  expect(mended.refused).toBeUndefined();
  expect(tellings(mended).at(-1)).toEqual(["correct", entry(4.2)]);
});

test("what another device makes of an entry keeps what it replaces; its own echo replaces nothing", () => {
  const other = heard(sent, entry(4.4));
  expect(other.former).toEqual([entry(42)]);
  expect(other.entry).toEqual(entry(4.4));
  expect(heard(sent, { barG: 42, kind: "pressure", atS: 10, id: "e" }).former).toBeUndefined();
  expect(tellings(corrected(other, entry(4.5)))).toEqual([["correct", entry(4.5)]]);
});

test("an entry that the server has no more is told from its first version on", () => {
  const record = toldAnew(told(told(corrected(fresh, entry(4.2)))));
  expect(tellings(record)).toEqual([
    ["add", entry(42)],
    ["correct", entry(4.2)],
  ]);
});

test("a record that an older form of the program left half sent is told whole", () => {
  const old: EntryRecord = { ...sent, entry: entry(4.2), former: [entry(42)], pending: "correct" };
  expect(tellings(old).map(([, version]) => version)).toEqual([entry(42), entry(4.2)]);
});
