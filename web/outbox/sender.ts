import { addresses } from "../api/addresses.ts";
import { callSoon } from "./call-soon.ts";
import { departs, epochNow, learnOffset, unmeasuredEpoch } from "./clock.ts";
import type { EntryRecord } from "./database.ts";
import { unsent } from "./records.ts";
import { sendPiece } from "./send-entries.ts";
import { sendSteaming } from "./send-steaming.ts";
import { glimpseOffset, measureOffset } from "./server-clock.ts";
import { settleTimes } from "./settle-times.ts";
import { tellTabs } from "./tab-channel.ts";

const MOST_AT_ONCE = 200;
/** A clock that is set each time while it is measured is left alone for this time. */
const TRIES = 3;

/**
 * Asks for the server's time. It is measured where it is not known in this stretch of the phone's clock, or where the
 * answer departs from what is known of it.
 */
export async function reachServer(): Promise<void> {
  const ask = () => callSoon<{ nowMs: number }>("GET", addresses.clock);
  if (unmeasuredEpoch() === null) {
    const glimpse = await glimpseOffset(ask);
    if (glimpse === null || !departs(glimpse.offsetMs, glimpse.roundTripMs)) return;
  }
  for (let i = 0; i < TRIES; i++) {
    const epoch = epochNow();
    const found = await measureOffset(ask);
    if (found === null || !(await learnOffset(found.offsetMs, found.roundTripMs, epoch))) continue;
    tellTabs({ what: "clock", ...found });
    return;
  }
}

/**
 * Sends what the server has not been told, in the order in which it was written down.
 * @param isOurs asked before each piece: whether this tab is still the one that sends
 * @throws Refusal where the server does not answer or refuses the whole
 */
export async function sendAll(isOurs: () => Promise<boolean>): Promise<void> {
  for (let measured = 0; measured <= TRIES; ) {
    await settleTimes("best");
    const { steamings, entries } = await unsent();
    const begun = steamings.find((record) => record.settled === true);
    const piece = begun === undefined ? firstPiece(entries) : [];
    if (begun === undefined && piece.length === 0) {
      // the clock was set since it was measured: what was tapped since waits for its own offset
      if (steamings.length + entries.length === 0 || unmeasuredEpoch() === null) return;
      measured++;
      await reachServer();
    } else if (!(await isOurs())) return;
    else if (begun !== undefined) await sendSteaming(begun);
    else await sendPiece(piece);
  }
}

/** As many new entries of one steaming as stand together, or one correction or deletion. */
function firstPiece(entries: readonly EntryRecord[]): EntryRecord[] {
  const ready = entries.filter((entry) => entry.settled === true || entry.pending === "delete");
  const first = ready[0];
  if (first === undefined) return [];
  if (first.pending !== "add") return [first];
  const end = ready.findIndex((entry) => entry.pending !== "add" || entry.steamingId !== first.steamingId);
  return ready.slice(0, Math.min(end === -1 ? ready.length : end, MOST_AT_ONCE));
}
