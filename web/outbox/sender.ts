import { addresses } from "../api/addresses.ts";
import { call, Refusal } from "../api/client.ts";
import { learnOffset, offsetKnown } from "./clock.ts";
import type { EntryRecord, LogEntry, SteamingRecord } from "./database.ts";
import { settleEntries, type Told, unsent } from "./records.ts";
import { measureOffset } from "./server-clock.ts";
import { settleTimes } from "./settle-times.ts";
import { changeSteaming } from "./steamings.ts";

const MOST_AT_ONCE = 200;
/** Beside the track a server that takes longer is out of reach. */
const PATIENCE_MS = 8000;

interface Answer {
  id: string | null;
  status: number;
  message?: string;
}

/** Asks for the server's time where it is not known in this stretch of the phone's clock; else just whether it answers. */
export async function reachServer(): Promise<void> {
  const ask = () => call<{ nowMs: number }>("GET", addresses.clock, undefined, PATIENCE_MS);
  if (offsetKnown()) {
    await ask();
    return;
  }
  const found = await measureOffset(ask);
  if (found !== null) await learnOffset(found.offsetMs, found.roundTripMs);
}

/**
 * Sends what the server has not been told, in the order in which it was written down.
 * @param isOurs asked before each piece: whether this tab is still the one that sends
 * @throws Refusal where the server does not answer or refuses the whole
 */
export async function sendAll(isOurs: () => Promise<boolean>): Promise<void> {
  await settleTimes();
  for (;;) {
    const { steamings, entries } = await unsent();
    const begun = steamings[0];
    if (begun !== undefined) {
      if (!(await isOurs())) return;
      await sendSteaming(begun);
      continue;
    }
    const piece = firstPiece(entries);
    if (piece.length === 0 || !(await isOurs())) return;
    await sendPiece(piece);
  }
}

/** As many new entries of one steaming as stand together, or one correction or deletion. */
function firstPiece(entries: readonly EntryRecord[]): EntryRecord[] {
  const first = entries[0];
  if (first === undefined) return [];
  if (first.pending !== "add") return [first];
  const end = entries.findIndex(
    (entry) => entry.pending !== "add" || entry.steamingId !== first.steamingId || entry.settled !== true,
  );
  return entries.slice(0, Math.min(end === -1 ? entries.length : Math.max(1, end), MOST_AT_ONCE));
}

async function sendSteaming(record: SteamingRecord): Promise<void> {
  try {
    await call("POST", addresses.steamings, { ...record.head, entries: [] }, PATIENCE_MS);
    await changeSteaming(record.id, ({ pending, ...rest }) => rest);
  } catch (error) {
    if (!(error instanceof Refusal) || !isFinal(error)) throw error;
    await changeSteaming(record.id, ({ pending, ...rest }) => ({ ...rest, refused: error.message }));
  }
}

const isFinal = (refusal: Refusal): boolean => [400, 409, 410, 413].includes(refusal.status);

async function sendPiece(piece: readonly EntryRecord[]): Promise<void> {
  const [first] = piece;
  if (first === undefined) return;
  if (first.settled !== true) {
    // written while the times of the others were settled
    await settleTimes();
    return;
  }
  try {
    if (first.pending === "add") await sendNew(first.steamingId, piece);
    else await sendChange(first);
  } catch (error) {
    // the steaming was taken out there: its entries stay here, and do not hold up those of another
    if (!(error instanceof Refusal) || error.status !== 404) throw error;
    await settleEntries(piece.map((sent) => ({ sent, refused: error.message })));
  }
}

async function sendNew(steamingId: string, piece: readonly EntryRecord[]): Promise<void> {
  const answers = await call<Answer[]>(
    "POST",
    addresses.entries(steamingId),
    piece.map(({ entry }) => entry),
    PATIENCE_MS,
  );
  const told: Told[] = [];
  for (const [i, sent] of piece.entries()) {
    const answer = answers[i];
    if (answer === undefined || answer.id !== sent.id) throw unreadable();
    if (answer.status < 300) told.push({ sent });
    else if (answer.status === 410) told.push({ sent, deleted: true });
    else if (answer.status === 409) told.push({ sent, entry: await asKept(sent) });
    else told.push({ sent, refused: answer.message ?? `status ${answer.status}` });
  }
  await settleEntries(told);
}

async function sendChange(record: EntryRecord): Promise<void> {
  const path = addresses.entry(record.steamingId, record.id);
  try {
    if (record.pending === "delete") await call("DELETE", path, undefined, PATIENCE_MS);
    else await call("PUT", `${path}?correction=true`, record.entry, PATIENCE_MS);
    await settleEntries([{ sent: record }]);
  } catch (error) {
    if (!(error instanceof Refusal) || !isFinal(error)) throw error;
    await settleEntries([
      error.status === 410 ? { sent: record, deleted: true } : { sent: record, refused: error.message },
    ]);
  }
}

/** The server has it already and it was corrected there since: what it says there stands. */
async function asKept(record: EntryRecord): Promise<LogEntry> {
  const { entries } = await call<{ entries: LogEntry[] }>("GET", addresses.steaming(record.steamingId));
  return entries.find((entry) => entry.id === record.id) ?? record.entry;
}

const unreadable = () => new Refusal(200, "unreadable", "The server's answer cannot be read.");
