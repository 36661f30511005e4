import type { SteamingHead } from "../../src/logbook/steaming.ts";
import { addresses } from "../api/addresses.ts";
import { Refusal } from "../api/client.ts";
import { callSoon } from "./call-soon.ts";
import type { SteamingRecord } from "./database.ts";
import { beginAgain } from "./records.ts";
import { changeSteaming, differing, withParticulars } from "./steamings.ts";
import { tellTabs } from "./tab-channel.ts";

/** The server's no to what was sent, and not to the sender or the moment. */
export const isFinal = (refusal: Refusal): boolean => [400, 409, 410, 413].includes(refusal.status);

/** @throws Refusal where the server does not answer or refuses the sender */
export async function sendSteaming(record: SteamingRecord): Promise<void> {
  try {
    const head = await ways[record.pending ?? "begin"](record);
    await changeSteaming(record.id, (now) => asTold(now, record, head));
  } catch (error) {
    const isGone = record.pending === "change" && error instanceof Refusal && error.status === 404;
    // a server that never heard of it was brought back to a state before it
    if (isGone && error.code === "no-such-steaming") return beginAgain(record.id);
    // one that was taken out there must not hold up the others
    if (!(error instanceof Refusal) || !(isGone || isFinal(error))) throw error;
    await changeSteaming(record.id, ({ pending, dropped, ...rest }) => ({ ...rest, refused: error.message }));
  }
  tellTabs({ what: "written", steamingId: record.id });
}

/** What was changed here while it was sent is still to be sent, and so is that it was dropped or brought back. */
function asTold(now: SteamingRecord, sent: SteamingRecord, there: SteamingHead): SteamingRecord {
  if (now.pending !== sent.pending) return now;
  const { pending, copied, changed, ...rest } = now;
  const since = differing(rest.head, sent.head);
  if (since.length === 0) return { ...rest, head: there };
  return { ...rest, head: withParticulars(there, rest.head, since), pending: "change", changed: since };
}

/** Particulars that were changed here, in the head that the server has: another device may have changed others. */
async function toldChanges({ id, head, changed = [] }: SteamingRecord): Promise<SteamingHead> {
  const mended = withParticulars(await headThere(id), head, changed);
  await callSoon("PUT", addresses.steaming(id), mended);
  return mended;
}

/** The head as the server has it afterwards. */
async function settledWith({
  head,
  engine,
  copied = [],
  changed = [],
}: SteamingRecord): Promise<SteamingHead> {
  const begin = () => callSoon("POST", addresses.steamings, { ...head, entries: [] });
  try {
    await begin();
    return head;
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    if (lacksEngine(error)) {
      await callSoon("POST", addresses.locomotives, engine);
      await begin();
      return head;
    }
    if (error.code !== "steaming-differs") throw error;
    const there = await headThere(head.id);
    if (there.locomotiveId !== head.locomotiveId) throw error;
    // it came by a copy that was saved before its start was settled; else somebody changed it there, and that stands
    const isCopy = copied.includes(there.startedAt);
    if (!isCopy && changed.length === 0) return there;
    const startedAt = isCopy ? head.startedAt : there.startedAt;
    const mended = withParticulars({ ...there, startedAt }, head, changed);
    await callSoon("PUT", addresses.steaming(head.id), mended);
    return mended;
  }
}

/** Another device may have written in it: then the server keeps it, and it comes back here with the server's no. */
async function toldDropped({ id, head }: SteamingRecord): Promise<SteamingHead> {
  await callSoon("DELETE", `${addresses.steaming(id)}?ifEmpty=true`).catch((error) => {
    if (error.status !== 404) throw error;
  });
  return head;
}

const ways = { begin: settledWith, change: toldChanges, drop: toldDropped };

/** The server was brought back to a state before the engine, or is a new one. */
const lacksEngine = (refusal: Refusal): boolean =>
  refusal.status === 400 && refusal.problems.some(({ path }) => path === "locomotiveId");

async function headThere(id: string): Promise<SteamingHead> {
  type Whole = SteamingHead & { entries: unknown; traces?: unknown };
  const { entries, traces, ...head } = await callSoon<Whole>("GET", addresses.steaming(id));
  return head;
}
