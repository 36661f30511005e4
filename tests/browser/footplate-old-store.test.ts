import { expect, test } from "vitest";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import { browserAndServer } from "../support/browser-and-server.ts";
import { sizes } from "../support/browser-page.ts";
import { entriesAt, recordsOnPhone } from "../support/footplate.ts";
import { restartableServer } from "../support/restartable-server.ts";

const { browser, server } = await browserAndServer(restartableServer());

const MINUTE_MS = 60_000;

/** What the first form of the phone's store held. */
interface FirstStore {
  entries: readonly object[];
  steamings: readonly object[];
  clock: readonly object[];
}

/** The store in its first form, as the first Footplate made it; runs in the page. */
const makeFirstStore = ({ entries, steamings, clock }: FirstStore): Promise<void> =>
  new Promise((resolve, reject) => {
    const opening = indexedDB.open("lapwater", 1);
    opening.onerror = () => reject(opening.error);
    opening.onupgradeneeded = () => {
      const database = opening.result;
      const shelf = database.createObjectStore("entries", { keyPath: "seq", autoIncrement: true });
      shelf.createIndex("id", "id", { unique: true });
      shelf.createIndex("steamingId", "steamingId");
      shelf.createIndex("pending", "pending");
      database.createObjectStore("steamings", { keyPath: "id" }).createIndex("pending", "pending");
      database.createObjectStore("clock", { keyPath: "id" });
      database.createObjectStore("kept");
    };
    opening.onsuccess = () => {
      const database = opening.result;
      const transaction = database.transaction(["entries", "steamings", "clock"], "readwrite");
      for (const each of entries) transaction.objectStore("entries").add(each);
      for (const each of steamings) transaction.objectStore("steamings").add(each);
      for (const each of clock) transaction.objectStore("clock").add(each);
      transaction.oncomplete = () => {
        database.close();
        resolve();
      };
      transaction.onabort = () => reject(transaction.error);
    };
  });

test("a phone's store of the first form is taken up as it is: every entry stands in it, what was not sent is sent, and what was refused is counted", async () => {
  const [engine] = (await server.ask("/api/locomotives")) as Locomotive[];
  // a start is told to the second
  const beganMs = 1000 * Math.floor(Date.now() / 1000) - 30 * MINUTE_MS;
  const startedAt = new Date(beganMs).toISOString().replace("Z", "+00:00");
  const head = (id: string) => ({ id, locomotiveId: engine?.id, purpose: "trial", startedAt });
  const raw = (minutes: number) => ({
    phoneMs: beganMs + minutes * MINUTE_MS,
    steadyMs: minutes * MINUTE_MS,
    epoch: "first-stretch",
    offsetMs: 0,
  });
  const lap = (id: string, minutes: number) => ({ id, atS: 60 * minutes, kind: "lap", count: 1 });
  const tapped = (steamingId: string, entry: { id: string; atS: number }) => ({
    id: entry.id,
    steamingId,
    entry,
    raw: raw(entry.atS / 60),
    revision: 1,
  });
  // of one steaming the server has a part already, of the other nothing
  const there = [lap("sent", 2), lap("mended-since", 4), lap("taken-out-since", 6)];
  await server.ask("/api/steamings", "POST", { ...head("sent-before"), entries: there });
  const mended = { ...lap("mended-since", 4), count: 3 };
  const first: FirstStore = {
    steamings: [
      { id: "sent-before", head: head("sent-before"), engine, raw: raw(0), settled: true },
      { id: "never-sent", head: head("never-sent"), engine, raw: raw(0), pending: "begin" },
    ],
    entries: [
      { ...tapped("sent-before", lap("sent", 2)), settled: true },
      {
        ...tapped("sent-before", mended),
        settled: true,
        pending: "correct",
        revision: 2,
        former: [lap("mended-since", 4)],
      },
      {
        ...tapped("sent-before", lap("taken-out-since", 6)),
        settled: true,
        pending: "delete",
        deleted: true,
      },
      { ...tapped("sent-before", lap("refused-before", 7)), settled: true, refused: "a reason" },
      { ...tapped("sent-before", lap("not-sent", 8)), pending: "add" },
      { ...tapped("never-sent", lap("first-of-all", 10)), pending: "add" },
      {
        ...tapped("never-sent", { ...lap("mended-at-once", 12), count: 2 } as never),
        pending: "add",
        revision: 2,
        former: [lap("mended-at-once", 12)],
      },
    ],
    clock: [
      {
        id: "first-stretch",
        sitting: "first-sitting",
        place: 0,
        beganMs,
        jumpMs: 0,
        offsetMs: 0,
        roundTripMs: 10,
      },
    ],
  };

  const context = await browser.newContext({ viewport: sizes.phone });
  const page = await context.newPage();
  // a page of the same address that opens no store
  await page.goto(`${server.address}/api/clock`);
  await page.evaluate(makeFirstStore, first);
  await page.goto(`${server.address}/#/footplate`);
  await page.getByText("0, and 1 refused, kept here").waitFor();

  const at = async (id: string) =>
    (await entriesAt(server, id)).map(({ id: entryId, atS, ...rest }) => [entryId, Math.round(atS), rest]);
  expect(await at("sent-before")).toEqual([
    ["sent", 120, { kind: "lap", count: 1 }],
    ["mended-since", 240, { kind: "lap", count: 3 }],
    ["not-sent", 480, { kind: "lap", count: 1 }],
  ]);
  expect(await at("never-sent")).toEqual([
    ["first-of-all", 600, { kind: "lap", count: 1 }],
    ["mended-at-once", 720, { kind: "lap", count: 2 }],
  ]);
  const onPhone = async (id: string) => (await recordsOnPhone(page, id)).map((record) => record.id);
  expect(await onPhone("sent-before")).toEqual([
    "sent",
    "mended-since",
    "taken-out-since",
    "refused-before",
    "not-sent",
  ]);
  expect(await onPhone("never-sent")).toEqual(["first-of-all", "mended-at-once"]);
  await context.close();
});
