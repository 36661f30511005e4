/** What a test does on a phone, in its browser: the outbox itself, without pages and without timers. */
import type { Entry } from "../../src/logbook/entry.ts";
import type { Locomotive } from "../../src/logbook/locomotive.ts";
import type { SteamingHead } from "../../src/logbook/steaming.ts";
import { newId } from "../../web/api/new-id.ts";
import {
  keepClock,
  lookAtClock,
  rawNow,
  recallClock,
  serverMovedMs,
  serverMsOf,
} from "../../web/outbox/clock.ts";
import { type EntryRecord, type LogEntry, type SteamingRecord, shelf } from "../../web/outbox/database.ts";
import { fetchSteaming } from "../../web/outbox/fetch-steaming.ts";
import { forgetClocks } from "../../web/outbox/forget-clocks.ts";
import { logbookCopy } from "../../web/outbox/logbook-copy.ts";
import * as records from "../../web/outbox/records.ts";
import { reachServer, sendAll } from "../../web/outbox/sender.ts";
import { momentOf, secondsSince } from "../../web/outbox/stamp.ts";
import { changeParticulars, changeSteaming, steamingRecord } from "../../web/outbox/steamings.ts";

export {
  beginAgain,
  correctEntry,
  deleteEntry,
  heardOfEntry,
  recordsOf,
  sendEntryAgain,
} from "../../web/outbox/records.ts";

export async function begin(engine: Locomotive, more: Partial<SteamingHead> = {}): Promise<string> {
  await keepClock();
  await recallClock();
  const raw = rawNow();
  const id = newId();
  const startedAt = momentOf(serverMsOf(raw));
  await records.keepSteaming(
    { id, locomotiveId: engine.id, purpose: "trial", startedAt, ...more },
    engine,
    raw,
  );
  return id;
}

/** Taps an entry now. */
export async function tap(steamingId: string, content: Record<string, unknown>): Promise<EntryRecord> {
  const raw = rawNow();
  const steaming = await steamingRecord(steamingId);
  if (steaming === undefined) throw new Error(`no steaming ${steamingId}`);
  const entry = { ...content, id: newId(), atS: secondsSince(steaming.head.startedAt, raw) } as LogEntry;
  return records.keepEntry({ steamingId, entry, raw });
}

/** One round with the server, as the background makes it; how it ended. */
export async function send(): Promise<string> {
  try {
    await reachServer();
    await sendAll(async () => true);
    return "sent";
  } catch (error) {
    return String(error);
  }
}

/** What the page does as it opens: takes up what the server has. */
export const takeUpFrom = fetchSteaming;

/** The same with what a test says that it has. */
export async function takeUp(head: SteamingHead, engine: Locomotive, entries: Entry[]): Promise<void> {
  const before = await records.toldBefore(head.id);
  await records.takeUpSteaming(head, engine, entries as LogEntry[], before);
}

export const steaming = (id: string): Promise<SteamingRecord | undefined> => steamingRecord(id);
export const copy = async (id: string): Promise<string> => (await logbookCopy(id))?.text ?? "";

/** Sets the phone's wall clock. @param hidden as it is when the phone lies in a pocket */
export async function setClock(byMs: number, hidden: boolean): Promise<void> {
  const show = (value: boolean) => {
    Object.defineProperty(document, "hidden", { configurable: true, value });
    document.dispatchEvent(new Event("visibilitychange"));
  };
  if (hidden) show(true);
  const set = window as unknown as { wrongMs: number };
  set.wrongMs += byMs;
  sessionStorage.setItem("wrongMs", String(set.wrongMs));
  if (hidden) show(false);
  await lookAtClock();
}

/** Sets it from the next page on: nobody sees it done. */
export function setClockUnseen(byMs: number): void {
  const { wrongMs } = window as unknown as { wrongMs: number };
  sessionStorage.setItem("wrongMs", String(wrongMs + byMs));
}

/** What the page does with its clock as it opens. */
export async function opens(): Promise<void> {
  await keepClock();
  await recallClock();
  await forgetClocks();
}

export const clocks = async () => (await shelf("clock")).getAll();
export const serverMoved = (): number => serverMovedMs.value;
export const finish = (id: string) => changeSteaming(id, (record) => ({ ...record, finished: true }));

export async function entitle(id: string, title: string): Promise<void> {
  const { head } = (await steamingRecord(id)) ?? {};
  if (head !== undefined) await changeParticulars(id, head, { ...head, title });
}
