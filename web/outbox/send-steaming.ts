import type { SteamingHead } from "../../src/logbook/steaming.ts";
import { addresses } from "../api/addresses.ts";
import { call, Refusal } from "../api/client.ts";
import type { SteamingRecord } from "./database.ts";
import { changeSteaming } from "./steamings.ts";

/** Beside the track a server that takes longer is out of reach. */
export const PATIENCE_MS = 8000;

/** The server's no to what was sent, and not to the sender or the moment. */
export const isFinal = (refusal: Refusal): boolean => [400, 409, 410, 413].includes(refusal.status);

/** @throws Refusal where the server does not answer or refuses the sender */
export async function sendSteaming(record: SteamingRecord): Promise<void> {
  try {
    const head = await settledWith(record);
    await changeSteaming(record.id, ({ pending, copied, ...rest }) => ({ ...rest, head }));
  } catch (error) {
    if (!(error instanceof Refusal) || !isFinal(error)) throw error;
    await changeSteaming(record.id, ({ pending, ...rest }) => ({ ...rest, refused: error.message }));
  }
}

/** The head as the server has it afterwards. */
async function settledWith({ head, engine, copied = [] }: SteamingRecord): Promise<SteamingHead> {
  const begin = () => call("POST", addresses.steamings, { ...head, entries: [] }, PATIENCE_MS);
  try {
    await begin();
    return head;
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    if (lacksEngine(error)) {
      await call("POST", addresses.locomotives, engine, PATIENCE_MS);
      await begin();
      return head;
    }
    if (error.code !== "steaming-differs") throw error;
    const there = await headThere(head.id);
    if (there.locomotiveId !== head.locomotiveId) throw error;
    // it came by a copy that was saved before its start was settled; else somebody changed it there, and that stands
    if (!copied.includes(there.startedAt)) return there;
    const mended = { ...there, startedAt: head.startedAt };
    await call("PUT", addresses.steaming(head.id), mended, PATIENCE_MS);
    return mended;
  }
}

/** The server was brought back to a state before the engine, or is a new one. */
const lacksEngine = (refusal: Refusal): boolean =>
  refusal.status === 400 && refusal.problems.some(({ path }) => path === "locomotiveId");

async function headThere(id: string): Promise<SteamingHead> {
  type Whole = SteamingHead & { entries: unknown; traces?: unknown };
  const { entries, traces, ...head } = await call<Whole>(
    "GET",
    addresses.steaming(id),
    undefined,
    PATIENCE_MS,
  );
  return head;
}
