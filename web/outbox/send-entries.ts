import { addresses } from "../api/addresses.ts";
import { Refusal } from "../api/client.ts";
import { callSoon } from "./call-soon.ts";
import type { EntryRecord, LogEntry } from "./database.ts";
import { type Answered, beginAgain, takeAnswers } from "./records.ts";
import { isFinal } from "./send-steaming.ts";
import { changeSteaming, steamingRecord } from "./steamings.ts";
import { heard, nextVersion, sameEntry, skipped, told, without } from "./versions.ts";

interface Answer {
  id: string | null;
  status: number;
  code?: string;
  message?: string;
}

type Becomes = Answered["becomes"];
const deletedThere: Becomes = (record) => ({ ...without(record, "pending", "told"), deleted: true });
const refused =
  (why: string): Becomes =>
  (record) => ({ ...without(record, "pending"), told: record.told ?? 0, refused: why });

/** @param piece new entries of one steaming, or one correction or deletion. @throws Refusal */
export async function sendPiece(piece: readonly EntryRecord[]): Promise<void> {
  const [first] = piece;
  if (first === undefined) return;
  try {
    if (first.pending === "add") await sendNew(first.steamingId, piece);
    else await sendChange(first);
  } catch (error) {
    if (!(error instanceof Refusal) || error.status !== 404) throw error;
    await steamingGone(first.steamingId, piece, error);
  }
}

/**
 * A server that never heard of the steaming was brought back to a state before it, or is a new one: all is sent again.
 * Where somebody took the steaming out, or the server refused it, its entries stay here, and hold up no other's.
 */
async function steamingGone(steamingId: string, piece: readonly EntryRecord[], error: Refusal) {
  const steaming = await steamingRecord(steamingId);
  if (error.code === "no-such-steaming" && steaming !== undefined && steaming.refused === undefined) {
    await beginAgain(steamingId);
  } else {
    const why =
      steaming?.refused ??
      (error.code === "steaming-removed" ? "it was taken out at the server" : error.message);
    // so that the steaming itself can be sent again, and its entries with it
    await changeSteaming(steamingId, (record) => ({ ...record, refused: why }));
    await takeAnswers(piece.map((sent) => ({ sent, becomes: refused(why) })));
  }
}

async function sendNew(steamingId: string, piece: readonly EntryRecord[]): Promise<void> {
  const answers = await callSoon<Answer[]>("POST", addresses.entries(steamingId), piece.map(nextVersion));
  const taken: Answered[] = [];
  for (const [i, sent] of piece.entries()) {
    const answer = answers[i];
    if (answer === undefined || answer.id !== sent.id) {
      throw new Refusal(200, "unreadable", "The server's answer cannot be read.");
    }
    taken.push({ sent, becomes: await afterNew(sent, answer) });
  }
  await takeAnswers(taken);
}

async function afterNew(sent: EntryRecord, { status, code, message }: Answer): Promise<Becomes> {
  if (status < 300) return told;
  if (status === 410) return deletedThere;
  if (code === "entry-differs") return afterDiffering(sent);
  return (record) => skipped(record, message ?? `status ${status}`);
}

/**
 * The server has the entry with other content. Where that is a copy of ours from before its time was settled, or we
 * have corrections that follow, ours goes in as a correction, which keeps theirs; else it was corrected there since
 * it arrived, and what it says there stands.
 */
async function afterDiffering(sent: EntryRecord): Promise<Becomes> {
  const { entries } = await callSoon<{ entries: LogEntry[] }>("GET", addresses.steaming(sent.steamingId));
  const theirs = entries.find((entry) => entry.id === sent.id);
  // taken out meanwhile: the next try is told so
  if (theirs === undefined) return (record) => record;
  const isCopy = (sent.copied ?? []).some((atS) => sameEntry({ ...sent.entry, atS }, theirs));
  if (isCopy || sent.former !== undefined) return (record) => ({ ...record, pending: "correct", told: 0 });
  return (record) => heard(record, theirs);
}

async function sendChange(record: EntryRecord): Promise<void> {
  const path = addresses.entry(record.steamingId, record.id);
  try {
    if (record.pending === "delete") {
      await callSoon("DELETE", path);
      await takeAnswers([{ sent: record, becomes: deletedThere }]);
    } else {
      await callSoon("PUT", `${path}?correction=true`, nextVersion(record));
      await takeAnswers([{ sent: record, becomes: told }]);
    }
  } catch (error) {
    if (!(error instanceof Refusal) || !isFinal(error)) throw error;
    const becomes: Becomes =
      error.status === 410
        ? deletedThere
        : record.pending === "delete"
          ? refused(error.message)
          : (each) => skipped(each, error.message);
    await takeAnswers([{ sent: record, becomes }]);
  }
}
